import { remembered } from "../ground/remembered.js";
import { leftOut } from "../record/flag.js";
import type { Series } from "../record/series.js";

/** Days, or spans of several days, of one series. */
export interface DayBand {
  /** Civil midnight that each span begins with · epoch ms as if UTC. */
  readonly begins: readonly number[];
  /** Days in a span. */
  readonly spanDays: number;
  /** Lowest and highest reading · NaN without one. */
  readonly low: readonly number[];
  readonly high: readonly number[];
  /** Mean · NaN where a day holds readings in fewer than 18 of its hours: a part of a day leans to its hours. */
  readonly mean: readonly number[];
}

const dayMs = 86_400_000;
const enoughHours = 18;

/**
 * Lowest, mean and highest of every day of the record's standard time, or of equal spans of days where there are too many to draw.
 *
 * A picture's summary: every extreme is in it. `dailySummaries` is the one for numbers.
 *
 * @param series      readings; those that no analysis uses are left out
 * @param offsetHours standard time less UTC · h
 * @param most        spans at most · default 400
 * @returns           see DayBand, from the first to the last day
 * @example dayBand(temperature, 7).low[0] // 17.2
 */
export function dayBand(series: Series, offsetHours: number, most = 400): DayBand {
  return known(series, `${offsetHours} ${most}`, () => bandOfDays(series, offsetHours, most));
}

/** A figure is made in two themes, of the same days. */
const known = remembered<Series, DayBand>();

function bandOfDays(series: Series, offsetHours: number, most: number): DayBand {
  const { seconds, values, flags, start } = series;
  const civil = (i: number): number => start + 1000 * seconds[i] + 3_600_000 * offsetHours;
  const n = seconds.length;
  if (n === 0) return { begins: [], spanDays: 1, low: [], high: [], mean: [] };
  const firstDay = Math.floor(civil(0) / dayMs);
  const days = Math.floor(civil(n - 1) / dayMs) - firstDay + 1;
  const spanDays = Math.max(1, Math.ceil(days / most));
  const spans = Math.ceil(days / spanDays);
  const low: number[] = new Array(spans).fill(Number.NaN);
  const high: number[] = new Array(spans).fill(Number.NaN);
  const sums = new Float64Array(days * 24);
  const counts = new Uint32Array(days * 24);
  for (let i = 0; i < n; i++) {
    const v = values[i];
    if (Number.isNaN(v) || (flags[i] & leftOut) !== 0) continue;
    const at = civil(i);
    const hour = Math.floor(at / 3_600_000) - 24 * firstDay;
    sums[hour] += v;
    counts[hour]++;
    const k = Math.floor(hour / 24 / spanDays);
    if (!(v >= low[k])) low[k] = v;
    if (!(v <= high[k])) high[k] = v;
  }
  const dayMeans = Array.from({ length: days }, (_, d) => meanOf(Array.from({ length: 24 }, (__, h) => sums[24 * d + h] / counts[24 * d + h]), enoughHours));
  const mean = Array.from({ length: spans }, (_, k) => meanOf(dayMeans.slice(k * spanDays, (k + 1) * spanDays), Math.ceil(spanDays / 2)));
  return { begins: Array.from({ length: spans }, (_, k) => dayMs * (firstDay + k * spanDays)), spanDays, low, high, mean };
}

function meanOf(values: readonly number[], least: number): number {
  const seen = values.filter((v) => !Number.isNaN(v));
  return seen.length < least ? Number.NaN : seen.reduce((a, b) => a + b, 0) / seen.length;
}
