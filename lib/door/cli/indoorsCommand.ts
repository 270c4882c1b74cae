import { type IndoorsAnswer, indoorsOf } from "../../answers/indoorsOf.js";
import { displaySymbol } from "../../ground/display.js";
import { type RecordCommand, wrongUse } from "./runRecords.js";

/** `airtides indoors`: what the house does to the weather. */
export function indoorsCommand({ factor }: { readonly factor?: string }): RecordCommand<IndoorsAnswer> {
  const value = factor === undefined ? undefined : Number(factor);
  if (value !== undefined && !(factor?.trim() !== "" && value >= 0 && value <= 1)) {
    throw wrongUse(`--factor must be a temperature factor from 0 to 1, such as 0.70 (got ${JSON.stringify(factor)})`);
  }
  return {
    answer: (record) => indoorsOf(record, value === undefined ? {} : { factor: value }),
    text: (answer, columns) => answer[displaySymbol](columns)["text/plain"],
  };
}
