import { instantText } from "../ground/instant.js";
import type { AirRecord, Site } from "../record/airRecord.js";

/** What every document about a record begins with. */
export interface RecordHead {
  readonly name: string;
  readonly title: string;
  readonly site: Site | null;
  /** First and last instant, ISO 8601 UTC. */
  readonly from: string;
  readonly to: string;
  readonly days: number;
}

/** The head of an answer: which record, where, from when to when. */
export function recordHead(record: AirRecord): RecordHead {
  return Object.freeze({
    name: record.name,
    title: record.title,
    site: record.site,
    from: instantText(record.from),
    to: instantText(record.to),
    days: Math.round((record.to - record.from) / 8640) / 10000,
  });
}
