import { dayShape } from "../cycles/climate/dayShape.js";
import { bandNeedsDays, swingBand } from "../cycles/swings/swingBand.js";
import { bridgeGaps } from "../grid/gapRule.js";
import { medianStep } from "../grid/step.js";
import { remembered } from "../ground/remembered.js";
import { leftOut } from "../record/flag.js";
import type { Series } from "../record/series.js";

/** The parts of a trace among which a reader of `explore` chooses. */
export type BandName = "all" | "tide" | "swings" | "background";
export const bandNames: readonly BandName[] = Object.freeze(["all", "tide", "swings", "background"]);

/** Hourly parts of one series; every array has the same length. */
export interface ExploreBands {
  /** Instant of the first value · epoch ms as if UTC, in the record's standard time. */
  readonly firstCivil: number;
  /** House unit · [hours] · NaN where missing. */
  readonly bands: Readonly<Record<BandName, Float64Array>>;
}

const hourMs = 3_600_000;
const dayMs = 86_400_000;
/** Holes up to this are bridged for the filters · h. */
const longestBridge = 3;

/**
 * Parts a series, hour by hour, for looking at: all of it, its daily round, its swings of 2 to 15 days, its slow background.
 *
 * The daily round (of pressure: the tide) is the mean day of the month's days and 15 on either side, as departures; swings and background are
 * those of `swingBand`. These parts are for the eye: what is inferred has its own routines. Under 8 days there are no swings and no background.
 *
 * @param series      any quantity; readings that no analysis uses are left out
 * @param offsetHours standard time less UTC · h
 * @returns           see ExploreBands; null without a reading
 * @example exploreBands(temperature, 7)?.bands.swings.length
 */
export function exploreBands(series: Series, offsetHours: number): ExploreBands | null {
  return known(series, String(offsetHours), () => bandsOf(series, offsetHours));
}

/** A figure is made in two themes, of the same hours. */
const known = remembered<Series, ExploreBands | null>();

function bandsOf(series: Series, offsetHours: number): ExploreBands | null {
  const n = series.seconds.length;
  if (n === 0) return null;
  const civil = (i: number): number => series.start + 1000 * series.seconds[i] + hourMs * offsetHours;
  const firstDay = Math.floor(civil(0) / dayMs);
  const hours = hourlyMeans(series, civil, firstDay);
  const held = bridgeGaps(hours, Math.max(longestBridge, Math.ceil(medianStep(series.seconds) / 3600))).values;
  const isThere = (h: number): boolean => !Number.isNaN(held[h]);
  const shape = dayShape(held, firstDay);
  const tide: Float64Array = held.map((v, h) => (Number.isNaN(v) ? v : (shape(Math.floor(h / 24))?.[h % 24] ?? Number.NaN)));
  const none: Float64Array = new Float64Array(held.length).fill(Number.NaN);
  let [swings, background] = [none, none];
  const first = held.findIndex((v) => !Number.isNaN(v));
  if (first < 0) return null;
  const last = held.findLastIndex((v) => !Number.isNaN(v));
  if ((last - first + 1) / 24 >= bandNeedsDays) {
    const band = swingBand(held);
    const laidOut = (part: Float64Array): Float64Array => held.map((_, h) => (isThere(h) ? part[h - band.first] : Number.NaN));
    [swings, background] = [laidOut(band.band), laidOut(band.slow)];
  }
  return { firstCivil: dayMs * firstDay + hourMs / 2, bands: { all: held, tide, swings, background } };
}

/** Mean of each civil hour from the first day's midnight to the last day's · NaN where there is no sound reading. */
function hourlyMeans(series: Series, civil: (i: number) => number, firstDay: number): Float64Array {
  const { values, flags } = series;
  const days = Math.floor(civil(values.length - 1) / dayMs) - firstDay + 1;
  const sums: Float64Array = new Float64Array(24 * days);
  const counts: Uint32Array = new Uint32Array(24 * days);
  for (let i = 0; i < values.length; i++) {
    if (Number.isNaN(values[i]) || (flags[i] & leftOut) !== 0) continue;
    const hour = Math.floor(civil(i) / hourMs) - 24 * firstDay;
    sums[hour] += values[i];
    counts[hour]++;
  }
  return sums.map((sum, h) => (counts[h] === 0 ? Number.NaN : sum / counts[h]));
}
