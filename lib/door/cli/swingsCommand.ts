import { type SwingsAnswer, swingsOf } from "../../answers/swingsOf.js";
import { displaySymbol } from "../../ground/display.js";
import type { RecordCommand } from "./runRecords.js";

/** `airtides swings`: the slow wave of passing weather, lows and highs, and the tendency without the tide. */
export const swingsCommand: RecordCommand<SwingsAnswer> = {
  answer: (record) => swingsOf(record),
  text: (answer, columns) => answer[displaySymbol](columns)["text/plain"],
};
