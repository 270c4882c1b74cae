import { RecordError, shown } from "../ground/complaint.js";
import { instantText } from "../ground/instant.js";
import type { AirRecord, PlaceRecord } from "./airRecord.js";
import { spanOf } from "./placeRecord.js";
import type { Quantity } from "./quantity.js";
import type { Series } from "./series.js";

/** Which part of a record to keep. */
export interface Span {
  /** First instant kept · epoch ms. */
  readonly since?: number;
  /** First instant left out · epoch ms. */
  readonly until?: number;
  /** Places kept; default all. */
  readonly places?: readonly string[];
}

/**
 * Narrows a record to a span of time and to some of its places.
 *
 * The accounts of the files, the counts of repeated and conflicting rows and the events stay those of the whole record;
 * a quantity without a value in the span has no series.
 *
 * @param record the record · unchanged
 * @param span   see Span
 * @returns      a frozen record; `from` and `to` tell the narrowed span
 * @throws RecordError when a place is unknown (kind `description`) or nothing is left (kind `data`)
 * @example narrowRecord(record, { since: Date.UTC(2024, 4, 1), places: ["veranda"] })
 */
export function narrowRecord(record: AirRecord, { since = -Infinity, until = Infinity, places }: Span): AirRecord {
  const names = Object.keys(record.places);
  for (const name of places ?? []) {
    if (!names.includes(name)) throw new RecordError(`place must be one of ${names.join(", ")} (got ${shown(name)})`, "description");
  }
  const kept: Record<string, PlaceRecord> = {};
  for (const name of names) if (places === undefined || places.includes(name)) kept[name] = narrowPlace(record.places[name], since, until);
  if (Object.values(kept).every((p) => p.readings === 0)) {
    const asked = [since > -Infinity ? `since ${instantText(since)}` : "", until < Infinity ? `until ${instantText(until)}` : "", places === undefined ? "" : `in ${places.join(", ")}`];
    throw new RecordError(
      `${record.name} must hold a reading in the span asked for (got none ${asked.filter((a) => a !== "").join(" ")}); the record runs from ${instantText(record.from)} to ${instantText(record.to)}`,
      "data",
    );
  }
  const span = spanOf(kept);
  const isInside = (at: number): boolean => at >= span.from && at <= span.to;
  return Object.freeze({
    ...record,
    places: Object.freeze(kept),
    jumps: Object.freeze(record.jumps.filter((j) => j.place in kept && isInside(j.at))),
    zoneChanges: Object.freeze(record.zoneChanges.filter((z) => isInside(z.at))),
    ...span,
    ...(record.setAside === undefined ? {} : { setAside: Object.freeze(record.setAside.filter((s) => s.place in kept && s.to >= since && s.from < until)) }),
  });
}

function narrowPlace(place: PlaceRecord, since: number, until: number): PlaceRecord {
  const from = firstAtOrAfter(place, since);
  const to = Math.max(from, firstAtOrAfter(place, until));
  if (from === 0 && to === place.readings) return place;
  const shift = to > from ? place.seconds[from] : 0;
  const start = to > from ? place.start + 1000 * shift : 0;
  const seconds: Float64Array = place.seconds.slice(from, to).map((s) => s - shift);
  const series: Partial<Record<Quantity, Series>> = {};
  for (const [q, s] of Object.entries(place.series) as [Quantity, Series][]) {
    const values: Float64Array = s.values.slice(from, to);
    if (!values.every(Number.isNaN)) series[q] = Object.freeze({ ...s, start, seconds, values, flags: s.flags.slice(from, to) });
  }
  return Object.freeze({ ...place, readings: to - from, start, seconds, series: Object.freeze(series) });
}

function firstAtOrAfter(place: PlaceRecord, at: number): number {
  let low = 0;
  let high = place.readings;
  while (low < high) {
    const middle = (low + high) >> 1;
    if (place.start + 1000 * place.seconds[middle] < at) low = middle + 1;
    else high = middle;
  }
  return low;
}
