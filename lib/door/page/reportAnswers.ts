import { type CheckAnswer, checkRecord } from "../../answers/checkRecord.js";
import { type ClimateAnswer, climateOf } from "../../answers/climateOf.js";
import { type IndoorsAnswer, indoorsOf } from "../../answers/indoorsOf.js";
import { type RecordView, recordView } from "../../answers/recordView.js";
import { type SwingsAnswer, swingsOf } from "../../answers/swingsOf.js";
import { type TidesAnswer, tidesOf } from "../../answers/tidesOf.js";
import { RecordError, withoutRoutine } from "../../ground/complaint.js";
import type { AirRecord } from "../../record/airRecord.js";
import { flagRecord } from "../../trust/faults/flagRecord.js";

/** An answer, or the one sentence that says why the record cannot carry it. */
export type Told<Answer> = { readonly answer: Answer; readonly why: null } | { readonly answer: null; readonly why: string };

/** Everything the report tells. */
export interface ReportAnswers {
  /** With its faults marked. */
  readonly record: AirRecord;
  readonly view: RecordView;
  readonly check: CheckAnswer;
  readonly tides: Told<TidesAnswer>;
  readonly swings: Told<SwingsAnswer>;
  readonly climate: Told<ClimateAnswer>;
  readonly indoors: Told<IndoorsAnswer>;
}

/**
 * Asks every question of one record; faults are marked once.
 *
 * @param record from a reader
 */
export function reportAnswers(record: AirRecord): ReportAnswers {
  const flagged = flagRecord(record);
  // First the tide with its months: the fit then serves the questions that need none.
  const tides = told(() => tidesOf(flagged));
  return Object.freeze({
    record: flagged,
    view: recordView(flagged),
    check: checkRecord(flagged),
    tides,
    swings: told(() => swingsOf(flagged)),
    climate: told(() => climateOf(flagged)),
    indoors: told(() => indoorsOf(flagged)),
  });
}

function told<Answer>(ask: () => Answer): Told<Answer> {
  try {
    return { answer: ask(), why: null };
  } catch (error) {
    // A reader of the page does not know the routine that says so.
    if (error instanceof RecordError) return { answer: null, why: withoutRoutine(error.message) };
    throw error;
  }
}
