import { standardOffsetHours } from "../ground/standardTime.js";
import { zoneNamed } from "../ground/zone.js";
import type { AirRecord } from "../record/airRecord.js";

/** What every text answer needs besides the answer. */
export interface RecordView {
  /** The record's standard time · hours east of UTC. */
  readonly offsetHours: number;
  /** Titles by name of place. */
  readonly titles: Readonly<Record<string, string>>;
}

/** The record's standard time at its first reading, and the titles of its places. */
export function recordView(record: AirRecord): RecordView {
  const zone = zoneNamed(record.zone);
  return Object.freeze({
    offsetHours: zone === null ? 0 : standardOffsetHours(zone, record.from),
    titles: Object.freeze(Object.fromEntries(Object.values(record.places).map((p) => [p.name, p.title]))),
  });
}
