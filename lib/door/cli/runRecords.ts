import { RecordError } from "../../ground/complaint.js";
import type { AirRecord } from "../../record/airRecord.js";
import { heedingInterrupts } from "../disk/interrupts.js";
import { openRecord } from "../disk/openRecord.js";
import { jsonText } from "./json.js";
import { type Narrowing, narrowed } from "./narrowed.js";
import { type ExitCode, type Failure, failureOf, firstOf } from "./outcome.js";

/** How a command looks to the runner: an answer to be told as a document and as text. */
export interface RecordCommand<Answer> {
  /** `path` is the RECORD as it was named. */
  answer(record: AirRecord, path: string): Answer | Promise<Answer>;
  /** The answer as text for people; `columns` is the width of the screen. */
  text(answer: Answer, columns: number): string;
  /** What goes to standard output instead of text and JSON, such as an export. */
  instead?(answer: Answer): Promise<string> | string;
}

interface Done<Answer> {
  readonly record: AirRecord;
  readonly answer: Answer;
  /** What goes to standard output instead of text and JSON. */
  readonly instead: string | undefined;
}

/**
 * Runs one command over one or several records and tells the outcome.
 *
 * With `--json` and several records the document is `{ "records": [ … ] }` in their order, a failed one in its place.
 * When everything fails, standard output stays empty and standard error has one line.
 *
 * @returns the highest exit code
 */
export async function runRecords<Answer>(
  paths: readonly string[],
  options: Narrowing & { readonly json?: boolean; readonly quiet?: boolean },
  command: RecordCommand<Answer>,
): Promise<ExitCode> {
  const outcomes: (Done<Answer> | Failure)[] = [];
  for (const path of paths) outcomes.push(await runOne(path, options, command));
  const failures = outcomes.filter((o): o is Failure => "code" in o);
  const code = Math.max(0, ...failures.map((f) => f.code)) as ExitCode;
  if (failures.length === outcomes.length) {
    process.stderr.write(`${firstOf(failures)}\n`);
    return code;
  }
  for (const failure of failures) process.stderr.write(`${firstOf([failure])}\n`);
  if (options.quiet !== true) {
    for (const outcome of outcomes) if ("record" in outcome) for (const note of notesOf(outcome.record)) process.stderr.write(`note: ${note}\n`);
  }
  const columns = Math.min(110, Math.max(60, process.stdout.columns ?? 100));
  if (options.json === true && command.instead === undefined) process.stdout.write(jsonText(document(outcomes)));
  else {
    for (const outcome of outcomes) {
      if ("record" in outcome) process.stdout.write(outcome.instead ?? command.text(outcome.answer, columns));
    }
  }
  return code;
}

async function runOne<Answer>(path: string, options: Narrowing, command: RecordCommand<Answer>): Promise<Done<Answer> | Failure> {
  let name = path;
  try {
    const whole = await heedingInterrupts(`stopped while ${path} was read; nothing was written`, () => openRecord(path));
    name = whole.name;
    const record = narrowed(whole, options);
    const answer = await command.answer(record, path);
    return { record, answer, instead: await command.instead?.(answer) };
  } catch (error) {
    return failureOf(name, error);
  }
}

function document<Answer>(outcomes: readonly (Done<Answer> | Failure)[]): unknown {
  const documents = outcomes.map((o) => ("record" in o ? o.answer : { record: { name: o.name }, error: o.sentence }));
  return documents.length === 1 ? documents[0] : { records: documents };
}

/** What the reader wants to tell, and rows in this computer's own future. */
function notesOf(record: AirRecord): string[] {
  const notes = record.notes.map((n) => `${record.name}: ${n}`);
  if (record.to > Date.now()) {
    notes.push(`${record.name}: the last reading, ${new Date(record.to).toISOString().slice(0, 16)}Z, lies in this computer's future; one of the two clocks is wrong`);
  }
  return notes;
}

/** A sentence for a use that cannot be: told like any other failure. */
export function wrongUse(sentence: string): RecordError {
  return new RecordError(sentence, "description");
}
