import { stat } from "node:fs/promises";
import { dirname, join } from "node:path";
import { RecordError } from "../../ground/complaint.js";
import type { AirRecord } from "../../record/airRecord.js";
import { type Chunks, readRecord } from "../../record/readRecord.js";
import { fileTrouble, openLog, readText } from "./openLog.js";

/** Name of a record's description, by the Data Package standard. */
const descriptionName = "datapackage.json";

/** Largest description that is read · bytes. */
const mostDescription = 4 << 20;

/**
 * Opens a record: a folder with a datapackage.json, or that file itself, and reads all its logs once.
 *
 * Files are opened for reading only.
 *
 * @param path folder or description
 * @returns    the record, in house units and UTC
 * @throws RecordError when the description or a log is missing, cannot be opened or is faulty, or no reading was accepted
 * @example const record = await openRecord("datasets/hill-school")
 */
export async function openRecord(path: string): Promise<AirRecord> {
  const file = await descriptionOf(path);
  const text = await readText(file, mostDescription);
  let document: unknown;
  try {
    document = JSON.parse(text.replace(/^\ufeff/, ""));
  } catch (error) {
    throw new RecordError(`${file} must hold JSON (got: ${(error as Error).message})`, "description", { file });
  }
  try {
    return await readRecord(document, (log) => sizedLog(join(dirname(file), log)));
  } catch (error) {
    // Faults of the description name its paths only: say which description.
    if (error instanceof RecordError && error.where.file === undefined) throw new RecordError(`${file}: ${error.message}`, error.kind, { file }, error.others);
    throw error;
  }
}

/** A log with its size, which only spares memory: a log that cannot be looked at tells so when it is read. */
async function sizedLog(path: string): Promise<Chunks> {
  const size = await stat(path).then((found) => found.size, () => 0);
  return Object.assign(openLog(path), { size });
}

async function descriptionOf(path: string): Promise<string> {
  try {
    return (await stat(path)).isDirectory() ? join(path, descriptionName) : path;
  } catch (error) {
    throw fileTrouble(path, error);
  }
}
