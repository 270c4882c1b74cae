import { mustSentence, requireReadings } from "../ground/complaint.js";
import { type LongRunVariance, longRunVariance } from "../ground/longRunVariance.js";
import { daySums } from "../grid/daySums.js";

/** Hours of a day, and turns of the daily line for each hour. */
export const hoursADay = 24;
/** Angular speed of the daily line · radians an hour. */
export const dailyTurn: number = (2 * Math.PI) / hoursADay;

/**
 * Which hours hold both places: nothing else counts in any comparison of two places.
 *
 * @param at      name of the caller, for its errors
 * @param inside  hourly · [n] · NaN is missing
 * @param outside hourly, same hours · [n] · NaN is missing
 * @returns       1 where both are present · [n]
 * @throws RangeError when lengths differ or a value is infinite or beyond ±1e60
 * @example pairedHours("example", [1, NaN], [2, 3]) // 1, 0
 * @source none (house rule)
 */
export function pairedHours(at: string, inside: ArrayLike<number>, outside: ArrayLike<number>): Uint8Array {
  const n = inside.length;
  if (outside.length !== n) throw new RangeError(mustSentence(at, "outside", `have the length of inside, ${n} h`, `${outside.length} h`));
  requireReadings(at, "inside", inside);
  requireReadings(at, "outside", outside);
  const both: Uint8Array = new Uint8Array(n);
  for (let h = 0; h < n; h++) {
    both[h] = Number.isNaN(inside[h]) || Number.isNaN(outside[h]) ? 0 : 1;
  }
  return both;
}

/** How many hours a mask holds. */
export function countOf(mask: Uint8Array): number {
  let n = 0;
  for (const m of mask) n += m;
  return n;
}

/**
 * Daily means of hourly values; NaN for a day with fewer hours than are asked for.
 *
 * @param values     hourly · [n], hour 0 a midnight · NaN does not count
 * @param leastHours a day needs so many · 1…24
 * @returns          [⌈n/24⌉], the last day may be a part of one
 * @example dailyMeans([1, 3, NaN], 2)[0] // 2
 * @source none (house rule)
 */
export function dailyMeans(values: ArrayLike<number>, leastHours: number): Float64Array {
  const counts = daySums(Array.from(values, (v) => (Number.isNaN(v) ? v : 1)));
  return daySums(values).map((sum, k) => (counts[k] >= leastHours ? sum / counts[k] : Number.NaN));
}

/**
 * Long-run variance of a sum of hourly parts, by way of their daily sums; null when 5 or fewer days hold one, or none has a neighbor.
 *
 * @param parts hourly influence values, whose sum is zero · [n], hour 0 a midnight · NaN does not count
 * @returns     see LongRunVariance, or null
 * @example hourlyInfluence(new Float64Array(24)) // null
 * @source see longRunVariance
 */
export function hourlyInfluence(parts: ArrayLike<number>): LongRunVariance | null {
  return dailyInfluence(daySums(parts));
}

/** The same for values that are daily already: [days], NaN is a missing day. */
export function dailyInfluence(days: ArrayLike<number>): LongRunVariance | null {
  let present = 0;
  let neighbors = 0;
  for (let k = 0; k < days.length; k++) {
    if (Number.isNaN(days[k])) continue;
    present++;
    if (k > 0 && !Number.isNaN(days[k - 1])) neighbors++;
  }
  return present <= 5 || neighbors === 0 ? null : longRunVariance(days);
}
