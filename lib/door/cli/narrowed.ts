import { RecordError, shown } from "../../ground/complaint.js";
import { zoneNamed } from "../../ground/zone.js";
import type { AirRecord } from "../../record/airRecord.js";
import { instantIn } from "../../record/civilText.js";
import { narrowRecord } from "../../record/narrowRecord.js";

/** What `--since`, `--until` and `--place` ask for. */
export interface Narrowing {
  readonly since?: string;
  readonly until?: string;
  readonly place?: readonly string[];
}

/** Narrows a record as `--since`, `--until` and `--place` ask; civil times are those of the record's zone. */
export function narrowed(record: AirRecord, { since, until, place }: Narrowing): AirRecord {
  if (since === undefined && until === undefined && place === undefined) return record;
  const zone = zoneNamed(record.zone);
  const instant = (option: string, text: string): number => {
    const at = instantIn(text, zone);
    if (at === null) throw new RecordError(`${option} must be a day or time, such as 2024-03-01 or 2024-03-01T09:00 (got ${shown(text)})`, "description");
    return at;
  };
  return narrowRecord(record, {
    ...(since === undefined ? {} : { since: instant("--since", since) }),
    ...(until === undefined ? {} : { until: instant("--until", until) }),
    ...(place === undefined ? {} : { places: place }),
  });
}
