import { checkRecord } from "../../../lib/answers/checkRecord.js";
import { climateOf } from "../../../lib/answers/climateOf.js";
import { indoorsOf } from "../../../lib/answers/indoorsOf.js";
import { swingsOf } from "../../../lib/answers/swingsOf.js";
import { tidesOf } from "../../../lib/answers/tidesOf.js";
import { openRecord } from "../../../lib/door/disk/openRecord.js";
import type { RecordAnswers } from "../../../lib/figure/recordFigures.js";
import type { AirRecord } from "../../../lib/record/airRecord.js";
import { flagRecord } from "../../../lib/trust/faults/flagRecord.js";

/** A record of datasets/ with its faults marked, and every answer about it. */
export async function drawnRecord(name: string): Promise<{ readonly record: AirRecord; readonly answers: RecordAnswers }> {
  const record = flagRecord(await openRecord(new URL(`../../../datasets/${name}`, import.meta.url).pathname));
  return { record, answers: { check: checkRecord(record), tides: tidesOf(record), swings: swingsOf(record, { draws: 99 }), climate: climateOf(record), indoors: indoorsOf(record) } };
}
