import { mustSentence, requireWithin } from "../../ground/complaint.js";
import { type DensityLimits, densityLimits } from "./densityLimits.js";
import { binFrequencies, requireEven, withoutLevel } from "./evenSamples.js";
import { type DensitySpectrum, type EvenSpectrumOptions, oneSidedSquares } from "./periodogramDensity.js";
import { densityUnit } from "./spectralUnit.js";
import { windowWeights } from "./taperWindow.js";
import { overlapCorrelation } from "./windowFigures.js";

/** A density averaged over overlapping segments. */
export interface WelchDensity extends DensitySpectrum, DensityLimits {
  readonly segments: number;
  readonly segmentSteps: number;
  /** Steps at the end that fill no segment and were not used. */
  readonly stepsUnused: number;
}

/**
 * Equivalent degrees of freedom of a mean over K overlapping segments: 2K when they share nothing, fewer when they do.
 *
 * @param weights  a window · [n]
 * @param shift    samples from one segment to the next · from 1
 * @param segments K · from 1
 * @returns        degrees of freedom, from 2
 * @example welchDegreesOfFreedom(windowWeights("Hann", 256), 128, 8) // 15.2583
 * @source P. D. Welch, IEEE Trans. Audio Electroacoust. 15 (1967) (from memory): 2K / (1 + 2 Σ (1 − m/K) ρ_m²)
 */
export function welchDegreesOfFreedom(weights: Float64Array, shift: number, segments: number): number {
  requireWithin("welchDegreesOfFreedom", "shift", shift, 1, Number.MAX_SAFE_INTEGER, "samples");
  requireWithin("welchDegreesOfFreedom", "segments", segments, 1, Number.MAX_SAFE_INTEGER);
  let shared = 0;
  for (let m = 1; m < segments && m * shift < weights.length; m++) shared += (1 - m / segments) * overlapCorrelation(weights, m * shift) ** 2;
  return (2 * segments) / (1 + 2 * shared);
}

/**
 * The one-sided spectral density of an even record, averaged over overlapping segments, with confidence limits.
 *
 * For the shape of a continuous spectrum when the record is many segments long. Longer segments tell closer frequencies
 * apart, more segments narrow the limits: one pays for the other. Limits hold for Gaussian noise bin by bin (one in
 * twenty bins lies outside at 0.95), not for a line. Averages of densities, each segment less its own mean or line.
 *
 * @param values          any unit · even steps · [n] · NaN is refused
 * @param segmentSteps    length of a segment · steps · whole number, 2…n
 * @param options.overlap share of a segment that the next one covers again, default 0.5 · 0…0.95
 * @param options.level   confidence level of the limits, default 0.95
 * @param options         see EvenSpectrumOptions; `removed` is taken from each segment
 * @returns cyclesPerDay, density, low, high   cycles per day; unit² d · [⌊segmentSteps/2⌋ + 1]
 * @returns degreesOfFreedom  equivalent, with the overlap counted; half of it at bin 0 and the last even bin
 * @throws RangeError when a value is missing or not finite, or a segment is longer than the record
 * @throws TypeError  when window or removed is unknown
 * @example welchDensity(tenDaysHourly, 48, { stepSeconds: 3600, unit: "hPa" }).segments // 9
 * @source Welch 1967; as scipy.signal.welch, against which it is tested
 */
export function welchDensity(
  values: ArrayLike<number>,
  segmentSteps: number,
  options: EvenSpectrumOptions & { readonly overlap?: number; readonly level?: number },
): WelchDensity {
  const { stepSeconds, window: name = "Hann", removed = "mean", unit = "1", overlap = 0.5, level = 0.95 } = options;
  requireEven("welchDensity", values, stepSeconds, 2);
  requireWithin("welchDensity", "segmentSteps", segmentSteps, 2, values.length, "steps");
  if (!Number.isInteger(segmentSteps)) throw new RangeError(mustSentence("welchDensity", "segmentSteps", "be a whole number", `${segmentSteps} steps`));
  requireWithin("welchDensity", "overlap", overlap, 0, 0.95);
  const weights = windowWeights(name, segmentSteps);
  const shift = Math.max(1, segmentSteps - Math.floor(segmentSteps * overlap));
  const segments = 1 + Math.floor((values.length - segmentSteps) / shift);
  const all: Float64Array = Float64Array.from(values);
  const work: Float64Array = new Float64Array(2 * segmentSteps);
  const density: Float64Array = new Float64Array(Math.floor(segmentSteps / 2) + 1);
  for (let k = 0; k < segments; k++) {
    const segment = withoutLevel(all.subarray(k * shift, k * shift + segmentSteps), removed, "welchDensity");
    oneSidedSquares(segment, weights, work).forEach((s, i) => {
      density[i] += s;
    });
  }
  let sum = 0;
  let sumOfSquares = 0;
  for (const w of weights) {
    sum += w;
    sumOfSquares += w * w;
  }
  const days = stepSeconds / 86400;
  const scale = days / (sumOfSquares * segments);
  for (let i = 0; i < density.length; i++) density[i] *= scale;
  return Object.freeze({
    cyclesPerDay: binFrequencies(segmentSteps, stepSeconds),
    density,
    ...densityLimits(density, segmentSteps, welchDegreesOfFreedom(weights, shift, segments), level),
    unit: densityUnit(unit),
    bandwidth: sumOfSquares / (sum * sum * days),
    window: name,
    steps: values.length,
    segments,
    segmentSteps,
    stepsUnused: values.length - segmentSteps - (segments - 1) * shift,
  });
}
