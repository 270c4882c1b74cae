import { binFrequencies } from "../cycles/spectrum/evenSamples.js";
import type { EvenSpectrumOptions } from "../cycles/spectrum/periodogramDensity.js";
import { realTransform } from "../cycles/spectrum/realTransform.js";
import { windowWeights } from "../cycles/spectrum/taperWindow.js";
import { mustSentence, requireReadings, requireWithin } from "../ground/complaint.js";

/** How two even records go together at each frequency. */
export interface CrossSpectrum {
  /** Bins 0…⌊segmentSteps/2⌋ · cycles per day. */
  readonly cyclesPerDay: Float64Array;
  /** One-sided cross density, conj(X)·Y: a lag of Y has a negative imaginary part · unit² d. */
  readonly real: Float64Array;
  readonly imaginary: Float64Array;
  /** One-sided densities of the two · unit² d. */
  readonly densityX: Float64Array;
  readonly densityY: Float64Array;
  /** Squared coherence as averaged, 0…1, too high by about 2(1 − γ²)/ν; exactly 1 for one segment · NaN where a density is 0. */
  readonly coherence: Float64Array;
  /** Segments used, and steps from one segment to the next. */
  readonly segments: number;
  readonly shiftSteps: number;
}

/** How segments are cut and which are used. */
export interface CrossSpectrumOptions extends Omit<EvenSpectrumOptions, "unit"> {
  /** Share of a segment that the next covers again · 0…0.95 · default 0.5. */
  readonly overlap?: number;
  /** Least share of steps present in a segment that is used · above 0 to 1 · default 1; missing steps then count as 0. */
  readonly leastPresent?: number;
}

/**
 * Cross spectrum, densities and coherence of two even records, averaged over overlapping segments.
 *
 * Segments that hold a missing value are dropped (fewer segments, never an invented value). The gain of a system from x to y is
 * √(real² + imaginary²)/densityX, its phase atan2(imaginary, real).
 *
 * @param x            any unit · even steps · [n] · NaN is missing
 * @param y            any unit · same steps · [n] · NaN is missing
 * @param segmentSteps length of a segment · steps · whole number, 4…n
 * @param options      see CrossSpectrumOptions; `removed` (default the mean) is taken from each segment
 * @returns            see CrossSpectrum, frozen; all NaN when no segment could be used
 * @throws RangeError  when lengths differ, a segment is longer than the record, or an option is out of range
 * @example crossSpectrum(outside, inside, 300, { stepSeconds: 3600 }).coherence[5] // 0.895
 * @source Welch's averaging; as scipy.signal.csd and scipy.signal.coherence, against which it is tested
 */
export function crossSpectrum(x: ArrayLike<number>, y: ArrayLike<number>, segmentSteps: number, options: CrossSpectrumOptions): CrossSpectrum {
  const { stepSeconds, window: name = "Hann", removed = "mean", overlap = 0.5, leastPresent = 1 } = options;
  const at = "crossSpectrum";
  if (y.length !== x.length) throw new RangeError(mustSentence(at, "y", `have the length of x, ${x.length}`, String(y.length)));
  requireWithin(at, "stepSeconds", stepSeconds, 1e-9, 1e12, "s");
  requireReadings(at, "x", x);
  requireReadings(at, "y", y);
  requireWithin(at, "segmentSteps", segmentSteps, 4, x.length, "steps");
  if (!Number.isInteger(segmentSteps)) throw new RangeError(mustSentence(at, "segmentSteps", "be a whole number", `${segmentSteps} steps`));
  requireWithin(at, "overlap", overlap, 0, 0.95);
  requireWithin(at, "leastPresent", leastPresent, Number.MIN_VALUE, 1);
  const weights = windowWeights(name, segmentSteps);
  const shiftSteps = Math.max(1, segmentSteps - Math.floor(segmentSteps * overlap));
  const bins = Math.floor(segmentSteps / 2) + 1;
  const [real, imaginary, densityX, densityY]: Float64Array[] = Array.from({ length: 4 }, () => new Float64Array(bins));
  let segments = 0;
  for (let from = 0; from + segmentSteps <= x.length; from += shiftSteps) {
    let present = 0;
    for (let i = from; i < from + segmentSteps; i++) if (Number.isFinite(x[i]) && Number.isFinite(y[i])) present++;
    if (present < leastPresent * segmentSteps) continue;
    segments++;
    const a = realTransform(weighted(x, y, from, weights, removed));
    const b = realTransform(weighted(y, x, from, weights, removed));
    for (let k = 0; k < bins; k++) {
      const sides = k === 0 || 2 * k === segmentSteps ? 1 : 2;
      densityX[k] += sides * (a.real[k] ** 2 + a.imaginary[k] ** 2);
      densityY[k] += sides * (b.real[k] ** 2 + b.imaginary[k] ** 2);
      real[k] += sides * (a.real[k] * b.real[k] + a.imaginary[k] * b.imaginary[k]);
      imaginary[k] += sides * (a.real[k] * b.imaginary[k] - a.imaginary[k] * b.real[k]);
    }
  }
  const power = weights.reduce((sum, w) => sum + w * w, 0);
  const scale = stepSeconds / 86400 / (power * segments);
  for (const part of [real, imaginary, densityX, densityY]) for (let k = 0; k < bins; k++) part[k] = segments === 0 ? Number.NaN : part[k] * scale;
  const coherence: Float64Array = real.map((re, k) => (re * re + imaginary[k] ** 2) / (densityX[k] * densityY[k]));
  return Object.freeze({ cyclesPerDay: binFrequencies(segmentSteps, stepSeconds), real, imaginary, densityX, densityY, coherence, segments, shiftSteps });
}

/** One segment less its mean or line over the steps where both are present, windowed; 0 where one is missing. */
function weighted(values: ArrayLike<number>, other: ArrayLike<number>, from: number, weights: Float64Array, removed: "nothing" | "mean" | "line"): Float64Array {
  const n = weights.length;
  const isPresent = (i: number): boolean => Number.isFinite(values[from + i]) && Number.isFinite(other[from + i]);
  let [count, st, sv] = [0, 0, 0];
  for (let i = 0; i < n; i++) {
    if (!isPresent(i)) continue;
    count++;
    st += i;
    sv += values[from + i];
  }
  const middle = st / count;
  const mean = removed === "nothing" ? 0 : sv / count;
  let [stt, stv] = [0, 0];
  if (removed === "line") {
    for (let i = 0; i < n; i++) {
      if (!isPresent(i)) continue;
      stt += (i - middle) ** 2;
      stv += (i - middle) * (values[from + i] - mean);
    }
  }
  const slope = stt === 0 ? 0 : stv / stt;
  return Float64Array.from({ length: n }, (_, i) => (isPresent(i) ? weights[i] * (values[from + i] - mean - slope * (i - middle)) : 0));
}
