import { mustSentence, requireWithin } from "../../ground/complaint.js";
import { longestStep, shortestStep } from "./evenSamples.js";
import { densityUnit } from "./spectralUnit.js";

/** The density that red noise of first order has in theory. */
export interface AutoregressiveDensity {
  readonly cyclesPerDay: Float64Array;
  readonly density: Float64Array;
  readonly unit: string;
  /** Variance of the noise, innovation²/(1 − coefficient²) · unit². */
  readonly variance: number;
}

/**
 * The one-sided spectral density of first-order red noise x_j = φ x_(j−1) + ε_j.
 *
 * 2σ²Δt / (1 − 2φ cos ω + φ²), ω = 2πf·Δt, per cycle a day; the doubled value also at frequency 0. For white noise give
 * φ = 0. Pressure at 6-hour steps is often smoother than this: a peak above it is no proof of a cycle.
 *
 * @param cyclesPerDay           frequencies · 0 to half a cycle a step · [m]
 * @param options.coefficient    φ · 1 · above −1, below 1
 * @param options.innovation     σ, standard deviation of ε · unit of the values · 0…1e60
 * @param options.stepSeconds    Δt · s
 * @param options.unit           unit of the values, default "1"
 * @returns density   unit² d · [m]
 * @throws RangeError when an argument is out of range
 * @example autoregressiveDensity([1], { coefficient: 0.9, innovation: 1, stepSeconds: 3600 }).density[0] // 1.168221
 * @source common practice, no source; integrates to the variance (tested)
 */
export function autoregressiveDensity(
  cyclesPerDay: ArrayLike<number>,
  options: { readonly coefficient: number; readonly innovation: number; readonly stepSeconds: number; readonly unit?: string },
): AutoregressiveDensity {
  const { coefficient, innovation, stepSeconds, unit = "1" } = options;
  const at = "autoregressiveDensity";
  requireWithin(at, "stepSeconds", stepSeconds, shortestStep, longestStep, "s");
  requireWithin(at, "innovation", innovation, 0, 1e60);
  if (!(coefficient > -1 && coefficient < 1)) throw new RangeError(mustSentence(at, "coefficient", "be above -1 and below 1", String(coefficient)));
  const days = stepSeconds / 86400;
  const highest = 1 / (2 * days);
  const frequencies: Float64Array = Float64Array.from(cyclesPerDay);
  const density = frequencies.map((f, i) => {
    // A hair's breadth above the highest is rounding of the caller's own division.
    if (!(f >= 0 && f <= highest * (1 + 1e-9))) {
      throw new RangeError(mustSentence(at, "cyclesPerDay", `be from 0 to half a cycle a step, ${highest} cpd`, `${f} cpd at index ${i}`));
    }
    return (2 * innovation ** 2 * days) / (1 - 2 * coefficient * Math.cos(2 * Math.PI * f * days) + coefficient ** 2);
  });
  return Object.freeze({ cyclesPerDay: frequencies, density, unit: densityUnit(unit), variance: innovation ** 2 / (1 - coefficient ** 2) });
}
