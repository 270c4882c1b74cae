import type { PressureSwings } from "../cycles/swings/pressureSwings.js";
import type { VarianceShares } from "../cycles/swings/varianceShares.js";
import { type Displayable, displayable } from "../ground/display.js";
import { instantText } from "../ground/instant.js";
import type { AirRecord } from "../record/airRecord.js";
import type { Quantity } from "../record/quantity.js";
import { flagRecord } from "../trust/faults/flagRecord.js";
import { resetWarnings } from "../trust/findings/resetFindings.js";
import { eachBarometer, valuesOf } from "./eachBarometer.js";
import { type PlaceSwings, placeSwings } from "./placeSwings.js";
import { type RecordHead, recordHead } from "./recordHead.js";
import { recordView } from "./recordView.js";
import type { SwingsBand, SwingsPlace } from "./swingsPlace.js";
import { swingsText } from "./swingsText.js";

interface SwingsFields {
  readonly record: RecordHead;
  readonly places: Readonly<Record<string, SwingsPlace>>;
  /** Hourly parts, spectrum and tide behind the answer, for figures; not enumerable, so not in JSON. */
  readonly parts: Readonly<Record<string, PlaceSwings>>;
}

/** The multi-day swings of every place of a record with pressure. */
export type SwingsAnswer = Displayable<SwingsFields>;

/**
 * What passing weather does to the pressure: swings of 2 to 15 days, lows and highs, a beat or none, and what is coming without the tide.
 *
 * Faulty readings are found first and left out, level shifts and the tide are taken off. What a short record cannot carry is null or
 * empty, with a warning that says how many more days to log.
 *
 * @param record        from a reader, or from plain arrays
 * @param options.seed  of the drawn records behind the p-values · default 20260101
 * @param options.draws how many · default 499
 * @returns             for each place with pressure: band, events, spectrum, tendency, warnings
 * @throws RecordError  kind data when no place holds pressure
 * @throws RangeError   when draws is no whole number from 99 to 99999
 * @example swingsOf(record).places.veranda.band?.standardDeviation.value // 0.674 hPa
 * @source README of lib/cycles/swings
 */
export function swingsOf(record: AirRecord, options: { readonly seed?: number; readonly draws?: number } = {}): SwingsAnswer {
  const flagged = flagRecord(record);
  const { found, untold } = eachBarometer(flagged, "the swings", (place, pressure) => ({ parts: placeSwings(flagged, pressure, options), quantity: pressure.quantity, aside: resetWarnings(flagged, [place.name]) }));
  const answer = { record: recordHead(flagged), places: valuesOf(found, ({ parts, quantity, aside }) => swingsPlace(quantity, parts, aside)) } as SwingsFields;
  Object.defineProperty(answer, "parts", { value: valuesOf(found, ({ parts }) => parts), enumerable: false });
  const view = { ...recordView(flagged), untold };
  return displayable(answer, (columns) => swingsText(answer, view, columns));
}

function swingsPlace(quantity: Quantity, { swings, shares, hours, warnings }: PlaceSwings, aside: readonly string[]): SwingsPlace {
  const { events, spectrum, tendency } = swings;
  return Object.freeze({
    quantity,
    days: daysHeld(hours.values),
    band: bandOf(swings, shares),
    events: Object.freeze(events.map((e) => Object.freeze({ ...e, at: instantText(e.at) }))),
    spectrum: Object.freeze({ background: spectrum.background, peaks: spectrum.peaks, says: spectrum.says }),
    tendency: Object.freeze({
      series: Object.freeze({ at: Object.freeze(Array.from(tendency.series.at, instantText)), raw: tendency.series.raw, tideFree: tendency.series.tideFree }),
      last: tendency.last === null ? null : Object.freeze({ ...tendency.last, at: instantText(tendency.last.at) }),
    }),
    warnings: Object.freeze([...aside, ...warnings, ...swings.warnings]),
  });
}

function bandOf({ band }: PressureSwings, shares: VarianceShares | null): SwingsBand | null {
  if (band === null) return null;
  const { shortestDays, longestDays, standardDeviation, share, slowBy } = band;
  return Object.freeze({ shortestDays, longestDays, standardDeviation, share, shares, slowBy });
}

function daysHeld(values: Float64Array): number {
  const first = values.findIndex((v) => !Number.isNaN(v));
  if (first < 0) return 0;
  let last = values.length - 1;
  while (Number.isNaN(values[last])) last--;
  return (last - first + 1) / 24;
}
