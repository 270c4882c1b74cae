import { dayShape } from "../cycles/climate/dayShape.js";
import { civilHours } from "../cycles/climate/civilHours.js";
import { bandNeedsDays, swingBand } from "../cycles/swings/swingBand.js";
import { bridgeGaps } from "../grid/gapRule.js";
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
  const laid = civilHours(series, offsetHours);
  if (laid === null) return null;
  const { firstDay, hours, stepHours } = laid;
  const held = bridgeGaps(hours, Math.max(longestBridge, Math.ceil(stepHours))).values;
  const isThere = (h: number): boolean => !Number.isNaN(held[h]);
  const shape = dayShape(held, firstDay);
  const tide: Float64Array = held.map((v, h) => (Number.isNaN(v) ? v : (shape(Math.floor(h / 24))?.[h % 24] ?? Number.NaN)));
  const none: Float64Array = new Float64Array(held.length).fill(Number.NaN);
  let [swings, background] = [none, none];
  const first = held.findIndex((v) => !Number.isNaN(v));
  const last = held.findLastIndex((v) => !Number.isNaN(v));
  if ((last - first + 1) / 24 >= bandNeedsDays) {
    const band = swingBand(held);
    const laidOut = (part: Float64Array): Float64Array => held.map((_, h) => (isThere(h) ? part[h - band.first] : Number.NaN));
    [swings, background] = [laidOut(band.band), laidOut(band.slow)];
  }
  return { firstCivil: 86_400_000 * firstDay + 1_800_000, bands: { all: held, tide, swings, background } };
}
