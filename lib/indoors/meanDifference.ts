import { type Estimate, estimate } from "../ground/estimate.js";
import { longRunMean } from "../ground/longRunVariance.js";
import { dailyInfluence, dailyMeans, hoursADay, pairedHours } from "./pairedHours.js";

/** A mean of inside minus outside and what is needed to judge it. */
export interface MeanDifference {
  /** Inside minus outside · null when fewer than 6 days can be used. */
  readonly difference: Estimate | null;
  /** Daily means that were used, 20 hours or more of both places · NaN is a day left out · [days]. */
  readonly daily: Float64Array;
  readonly daysUsed: number;
  /** Memory of the daily differences · d · NaN when not known. */
  readonly memoryDays: number;
  /** True under 15 memories: the interval may be too narrow. */
  readonly isShort: boolean;
}

const hoursNeeded = 20;

/**
 * Daily means of inside minus outside; NaN for a day with fewer than 20 hours of both places, or not whole.
 *
 * @param inside, outside hourly · one unit · [n], hour 0 a midnight · NaN is missing
 * @returns [⌊n/24⌋]
 * @example dailyDifferences(new Float64Array(24).fill(3), new Float64Array(24)) // 3
 * @source none (house rule)
 */
export function dailyDifferences(inside: ArrayLike<number>, outside: ArrayLike<number>): Float64Array {
  pairedHours("dailyDifferences", inside, outside);
  const differences = Float64Array.from(inside, (v, h) => v - outside[h]);
  return dailyMeans(differences, hoursNeeded).slice(0, Math.floor(differences.length / hoursADay));
}

/**
 * How much warmer (or damper, or higher in any quantity) inside was than outside, on average over these days.
 *
 * The interval allows for memory from day to day. It is the interval of this stretch of weather: another season has another
 * mean, and what the two sensors differ by themselves is not in it.
 *
 * @param inside, outside hourly · one unit · [n], hour 0 a midnight · NaN is missing
 * @param options.unit    unit of the difference, default "K"
 * @returns               see MeanDifference, frozen
 * @throws RangeError     when lengths differ or a value is infinite
 * @example meanDifference(inside, outside).difference?.value // 1.50 K
 * @source mean of daily differences with a long-run variance; coverage in indoors README
 */
export function meanDifference(inside: ArrayLike<number>, outside: ArrayLike<number>, { unit = "K" }: { unit?: string } = {}): MeanDifference {
  pairedHours("meanDifference", inside, outside);
  const daily = dailyDifferences(inside, outside);
  const daysUsed = daily.reduce((count, v) => count + (Number.isNaN(v) ? 0 : 1), 0);
  if (dailyInfluence(daily) === null) return Object.freeze({ difference: null, daily, daysUsed, memoryDays: Number.NaN, isShort: true });
  const { mean: value, standardError, low, high, memoryDays, isShort } = longRunMean(daily);
  return Object.freeze({ difference: estimate({ value, standardError, low, high, unit }), daily, daysUsed, memoryDays, isShort });
}
