import { displaySymbol } from "../../ground/display.js";
import { type ReportAnswers, reportAnswers } from "../page/reportAnswers.js";
import { type ReportDocument, reportedRecord, reportText } from "./reportCommand.js";
import type { RecordCommand } from "./runRecords.js";

/** What `npm start` tells of one record. */
interface StartDocument {
  readonly answers: ReportAnswers;
  readonly report: ReportDocument;
}

/**
 * Check, tide and report of a record that is opened and looked through for faults once.
 *
 * @param count how many records are told
 */
export function startCommand(count: number): RecordCommand<StartDocument> {
  return {
    answer: async (record, path) => {
      const answers = reportAnswers(record);
      return { answers, report: await reportedRecord(record, path, {}, count, answers) };
    },
    text: ({ answers, report }, columns) => {
      const rule = `\n${"─".repeat(60)}\n\n`;
      const { check, tides } = answers;
      const tide = tides.answer === null ? `No tide: ${tides.why}\n` : tides.answer[displaySymbol](columns)["text/plain"];
      return `${check[displaySymbol](columns)["text/plain"]}${rule}${tide}${rule}All of it on one page, with figures, for any browser:\n${reportText(report)}`;
    },
  };
}
