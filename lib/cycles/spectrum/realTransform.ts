import { mustSentence } from "../../ground/complaint.js";
import { requireNoGap } from "./evenSamples.js";
import { fourierPlan } from "./fourier.js";

/** Bins 0…⌊n/2⌋ of a real record of `length` samples; the rest mirrors them. */
export interface RealTransform {
  readonly length: number;
  readonly real: Float64Array;
  readonly imaginary: Float64Array;
}

/**
 * The discrete Fourier transform of a real record of any length.
 *
 * X_k = Σ x_j e^{−2πijk/n}, unscaled, k = 0…⌊n/2⌋: bin k is the frequency k/n cycles a step. A cosine A·cos(2πkj/n + φ)
 * on bin k reads X_k = (A·n/2)·e^{iφ}. For a density or a power use periodogramDensity or powerSpectrum.
 *
 * @param values      any unit · [n], n ≥ 1 · NaN is refused
 * @returns length    n
 * @returns real, imaginary  unit of values · [⌊n/2⌋ + 1]
 * @throws RangeError when a value is NaN or infinite, or there is none
 * @example realTransform([1, 2, 3, 4]).real // 10, -2, -2
 * @source definition; checked against a naive sum, and against published rows
 */
export function realTransform(values: ArrayLike<number>): RealTransform {
  if (values.length === 0) throw new RangeError(mustSentence("realTransform", "values", "hold at least 1 value", "0"));
  requireNoGap("realTransform", values);
  const pairs = fourierPlan(values.length).forward(Float64Array.from(values));
  const bins = pairs.length / 2;
  const real: Float64Array = new Float64Array(bins);
  const imaginary: Float64Array = new Float64Array(bins);
  for (let k = 0; k < bins; k++) {
    real[k] = pairs[2 * k];
    imaginary[k] = pairs[2 * k + 1];
  }
  return Object.freeze({ length: values.length, real, imaginary });
}

/**
 * The real record whose transform is given: the way back of realTransform.
 *
 * x_j = (1/n) Σ X_k e^{2πijk/n}. Imaginary parts of bin 0 and, for even length, of the last bin cannot belong to a real
 * record and are not used.
 *
 * @param bins        as realTransform gives them · [⌊n/2⌋ + 1] each
 * @returns           values · [n]
 * @throws RangeError when the number of bins does not fit the length, or one is not finite
 * @example inverseRealTransform({ length: 2, real: Float64Array.of(3, -1), imaginary: Float64Array.of(0, 0) }) // 1, 2
 * @source definition
 */
export function inverseRealTransform({ length, real, imaginary }: RealTransform): Float64Array {
  const plan = fourierPlan(length);
  const bins = Math.floor(length / 2) + 1;
  if (real.length !== bins || imaginary.length !== bins) {
    throw new RangeError(mustSentence("inverseRealTransform", "real and imaginary", `hold ${bins} bins for length ${length}`, `${real.length} and ${imaginary.length}`));
  }
  const pairs: Float64Array = new Float64Array(2 * bins);
  for (let k = 0; k < bins; k++) {
    pairs[2 * k] = real[k];
    pairs[2 * k + 1] = imaginary[k];
  }
  return plan.inverse(pairs).slice();
}
