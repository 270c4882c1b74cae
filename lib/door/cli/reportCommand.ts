import { stat } from "node:fs/promises";
import { join } from "node:path";
import { type RecordHead, recordHead } from "../../answers/recordHead.js";
import { counted } from "../../answers/words.js";
import type { AirRecord } from "../../record/airRecord.js";
import { flagRecord } from "../../trust/faults/flagRecord.js";
import { readText } from "../disk/openLog.js";
import type { ReportAnswers } from "../page/reportAnswers.js";
import { reportPage } from "../page/reportPage.js";
import { type WrittenFile, writeReport } from "../page/writeReport.js";
import type { RecordCommand } from "./runRecords.js";

/** What `report` was asked for. */
export interface ReportCommandOptions {
  readonly out?: string;
  readonly pdf?: boolean;
  readonly figures?: string;
}

/** What `report --json` tells. */
export interface ReportDocument {
  readonly record: RecordHead;
  readonly written: readonly WrittenFile[];
  readonly warnings: readonly string[];
}

/** Largest description that is shown · bytes. */
const mostDescription = 4 << 20;

/**
 * `airtides report`: all answers on one page that needs nothing else.
 *
 * @param options where it goes; by default airtides-out/NAME
 * @param count   how many records are told: several go each into a folder of its own
 */
export function reportCommand(options: ReportCommandOptions, count: number): RecordCommand<ReportDocument> {
  return { answer: (record, path) => reportedRecord(record, path, options, count), text: reportText };
}

/**
 * Writes the report of one record.
 *
 * @param path    the RECORD as it was named, for its description
 * @param answers where they are known already
 */
export async function reportedRecord(record: AirRecord, path: string, options: ReportCommandOptions, count: number, answers?: ReportAnswers): Promise<ReportDocument> {
  const page = reportPage(record, { description: await descriptionText(path), ...(answers === undefined ? {} : { answers }) });
  const own = folderName(record.name);
  const below = (folder: string): string => (count > 1 ? join(folder, own) : folder);
  const { written, warnings } = await writeReport(page, {
    out: options.out === undefined ? join("airtides-out", own) : below(options.out),
    pdf: options.pdf === true,
    ...(options.figures === undefined ? {} : { figures: below(options.figures) }),
  });
  return { record: recordHead(flagRecord(record)), written, warnings: [...page.warnings, ...warnings] };
}

/** What was written, and what could not be, as lines. */
export function reportText({ written, warnings }: ReportDocument): string {
  return `${[...written.map((w) => `wrote ${w.path} (${size(w.bytes)})`), ...warnings.map((w) => `! ${w}`)].join("\n")}\n`;
}

async function descriptionText(path: string): Promise<string> {
  const isFolder = await stat(path).then((s) => s.isDirectory());
  return readText(isFolder ? join(path, "datapackage.json") : path, mostDescription);
}

/** A record's name as the name of a folder, which never leaves the folder it stands in. */
function folderName(name: string): string {
  const safe = name.replace(/[^\w.-]+/g, "-").replace(/^[.-]+/, "");
  return safe === "" ? "record" : safe.slice(0, 100);
}

function size(bytes: number): string {
  return bytes < 100_000 ? counted(bytes, "byte") : `${(bytes / 1_000_000).toFixed(1)} MB`;
}
