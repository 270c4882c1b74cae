import { mustSentence, requireReadings, requireWithin } from "../ground/complaint.js";
import { tQuantile } from "../ground/distributions.js";
import { type Estimate, estimate } from "../ground/estimate.js";
import { olsAr1 } from "../ground/regressionAr1.js";

/** One number of a period with its standard error, and the degrees of freedom of that error. */
export interface PeriodNumber {
  readonly value: number;
  readonly standardError: number;
  readonly degreesOfFreedom: number;
}

/** Fewest days on each side of an event. */
const leastDays = 10;

/**
 * After minus before of two numbers found apart, by Welch's test.
 *
 * For ratios (decrement factor, time constant) hand in logarithms: the change is then that of the logarithm, and 5 % of houses in
 * which nothing was done are called changed, as they should be.
 *
 * @param before, after one unit · degrees of freedom above 0
 * @param options.unit  unit of the change, default "1"
 * @returns             after minus before, and the degrees of freedom of its error
 * @throws RangeError   when a value is not finite, a standard error is negative or not finite, a degree of freedom not positive, or one of
 *                      the first two is beyond 1e60
 * @example changeBetween({ value: 1, standardError: 0.3, degreesOfFreedom: 4 }, { value: 2, standardError: 0.4, degreesOfFreedom: 4 }).change.value // 1
 * @source Welch's approximate degrees of freedom; false calls in indoors README
 */
export function changeBetween(before: PeriodNumber, after: PeriodNumber, { unit = "1" }: { unit?: string } = {}): { readonly change: Estimate; readonly degreesOfFreedom: number } {
  for (const [name, p] of [["before", before], ["after", after]] as const) {
    requireWithin("changeBetween", `${name}.value`, p.value, -Infinity, Infinity);
    if (!(p.standardError >= 0 && p.standardError < Infinity && p.degreesOfFreedom > 0)) {
      throw new RangeError(mustSentence("changeBetween", name, "have a standard error and degrees of freedom", `${p.standardError} and ${p.degreesOfFreedom}`));
    }
  }
  requireReadings("changeBetween", "values and standard errors", [before.value, after.value, before.standardError, after.standardError]);
  const [u, v] = [before.standardError ** 2, after.standardError ** 2];
  const total = u + v;
  const degreesOfFreedom =
    total === 0 ? Math.min(before.degreesOfFreedom, after.degreesOfFreedom) : total ** 2 / (u ** 2 / before.degreesOfFreedom + v ** 2 / after.degreesOfFreedom);
  const value = after.value - before.value;
  const standardError = Math.sqrt(total);
  const reach = tQuantile(0.975, degreesOfFreedom) * standardError;
  return Object.freeze({ change: estimate({ value, standardError, low: value - reach, high: value + reach, unit }), degreesOfFreedom });
}

/**
 * Change of a mean difference at an event, with the weather's part taken out.
 *
 * In a heated house inside minus outside follows the season: with 8 K of drift outside and nothing done, comparing plain means calls
 * a change in 27 to 81 %. Here the daily differences are told by the outdoor daily mean and the event together, and the event's part
 * is the answer. A room that is left alone follows with days of delay: there the outdoor means of the days before must be told too
 * (`daysBefore` 2), else a season makes false calls of 7 to 35 %. Something else that changed on the same date cannot be told apart.
 *
 * @param daily   daily inside minus outside · [days] · NaN is missing (leave out the days around the event before)
 * @param outdoor outdoor daily means over the same hours · °C · [days]
 * @param event   first day after the event · day number
 * @param options.unit unit of the difference, default "K"
 * @param options.daysBefore how many earlier days' outdoor means stand beside the day's own · 0…7 · default 2; a missing one is taken
 *                from the last day known
 * @returns       change · null under 10 days on a side or when the outdoor mean never varies; phi, degreesOfFreedom · NaN then
 * @throws RangeError when lengths differ, a value is infinite or beyond ±1e60, or event is not finite
 * @example changeOfMean(dailyDifference, dailyOutside, 47).change?.value // 0.669 K
 * @source least squares with an AR(1) correction (olsAr1); false calls in indoors README
 */
export function changeOfMean(
  daily: ArrayLike<number>,
  outdoor: ArrayLike<number>,
  event: number,
  { unit = "K", daysBefore = 2 }: { unit?: string; daysBefore?: number } = {},
): { readonly change: Estimate | null; readonly phi: number; readonly degreesOfFreedom: number } {
  if (outdoor.length !== daily.length) throw new RangeError(mustSentence("changeOfMean", "outdoor", `have the length of daily, ${daily.length} d`, `${outdoor.length} d`));
  requireWithin("changeOfMean", "daysBefore", daysBefore, 0, 7, "d");
  requireWithin("changeOfMean", "event", event, -Infinity, Infinity, "d");
  requireReadings("changeOfMean", "daily", daily);
  requireReadings("changeOfMean", "outdoor", outdoor);
  const days: number[] = [];
  for (let k = 0; k < daily.length; k++) if (Number.isFinite(daily[k]) && Number.isFinite(outdoor[k])) days.push(k);
  const after = days.filter((k) => k >= event).length;
  const air = days.map((k) => outdoor[k]);
  const mean = air.reduce((sum, v) => sum + v, 0) / air.length;
  const isFlat = !air.some((v) => Math.abs(v - mean) > 1e-6);
  if (after < leastDays || days.length - after < leastDays || isFlat) return Object.freeze({ change: null, phi: Number.NaN, degreesOfFreedom: Number.NaN });
  const known = Float64Array.from(outdoor);
  for (let k = 1; k < known.length; k++) if (!Number.isFinite(known[k])) known[k] = known[k - 1];
  // Before the first day known, the first day stands for it.
  const earlier = (k: number): number => (Number.isFinite(known[k]) ? known[k] : air[0]) - mean;
  const before = Array.from({ length: Math.round(daysBefore) }, (_, j) => days.map((k) => earlier(k - j - 1)));
  const columns = [days.map(() => 1), days.map((k) => (k >= event ? 1 : 0)), air.map((v) => v - mean), ...before];
  const fit = olsAr1(columns, days.map((k) => daily[k]), days);
  const change = estimate({ value: fit.coefficients[1], standardError: fit.standardErrors[1], low: fit.low[1], high: fit.high[1], unit });
  return Object.freeze({ change, phi: fit.phi, degreesOfFreedom: fit.degreesOfFreedom });
}
