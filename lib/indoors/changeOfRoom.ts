import { mustSentence, requireReadings, requireWithin } from "../ground/complaint.js";
import { tQuantile } from "../ground/distributions.js";
import { type Estimate, estimate } from "../ground/estimate.js";
import { olsAr1 } from "../ground/regressionAr1.js";
import { mean } from "../ground/summary.js";

/** One number of a period with its standard error, and the degrees of freedom of that error. */
export interface PeriodNumber {
  readonly value: number;
  readonly standardError: number;
  readonly degreesOfFreedom: number;
}

/** Fewest days on each side of an event. */
const leastDays = 10;
/** From so many days on the air outside is told by fading means too: fewer days cannot carry them · d. */
const daysForFading = 50;
/** How long such means remember · d. */
const fadingDays: readonly number[] = [1.5, 4];
/** Share of the longest of them that days known must make: the first days of a record, and those after a long gap, do not know their past. */
const knownPast = 0.6;

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
 * is the answer. A room that is left alone follows with days of delay: there the air outside of the days before must be told too, else a
 * season makes false calls of 7 to 35 %. From 50 days on that is the day before and two fading means, which remember 1.5 and 4 days: a heavy
 * house (40 h) remembers longer than any two days before, and was called changed in 12 to 63 % by them; the first three days of a record, and
 * days after a long gap, are then left out, for nobody knows what the house remembers. Under 50 days it is the two days before.
 * Something else that changed on the same date cannot be told apart.
 *
 * @param daily   daily inside minus outside · [days] · NaN is missing (leave out the days around the event before)
 * @param outdoor outdoor daily means over the same hours · °C · [days]
 * @param event   first day after the event · day number
 * @param options.unit unit of the difference, default "K"
 * @param options.daysBefore so many earlier days' outdoor means stand beside the day's own, and nothing else · 0…7 · default as said above;
 *                a missing one is taken from the last day known
 * @param options.own    daily means outside of the quantity itself, where it is not the temperature · [days]: from 50 days on its day before and
 *                fading means stand there, and of the temperature the day and the day before, for walls that hold water remember it, not warmth
 * @returns       change · null under 10 days on a side or when the outdoor mean never varies; phi, degreesOfFreedom · NaN then
 * @throws RangeError when lengths differ, a value is infinite or beyond ±1e60, or event is not finite
 * @example changeOfMean(dailyDifference, dailyOutside, 47).change?.value // 0.606 K
 * @source least squares with an AR(1) correction (olsAr1); false calls in indoors README
 */
export function changeOfMean(
  daily: ArrayLike<number>,
  outdoor: ArrayLike<number>,
  event: number,
  { unit = "K", daysBefore, own }: { unit?: string; daysBefore?: number; own?: ArrayLike<number> } = {},
): { readonly change: Estimate | null; readonly phi: number; readonly degreesOfFreedom: number } {
  if (outdoor.length !== daily.length) throw new RangeError(mustSentence("changeOfMean", "outdoor", `have the length of daily, ${daily.length} d`, `${outdoor.length} d`));
  requireWithin("changeOfMean", "daysBefore", daysBefore ?? 0, 0, 7, "d");
  requireWithin("changeOfMean", "event", event, -Infinity, Infinity, "d");
  requireReadings("changeOfMean", "daily", daily);
  requireReadings("changeOfMean", "outdoor", outdoor);
  if (own !== undefined && own.length !== daily.length) throw new RangeError(mustSentence("changeOfMean", "own", `have the length of daily, ${daily.length} d`, `${own.length} d`));
  requireReadings("changeOfMean", "own", own ?? []);
  const isAirKnown = Array.from({ length: daily.length }, (_, k) => Number.isFinite(outdoor[k]) && (own === undefined || Number.isFinite(own[k])));
  const whole = isAirKnown.flatMap((isKnown, k) => (isKnown && Number.isFinite(daily[k]) ? [k] : []));
  const after = whole.filter((k) => k >= event).length;
  const air = whole.map((k) => outdoor[k]);
  const level = mean(air);
  const isFlat = !air.some((v) => Math.abs(v - level) > 1e-6);
  if (after < leastDays || whole.length - after < leastDays || isFlat) return Object.freeze({ change: null, phi: Number.NaN, degreesOfFreedom: Number.NaN });
  const known = fadingMean(Float64Array.from(isAirKnown, Number), Math.max(...fadingDays), 0);
  const remembering = whole.filter((k) => known[k] >= knownPast);
  const isFading = daysBefore === undefined && remembering.length >= daysForFading;
  const days = isFading ? remembering : whole;
  const temperature = departures(outdoor, days);
  const remembered = isFading && own !== undefined ? departures(own, days) : temperature;
  const dayBefore = (known: Float64Array, j: number): Float64Array => known.map((_, k) => known[Math.max(0, k - j)]);
  const past = isFading ? [1] : Array.from({ length: Math.round(daysBefore ?? 2) }, (_, j) => j + 1);
  const told = [remembered, ...past.map((j) => dayBefore(remembered, j)), ...(isFading ? fadingDays.map((memory) => fadingMean(remembered, memory, remembered[0])) : [])];
  const beside = remembered === temperature ? [] : [temperature, dayBefore(temperature, 1)];
  const columns = independentOnes([days.map(() => 1), days.map((k) => (k >= event ? 1 : 0)), ...[...told, ...beside].map((values) => days.map((k) => values[k]))]);
  const fit = olsAr1(columns, days.map((k) => daily[k]), days);
  const change = estimate({ value: fit.coefficients[1], standardError: fit.standardErrors[1], low: fit.low[1], high: fit.high[1], unit });
  return Object.freeze({ change, phi: fit.phi, degreesOfFreedom: fit.degreesOfFreedom });
}

/** Departures of daily values from their mean over some days; a missing one is that of the last day known, before the first that of the first. */
function departures(daily: ArrayLike<number>, days: readonly number[]): Float64Array {
  const level = mean(days.map((k) => daily[k]));
  const known = Float64Array.from(daily, (v) => v - level);
  for (let k = 0; k < known.length; k++) if (!Number.isFinite(known[k])) known[k] = k === 0 ? daily[days[0]] - level : known[k - 1];
  return known;
}

/** The columns without those that earlier ones tell but for a millionth: of air that turns evenly the third day follows from two. */
function independentOnes(columns: readonly number[][]): number[][] {
  const directions: number[][] = [];
  return columns.filter((column) => {
    let rest = column;
    for (const d of directions) {
      const share = dot(d, rest);
      rest = rest.map((v, i) => v - share * d[i]);
    }
    const length = Math.sqrt(dot(rest, rest));
    if (!(length > 1e-6 * Math.sqrt(dot(column, column)))) return false;
    directions.push(rest.map((v) => v / length));
    return true;
  });
}

function dot(a: readonly number[], b: readonly number[]): number {
  return a.reduce((sum, v, i) => sum + v * b[i], 0);
}

/** Mean of this day and those before it, which count less by e with each so many days, and of what was before the first. */
function fadingMean(daily: Float64Array, memory: number, before: number): Float64Array {
  const kept = Math.exp(-1 / memory);
  let mean = before;
  return daily.map((v) => {
    mean = kept * mean + (1 - kept) * v;
    return mean;
  });
}
