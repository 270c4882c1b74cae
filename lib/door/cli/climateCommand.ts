import { type ClimateAnswer, climateOf } from "../../answers/climateOf.js";
import { displaySymbol } from "../../ground/display.js";
import { type RecordCommand, wrongUse } from "./runRecords.js";

/** `airtides climate`: days, months, years, the yearly round, a trend or the reason for none. */
export function climateCommand(options: { readonly base?: string; readonly hot?: string }): RecordCommand<ClimateAnswer> {
  const degrees = (option: string, text: string | undefined): { [key: string]: number } | undefined => {
    if (text === undefined) return undefined;
    const value = Number(text);
    if (text.trim() === "" || !(Math.abs(value) <= 100)) throw wrongUse(`--${option} must be degrees Celsius from −100 to 100 (got ${JSON.stringify(text)})`);
    return { [option === "base" ? "base" : "hotFrom"]: value };
  };
  const settings = { ...degrees("base", options.base), ...degrees("hot", options.hot) };
  return {
    answer: (record) => climateOf(record, settings),
    text: (answer, columns) => answer[displaySymbol](columns)["text/plain"],
  };
}
