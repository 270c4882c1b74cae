import { shown } from "../../ground/complaint.js";
import type { CommandName } from "../cli/commandNamed.js";
import { wrongUse } from "../cli/runRecords.js";
import { sideBySide } from "../cli/sideBySide.js";

/** What is told of one record among many. */
export interface RecordLine {
  /** One JSON document without a line end: the answer, or `{ record: { name }, error }`. */
  readonly line: string;
  /** Exit code that `airtides COMMAND RECORD` has: 0 done · 1 the data cannot carry the answer · 2 a faulty description or no record. */
  readonly code: 0 | 1 | 2;
}

const answering: readonly string[] = ["check", "tides", "swings", "indoors", "climate"] satisfies readonly CommandName[];

/**
 * The name of a command that answers about one record and writes nothing.
 *
 * @throws RecordError kind description when it is another
 */
export function requireAnswering(command: unknown): CommandName {
  if (answering.includes(command as string)) return command as CommandName;
  throw wrongUse(`COMMAND must be one of ${answering.join(", ")} (got ${shown(command)})`);
}

/** The line of a record of which there is no answer. */
export function failureLine(name: string, error: string): string {
  return JSON.stringify({ record: { name }, error });
}

/**
 * Asks one command about one record, in a thread of its own, so that who asks stays awake and outlives a thread that ran out of memory.
 *
 * @param command see requireAnswering
 * @param path    folder with a datapackage.json, or that file
 * @returns       the answer, or the failure, as one line
 * @throws        what is no fault of the record: a broken promise of ours, or no memory left
 */
export async function recordLine(command: CommandName, path: string): Promise<RecordLine> {
  const [told] = await sideBySide({ name: command, options: {}, records: [path], telling: { json: true, columns: 80 } }, 1);
  if ("code" in told) return { line: failureLine(told.name, told.sentence), code: told.code };
  return { line: JSON.stringify(JSON.parse(told.text)), code: 0 };
}
