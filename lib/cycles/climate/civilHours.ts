import { medianStep } from "../../grid/step.js";
import { leftOut } from "../../record/flag.js";
import type { Series } from "../../record/series.js";
import { civilDay } from "./civilDay.js";

/** Readings in whole civil days of hourly means. */
export interface CivilHours {
  /** First civil day · days since 1970-01-01. */
  readonly firstDay: number;
  readonly days: number;
  /** Hourly means · house unit · [24 · days] · NaN where an hour holds no reading. */
  readonly hours: Float64Array;
  /** Hours that one reading stands for: 1, or the usual step where that is longer. */
  readonly stepHours: number;
  /** Usual step between readings · s. */
  readonly stepSeconds: number;
  /** Readings kept: instants in s since the first civil midnight, and values. */
  readonly seconds: Float64Array;
  readonly values: Float64Array;
  /** Epoch ms of that midnight. */
  readonly start: number;
}

/**
 * Lays readings into the civil hours of their record's standard time; flagged readings that no analysis uses are left out.
 *
 * @param readings    a Series, or its parts
 * @param offsetHours standard time less UTC · h · −16…16
 * @returns           see CivilHours; null when no reading is left
 */
export function civilHours(readings: Pick<Series, "start" | "seconds" | "values" | "flags">, offsetHours: number): CivilHours | null {
  const { start: zero, seconds: at, values: given, flags } = readings;
  const n = given.length;
  const isKept = (i: number): boolean => !Number.isNaN(given[i]) && (flags[i] & leftOut) === 0;
  const instant = (i: number): number => zero + 1000 * at[i];
  let first = 0;
  while (first < n && !isKept(first)) first++;
  if (first === n) return null;
  let last = n - 1;
  while (!isKept(last)) last--;
  const firstDay = civilDay(instant(first), offsetHours);
  const days = civilDay(instant(last), offsetHours) - firstDay + 1;
  const start = 86_400_000 * firstDay - 3_600_000 * offsetHours;
  const keptSeconds: Float64Array = new Float64Array(last - first + 1);
  const keptValues: Float64Array = new Float64Array(last - first + 1);
  let count = 0;
  for (let i = first; i <= last; i++) {
    if (!isKept(i)) continue;
    keptSeconds[count] = (instant(i) - start) / 1000;
    keptValues[count++] = given[i];
  }
  const seconds: Float64Array = keptSeconds.subarray(0, count);
  const values: Float64Array = keptValues.subarray(0, count);
  const hours: Float64Array = new Float64Array(24 * days);
  const counts: Uint32Array = new Uint32Array(24 * days);
  for (let k = 0; k < values.length; k++) {
    const hour = Math.min(hours.length - 1, Math.floor(seconds[k] / 3600));
    hours[hour] += values[k];
    counts[hour]++;
  }
  // Nothing over none is NaN.
  for (let h = 0; h < hours.length; h++) hours[h] /= counts[h];
  const stepSeconds = medianStep(seconds);
  return Object.freeze({ firstDay, days, hours, stepHours: Math.max(1, stepSeconds / 3600), stepSeconds, seconds, values, start });
}
