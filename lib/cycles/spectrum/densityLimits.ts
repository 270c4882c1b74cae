import { requireWithin } from "../../ground/complaint.js";
import { chiSquareQuantile } from "../../ground/distributions.js";

/** A density with its confidence limits, bin by bin. */
export interface DensityLimits {
  readonly low: Float64Array;
  readonly high: Float64Array;
  readonly level: number;
  /** Equivalent degrees of freedom of a bin between the first and the last. */
  readonly degreesOfFreedom: number;
}

/**
 * The factors by which a density estimate is multiplied to get its limits: ν/χ²(high share), ν/χ²(low share).
 *
 * @param degreesOfFreedom ν · above 0, fractions allowed
 * @param level            share of repeated records whose limits hold the truth, default 0.95 · 0.5…0.9999
 * @throws RangeError when either is out of range
 * @example limitFactors(4).high // 8.25732
 * @source S ν/S_true is chi-square of ν degrees of freedom for Gaussian noise (common practice, no source)
 */
export function limitFactors(degreesOfFreedom: number, level = 0.95): { low: number; high: number } {
  requireWithin("limitFactors", "degreesOfFreedom", degreesOfFreedom, 1e-3, Number.MAX_VALUE);
  requireWithin("limitFactors", "level", level, 0.5, 0.9999);
  const tail = (1 - level) / 2;
  return {
    low: degreesOfFreedom / chiSquareQuantile(1 - tail, degreesOfFreedom),
    high: degreesOfFreedom / chiSquareQuantile(tail, degreesOfFreedom),
  };
}

/**
 * Limits for every bin of a one-sided density of `steps` even steps; bin 0 and, for even length, the last bin are made
 * of one real number where the others have two, and so have half the degrees of freedom and wider limits.
 *
 * @param density          one-sided density · [⌊steps/2⌋ + 1]
 * @param steps            length of the transform
 * @param degreesOfFreedom of the other bins
 * @param level            share, default 0.95
 */
export function densityLimits(density: Float64Array, steps: number, degreesOfFreedom: number, level = 0.95): DensityLimits {
  const inner = limitFactors(degreesOfFreedom, level);
  const ends = limitFactors(degreesOfFreedom / 2, level);
  const factor = (k: number): { low: number; high: number } => (k === 0 || 2 * k === steps ? ends : inner);
  return {
    low: density.map((d, k) => d * factor(k).low),
    high: density.map((d, k) => d * factor(k).high),
    level,
    degreesOfFreedom,
  };
}
