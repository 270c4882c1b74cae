import { RecordError } from "../ground/complaint.js";
import { instantText } from "../ground/instant.js";
import type { AirRecord, PlaceRecord } from "./airRecord.js";
import type { Quantity } from "./quantity.js";
import { spanOf } from "./placeRecord.js";
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
 * The accounts of the files stay those of the whole record; counts of repeated and conflicting rows too.
 *
 * @param record the record · unchanged
 * @param span   see Span
 * @throws RecordError when a place is unknown (kind description) or nothing is left (kind data)
 */
export function narrowRecord(record: AirRecord, { since = -Infinity, until = Infinity, places }: Span): AirRecord {
  const names = Object.keys(record.places);
  for (const name of places ?? []) {
    if (!names.includes(name)) throw new RecordError(`place must be one of ${names.join(", ")} (got "${name}")`, "description");
  }
  const kept: Record<string, PlaceRecord> = {};
  for (const name of names) if (places === undefined || places.includes(name)) kept[name] = narrowPlace(record.places[name], since, until);
  if (Object.values(kept).every((p) => p.readings === 0)) {
    throw new RecordError(
      `${record.name} must hold a reading in the span asked for (got none${since > -Infinity ? ` since ${instantText(since)}` : ""}${until < Infinity ? ` until ${instantText(until)}` : ""}; the record runs from ${instantText(record.from)} to ${instantText(record.to)})`,
      "data",
    );
  }
  const span = spanOf(kept);
  const inside = (at: number): boolean => at >= span.from && at <= span.to;
  return Object.freeze({
    ...record,
    places: Object.freeze(kept),
    jumps: Object.freeze(record.jumps.filter((j) => j.place in kept && inside(j.at))),
    zoneChanges: Object.freeze(record.zoneChanges.filter((z) => inside(z.at))),
    ...span,
  });
}

function narrowPlace(place: PlaceRecord, since: number, until: number): PlaceRecord {
  let from = 0;
  let to = place.readings;
  while (from < to && place.start + 1000 * place.seconds[from] < since) from++;
  while (to > from && place.start + 1000 * place.seconds[to - 1] >= until) to--;
  if (from === 0 && to === place.readings) return place;
  const shift = to > from ? place.seconds[from] : 0;
  const start = place.start + 1000 * shift;
  const seconds = place.seconds.slice(from, to).map((s) => s - shift);
  const series: Partial<Record<Quantity, Series>> = {};
  for (const [q, s] of Object.entries(place.series) as [Quantity, Series][]) {
    series[q] = Object.freeze({ ...s, start, seconds, values: s.values.slice(from, to), flags: s.flags.slice(from, to) });
  }
  return Object.freeze({ ...place, readings: to - from, start, seconds, series: Object.freeze(series) });
}
