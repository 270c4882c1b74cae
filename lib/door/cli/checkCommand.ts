import { type CheckAnswer, checkRecord } from "../../answers/checkRecord.js";
import { displaySymbol } from "../../ground/display.js";
import type { RecordCommand } from "./runRecords.js";

/** `airtides check`: whether the record can be trusted. */
export const checkCommand: RecordCommand<CheckAnswer> = {
  answer: checkRecord,
  text: (answer, columns) => answer[displaySymbol](columns)["text/plain"],
};
