import { mean } from "../ground/summary.js";
import type { AirRecord, RecordEvent } from "./airRecord.js";

/** Sensors side by side differ by their own biases, and hardly by the hour; two rooms differ by more · K. */
const mostBias = 1;
const mostSpread = 0.5;

/**
 * Whether an event is about one of these places: about all where it names none.
 *
 * @param event of the record
 * @param names of places
 * @example isAbout({ at: 0, to: null, kind: null, title: "logger moved", places: ["bedroom"] }, ["kitchen", "yard"]) // false
 */
export function isAbout(event: RecordEvent, names: readonly string[]): boolean {
  return event.places === undefined || names.some((name) => event.places?.includes(name));
}

/**
 * Whether two places' sensors stood together in a co-location, as the description tells it.
 *
 * Where it names places, both must be among them. Where it names none they did in a record of two places; of more nobody knows which, and
 * only hours that look like one table count: temperatures that differ by no more than sensors do.
 *
 * @param record      whose event it is
 * @param event       of kind co-location
 * @param a, b        names of the two places
 * @param differences hourly temperature of a minus b while it lasted · K · NaN is missing · asked only where it must be
 * @example stoodTogether(record, event, "kitchen", "yard", () => [0.2, 0.3, 0.2]) // true
 */
export function stoodTogether(record: AirRecord, event: RecordEvent, a: string, b: string, differences: () => ArrayLike<number>): boolean {
  if (event.places !== undefined) return event.places.includes(a) && event.places.includes(b);
  if (Object.keys(record.places).length <= 2) return true;
  const known = Array.from(differences()).filter((v) => !Number.isNaN(v));
  if (known.length === 0) return true;
  const bias = mean(known);
  const spread = Math.sqrt(mean(known.map((v) => (v - bias) ** 2)));
  return Math.abs(bias) <= mostBias && spread <= mostSpread;
}
