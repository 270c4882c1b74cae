import { mustSentence, requireWithin, shown } from "../../ground/complaint.js";

/** Windows a spectrum can be made with. */
export type WindowName = "rectangular" | "Hann" | "Hamming" | "triangle" | "Blackman" | "Blackman-Harris";

/** Coefficients a of the sums of cosines w_j = Σ (−1)^i a_i cos(2πij/n). */
const cosineSums: Readonly<Record<Exclude<WindowName, "triangle">, readonly number[]>> = Object.freeze({
  rectangular: [1],
  Hann: [0.5, 0.5],
  Hamming: [0.54, 0.46],
  Blackman: [0.42, 0.5, 0.08],
  "Blackman-Harris": [0.35875, 0.48829, 0.14128, 0.01168],
});

/** Windows in the order in which tables show them: from the sharpest line to the lowest leakage. */
export const windowNames: readonly WindowName[] = Object.freeze(["rectangular", "triangle", "Hamming", "Hann", "Blackman", "Blackman-Harris"] as const);

/**
 * Weights of a window, in its periodic form: the sample after the last would be the first again.
 *
 * The periodic form is the one for spectra; the symmetric form of filter design differs at the end. Take Hann unless you
 * have a reason; rectangular only for a line known to lie exactly on a bin; Blackman-Harris to see a small line beside a
 * large one.
 *
 * @param name   one of windowNames
 * @param length samples · whole number from 1
 * @returns      weights · 0…1 · [n]
 * @throws TypeError  when the name is unknown
 * @throws RangeError when the length is not a whole number from 1
 * @example windowWeights("Hann", 4) // 0, 0.5, 1, 0.5
 * @source F. J. Harris, "On the use of windows for harmonic analysis with the discrete Fourier transform", Proc. IEEE 66 (1978); coefficients as in scipy.signal.windows, against which they are tested
 */
export function windowWeights(name: WindowName, length: number): Float64Array {
  if (!windowNames.includes(name)) throw new TypeError(mustSentence("windowWeights", "name", `be one of ${windowNames.join(", ")}`, shown(name)));
  requireWithin("windowWeights", "length", length, 1, 2 ** 24, "samples");
  if (!Number.isInteger(length)) throw new RangeError(mustSentence("windowWeights", "length", "be a whole number", shown(length, "samples")));
  if (length === 1) return Float64Array.of(1);
  if (name === "triangle") return Float64Array.from({ length }, (_, j) => 1 - Math.abs((2 * j) / length - 1));
  const terms = cosineSums[name];
  const term = (a: number, i: number, j: number): number => (i % 2 === 0 ? a : -a) * Math.cos((2 * Math.PI * ((i * j) % length)) / length);
  return Float64Array.from({ length }, (_, j) => terms.reduce((sum, a, i) => sum + term(a, i, j), 0));
}
