import { requireReadings, requireWithin } from "../../ground/complaint.js";
import { bridgeGaps, gaps } from "../../grid/gapRule.js";
import { leftOut } from "../../record/flag.js";
import type { Series } from "../../record/series.js";
import { civilDate } from "./civilDay.js";
import { type CivilHours, civilHours } from "./civilHours.js";
import { dayShape } from "./dayShape.js";

/** One civil day of one quantity. */
export interface DaySummary {
  /** Days since 1970-01-01. */
  readonly day: number;
  /** YYYY-MM-DD. */
  readonly date: string;
  /** House unit · null under 18 covered hours or beside a gap over 6 h. */
  readonly mean: number | null;
  /** Lowest and highest reading and their instants (epoch ms, UTC) · null beside a gap near the usual hour of the extreme. */
  readonly min: number | null;
  readonly max: number | null;
  readonly minAt: number | null;
  readonly maxAt: number | null;
  /** Share of the day's hours that hold a reading · 0…1. */
  readonly coverage: number;
}

const leastCoverage = 0.75;
const longestGapHours = 6;
/** An extreme is told only when the record is whole this near to its usual hour. */
const nearHours = 4;

/**
 * Days of a record: mean, lowest, highest, and when.
 *
 * Missing hours do not bend the mean: the month's mean daily cycle is taken out, the rest bridged by lines and put back. A day
 * needs 18 of 24 hours and no gap over 6 h, whose error is then about 0.2 K where the day swings by 4 K either way. (max + min)/2 is not
 * the mean: with an uneven day it is 0.6 K high. Extremes are those of the readings: steps over 15 min miss the true ones.
 *
 * @param readings    a Series, or its parts; flagged readings that no analysis uses are left out
 * @param offsetHours standard time less UTC · h
 * @returns           every civil day from first to last reading, also empty ones, frozen; where the logger writes one value a day, each is
 *                    taken as its day's mean and no extremes are told
 * @throws RangeError when a reading that counts is infinite or beyond ±1e60, or offsetHours is outside ±26 h
 * @example dailySummaries(temperature, 7)[1].mean // 20.3 °C
 * @source README of this room
 */
export function dailySummaries(readings: Pick<Series, "start" | "seconds" | "values" | "flags">, offsetHours: number): readonly DaySummary[] {
  requireReadings("dailySummaries", "values", readings.values.map((v, i) => ((readings.flags[i] & leftOut) === 0 ? v : Number.NaN)));
  requireWithin("dailySummaries", "offsetHours", offsetHours, -26, 26, "h");
  const laid = civilHours(readings, offsetHours);
  if (laid === null) return Object.freeze([]);
  const { firstDay, days, hours, stepHours } = laid;
  if (isOneADay(laid)) return oneADay(laid);
  // A reading every two or three hours stands for its step: only then are longer holes bridged by the one gap rule.
  const standsFor = stepHours <= 3 ? stepHours : 1;
  const ruled = bridgeGaps(hours, Math.max(1, Math.round(standsFor) - 1)).values;
  const shape = dayShape(ruled, firstDay);
  const means = dayMeans(ruled, shape);
  const longHoles = gaps(ruled).filter(({ from, to }) => to - from > longestGapHours);
  const broken: Uint8Array = new Uint8Array(days);
  for (const { from, to } of longHoles) for (let d = Math.floor(from / 24); d <= Math.floor((to - 1) / 24); d++) broken[d] = 1;
  const extremes = dayExtremes(laid, shape);
  return Object.freeze(
    Array.from({ length: days }, (_, d) => {
      let held = 0;
      for (let h = 24 * d; h < 24 * d + 24; h++) if (!Number.isNaN(hours[h])) held++;
      const coverage = Math.min(1, (held * standsFor) / 24);
      const mean = coverage >= leastCoverage && broken[d] === 0 ? means[d] : null;
      return Object.freeze({ day: firstDay + d, date: civilDate(firstDay + d), mean, ...extremes[d], coverage });
    }),
  );
}

function dayMeans(hours: Float64Array, shape: (day: number) => Float64Array | null): Float64Array {
  const without: Float64Array = hours.map((v, i) => v - (shape(Math.floor(i / 24))?.[i % 24] ?? 0));
  const bridged = bridgeGaps(without, without.length).values;
  // The first and last hours of a record are held at the nearest departure.
  const first = bridged.findIndex((v) => !Number.isNaN(v));
  const last = bridged.findLastIndex((v) => !Number.isNaN(v));
  bridged.fill(bridged[first], 0, first);
  bridged.fill(bridged[last], last + 1);
  return Float64Array.from({ length: hours.length / 24 }, (_, d) => bridged.subarray(24 * d, 24 * d + 24).reduce((a, b) => a + b, 0) / 24);
}

type Extremes = Pick<DaySummary, "min" | "max" | "minAt" | "maxAt">;

function dayExtremes(laid: CivilHours, shape: (day: number) => Float64Array | null): Extremes[] {
  const { days, seconds, values, start, stepSeconds } = laid;
  const longest = Math.max(3600, 1.5 * stepSeconds) + 2;
  const found: Extremes[] = [];
  let from = 0;
  for (let d = 0; d < days; d++) {
    let to = from;
    while (to < seconds.length && seconds[to] < 86400 * (d + 1)) to++;
    let low = from;
    let high = from;
    for (let i = from; i < to; i++) {
      if (values[i] < values[low]) low = i;
      if (values[i] > values[high]) high = i;
    }
    const cycle = shape(d);
    const isWhole = (sign: 1 | -1): boolean => {
      if (from === to) return false;
      let [a, b] = [86400 * d, 86400 * (d + 1)];
      if (cycle !== null) {
        let usual = 0;
        for (let h = 1; h < 24; h++) if (sign * cycle[h] > sign * cycle[usual]) usual = h;
        a = Math.max(a, 86400 * d + 3600 * (usual + 0.5 - nearHours));
        b = Math.min(b, 86400 * d + 3600 * (usual + 0.5 + nearHours));
      }
      // A long gap may not reach into the window; before the first and after the last reading only what lies in it counts.
      for (let i = from; i <= to; i++) {
        const before = i === 0 ? a : seconds[i - 1];
        const after = i === seconds.length ? b : seconds[i];
        if (after > a && before < b && after - before > longest) return false;
      }
      return true;
    };
    const hasLow = isWhole(-1);
    const hasHigh = isWhole(1);
    found.push({
      min: hasLow ? values[low] : null,
      max: hasHigh ? values[high] : null,
      minAt: hasLow ? start + 1000 * seconds[low] : null,
      maxAt: hasHigh ? start + 1000 * seconds[high] : null,
    });
    from = to;
  }
  return found;
}

/** True when readings come once a day: means of days that somebody has made already. */
export function isOneADay({ stepSeconds }: Pick<CivilHours, "stepSeconds">): boolean {
  return Math.abs(stepSeconds - 86_400) <= 4 * 3600;
}

function oneADay({ firstDay, days, hours }: CivilHours): readonly DaySummary[] {
  return Object.freeze(
    Array.from({ length: days }, (_, d) => {
      const present = hours.subarray(24 * d, 24 * d + 24).filter((v) => !Number.isNaN(v));
      const mean = present.length === 0 ? null : present.reduce((a, b) => a + b, 0) / present.length;
      return Object.freeze({ day: firstDay + d, date: civilDate(firstDay + d), mean, min: null, max: null, minAt: null, maxAt: null, coverage: mean === null ? 0 : 1 });
    }),
  );
}
