import { mustSentence, requireWithin } from "../../ground/complaint.js";
import { displayable } from "../../ground/display.js";
import type { Series } from "../../record/series.js";
import { usableReadings } from "./usableReadings.js";

/** The mean day of a record, hour by hour; every array has 24 places, place h holding h:00 to h + 1:00. */
export interface MeanDay {
  readonly unit: string;
  /** Mean of the hour: the record's mean plus `departure` · NaN where the hour was never observed. */
  readonly mean: readonly number[];
  /** Mean departure of the hour from its day's mean. */
  readonly departure: readonly number[];
  /** Standard deviation over days of that departure: how much days differ, not the error of the mean · NaN under two days. */
  readonly spread: readonly number[];
  /** Days that took part, by hour. */
  readonly days: readonly number[];
}

/** A day takes part when it has this share of the hours that the record ever has. */
const share = 0.8;

/**
 * The mean day: means by hour of the local day, made of departures from each day's own mean, so that the weather of single
 * days does not tilt it. A description, without error bars; `fitTides` and `dailyCycle` have those.
 *
 * @param series            any quantity; missing and flagged readings are left out
 * @param options.longitude degrees east: hours of local mean solar time · give this
 * @param options.offset    or hours that the clock is ahead of UTC · h · −26…26
 * @returns                 see MeanDay
 * @throws TypeError        when neither or both are given
 * @throws RangeError       when one is outside
 * @example meanDay(pressure, { longitude: 110.2 }).departure[10] // 1.24 hPa
 */
export function meanDay(series: Series, options: { readonly longitude?: number; readonly offset?: number }): MeanDay {
  const { longitude, offset } = options;
  if ((longitude === undefined) === (offset === undefined)) {
    throw new TypeError(mustSentence("meanDay", "options", "give longitude or offset", longitude === undefined ? "neither" : "both"));
  }
  if (longitude !== undefined) requireWithin("meanDay", "longitude", longitude, -180, 180, "degrees east");
  if (offset !== undefined) requireWithin("meanDay", "offset", offset, -26, 26, "h");
  const shift = 3600 * (longitude === undefined ? (offset as number) : longitude / 15);
  const { seconds, values } = usableReadings(series);
  const days = new Map<number, { sum: Float64Array; count: Float64Array }>();
  for (let i = 0; i < seconds.length; i++) {
    const at = seconds[i] + shift;
    const day = Math.floor(at / 86_400);
    const hour = Math.min(23, Math.floor((at - 86_400 * day) / 3600));
    const known = days.get(day) ?? { sum: new Float64Array(24), count: new Float64Array(24) };
    days.set(day, known);
    known.sum[hour] += values[i];
    known.count[hour]++;
  }
  return summary(series.unit, [...days.values()]);
}

function summary(unit: string, days: readonly { sum: Float64Array; count: Float64Array }[]): MeanDay {
  const hours = Array.from({ length: 24 }, (_, h) => h);
  const possible = hours.filter((h) => days.some((d) => d.count[h] > 0)).length;
  const whole = days
    .map((d) => hours.map((h) => d.sum[h] / d.count[h]))
    .filter((means) => means.filter((m) => !Number.isNaN(m)).length >= share * possible)
    .map((means) => {
      const seen = means.filter((m) => !Number.isNaN(m));
      const level = seen.reduce((a, b) => a + b, 0) / seen.length;
      return { level, departures: means.map((m) => m - level) };
    });
  const level = whole.reduce((sum, d) => sum + d.level, 0) / whole.length;
  const columns = hours.map((h) => whole.map((d) => d.departures[h]).filter((v) => !Number.isNaN(v)));
  const departure = columns.map((c) => c.reduce((a, b) => a + b, 0) / c.length);
  const spread = columns.map((c, h) => (c.length < 2 ? Number.NaN : Math.sqrt(c.reduce((sum, v) => sum + (v - departure[h]) ** 2, 0) / (c.length - 1))));
  const result: MeanDay = {
    unit,
    mean: Object.freeze(departure.map((d) => level + d)),
    departure: Object.freeze(departure),
    // Squares of impossible readings pass all numbers.
    spread: Object.freeze(spread.map((s) => (Number.isFinite(s) ? s : Number.NaN))),
    days: Object.freeze(columns.map((c) => c.length)),
  };
  return displayable(result, () => ["hour  mean  departure", ...hours.map((h) => `${String(h).padStart(2, "0")}  ${result.mean[h].toFixed(2)}  ${result.departure[h].toFixed(2)}`)].join("\n"));
}
