import { RecordError } from "../../ground/complaint.js";
import type { Narrowing } from "./narrowed.js";
import { jsonText } from "./json.js";
import { type ExitCode, type Failure, firstOf } from "./outcome.js";
import { type RecordCommand, type Told, toldRecord } from "./toldRecord.js";

export type { RecordCommand } from "./toldRecord.js";

/** What every command about records may be told. */
export interface RunOptions extends Narrowing {
  readonly json?: boolean;
  readonly quiet?: boolean;
}

/**
 * Runs one command over one or several records, one after the other, and tells the outcome.
 *
 * @returns the highest exit code
 */
export async function runRecords<Answer>(paths: readonly string[], options: RunOptions, command: RecordCommand<Answer>): Promise<ExitCode> {
  const outcomes: (Told | Failure)[] = [];
  for (const path of paths) outcomes.push(await toldRecord(path, command, { ...options, columns: screenColumns() }));
  return tell(outcomes, options);
}

/** Width of the screen, within what the texts are made for. */
export function screenColumns(): number {
  return Math.min(110, Math.max(60, process.stdout.columns ?? 100));
}

/**
 * Writes what was told of some records, in their order.
 *
 * With `--json` and several records the document is `{ "records": [ … ] }`, a failed one in its place. When everything fails, standard
 * output stays empty and standard error has one line.
 *
 * @returns the highest exit code
 */
export function tell(outcomes: readonly (Told | Failure)[], { json, quiet }: RunOptions): ExitCode {
  const failures = outcomes.filter((o): o is Failure => "code" in o);
  const code = Math.max(0, ...failures.map((f) => f.code)) as ExitCode;
  if (failures.length === outcomes.length) {
    process.stderr.write(`${firstOf(failures)}\n`);
    return code;
  }
  for (const failure of failures) process.stderr.write(`${firstOf([failure])}\n`);
  const told = outcomes.filter((o): o is Told => !("code" in o));
  if (quiet !== true) for (const { notes } of told) for (const note of notes) process.stderr.write(`note: ${note}\n`);
  const areDocuments = json === true && told.every((t) => t.isDocument);
  if (areDocuments && outcomes.length > 1) process.stdout.write(severalDocuments(outcomes));
  else for (const { text } of told) process.stdout.write(text);
  return code;
}

function severalDocuments(outcomes: readonly (Told | Failure)[]): string {
  const documents = outcomes.map((o) => ("code" in o ? jsonText({ record: { name: o.name }, error: o.sentence }) : o.text));
  // No line end stands inside a JSON text, so that setting lines in changes nothing but the look.
  return `{\n  "records": [\n${documents.map((d) => `    ${d.trimEnd().replaceAll("\n", "\n    ")}`).join(",\n")}\n  ]\n}\n`;
}

/** A sentence for a use that cannot be: told like any other failure. */
export function wrongUse(sentence: string): RecordError {
  return new RecordError(sentence, "description");
}
