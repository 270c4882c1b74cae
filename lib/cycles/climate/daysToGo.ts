import { requireWithin } from "../../ground/complaint.js";

/** Days in a year on average. */
const yearDays = 365.25;
/** Fewest years for a slope. */
export const trendNeedsYears: number = 5;
/** 1.96 + 1.28: seen at 5 % with 90 % power. */
const powerFactor = 3.24;
/** What is smaller is 0, what is larger is none of ours. */
const leastNumber = 1e-60;
const mostNumber = 1e60;

/**
 * Days still to log: none when the record is long enough.
 *
 * @param needed days the answer needs in all
 * @param have   days of record
 * @returns      whole days, from 0
 * @throws RangeError when either is negative or not finite
 * @example daysToGo(365, 100.5) // 265
 */
export function daysToGo(needed: number, have: number): number {
  requireWithin("daysToGo", "needed", needed, 0, Number.MAX_VALUE, "d");
  requireWithin("daysToGo", "have", have, 0, Number.MAX_VALUE, "d");
  return Math.max(0, Math.ceil(needed - have));
}

/**
 * Days a mean needs for a wanted half width, from a record with a known one.
 *
 * @param days   days of that record
 * @param half   its half width
 * @param wanted half width wanted · same unit · above 0
 * @returns      d, never below `days`
 * @throws RangeError when days or half is negative, wanted is not above 0 (1e-60), or one of them is beyond 1e60
 * @example daysForMean(30, 0.6, 0.3) // 120
 * @source standard errors shrink with the root of the length: common practice, no source
 */
export function daysForMean(days: number, half: number, wanted: number): number {
  requireWithin("daysForMean", "days", days, 0, mostNumber, "d");
  requireWithin("daysForMean", "half", half, 0, mostNumber);
  requireWithin("daysForMean", "wanted", wanted, leastNumber, mostNumber);
  return days * Math.max(1, (half / wanted) ** 2);
}

/**
 * Years until a trend is seen with 90 % power.
 *
 * Y = [3.24 σ √((1 + φ)/(1 − φ)) / |b|]^(2/3): months about the season with standard deviation σ and memory φ, whose times have
 * variance Y²/12. At least five years.
 *
 * @param perYear the slope to be seen · unit a year · not 0
 * @param sigma   standard deviation of the months · same unit
 * @param phi     correlation from one month to the next · 0…0.95
 * @returns       years
 * @throws RangeError when perYear is 0 (below 1e-60), sigma is negative, phi out of range, or one of them is beyond 1e60
 * @example yearsForTrend(0.03, 1.2, 0.3) // 31.48
 * @source E. C. Weatherhead and others, Journal of Geophysical Research 103 (1998), 17149, with 3.3 for 3.24 (from memory)
 */
export function yearsForTrend(perYear: number, sigma: number, phi: number): number {
  requireWithin("yearsForTrend", "perYear", Math.abs(perYear), leastNumber, mostNumber);
  requireWithin("yearsForTrend", "sigma", sigma, 0, mostNumber);
  requireWithin("yearsForTrend", "phi", phi, 0, 0.95);
  return Math.max(trendNeedsYears, ((powerFactor * sigma * Math.sqrt((1 + phi) / (1 - phi))) / Math.abs(perYear)) ** (2 / 3));
}

/**
 * Days until a trend is seen with 90 % power, see yearsForTrend.
 *
 * @param perYear the slope to be seen · unit a year · not 0
 * @param sigma   standard deviation of the months · same unit
 * @param phi     correlation from one month to the next · 0…0.95
 * @returns       d
 * @example daysForTrend(0.03, 1.2, 0.3) // 11498
 */
export function daysForTrend(perYear: number, sigma: number, phi: number): number {
  return yearDays * yearsForTrend(perYear, sigma, phi);
}
