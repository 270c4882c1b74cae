import { RecordError } from "../ground/complaint.js";
import type { AirRecord, PlaceRecord } from "../record/airRecord.js";
import type { Series } from "../record/series.js";
import { pressureOf } from "./placeTide.js";

/**
 * Asks one question of every place that logged pressure; a place that cannot carry the answer stops none of the others.
 *
 * @param record a record whose faults are marked
 * @param what   the question, for the sentence when no place logged pressure: `the tide`
 * @param of     what is asked of a place and its pressure
 * @returns found  answers by place, in the record's order
 * @returns untold why the other places have none
 * @throws RecordError kind data when no place carries an answer
 */
export function eachBarometer<T>(record: AirRecord, what: string, of: (place: PlaceRecord, pressure: Series) => T): { readonly found: Readonly<Record<string, T>>; readonly untold: readonly string[] } {
  const found: Record<string, T> = {};
  const troubles: RecordError[] = [];
  for (const place of Object.values(record.places)) {
    const pressure = pressureOf(place);
    if (pressure === null) continue;
    try {
      found[place.name] = of(place, pressure);
    } catch (error) {
      if (!(error instanceof RecordError)) throw error;
      troubles.push(error);
    }
  }
  if (Object.keys(found).length === 0) {
    throw troubles[0] ?? new RecordError(`${record.name} must hold air pressure for ${what} (got none); give a field the quantity surface_air_pressure`, "data");
  }
  return { found: Object.freeze(found), untold: troubles.map((t) => t.message) };
}

/** The same names with other values. */
export function valuesOf<A, B>(found: Readonly<Record<string, A>>, of: (value: A) => B): Readonly<Record<string, B>> {
  return Object.freeze(Object.fromEntries(Object.entries(found).map(([name, value]) => [name, of(value)])));
}
