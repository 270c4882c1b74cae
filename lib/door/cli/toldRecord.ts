import type { AirRecord } from "../../record/airRecord.js";
import { heedingInterrupts } from "../disk/interrupts.js";
import { openRecord } from "../disk/openRecord.js";
import { jsonText } from "./json.js";
import { type Narrowing, narrowed } from "./narrowed.js";
import { type Failure, failureOf } from "./outcome.js";

/** How a command looks to the runner: an answer to be told as a document and as text. */
export interface RecordCommand<Answer> {
  /** `path` is the RECORD as it was named. */
  answer(record: AirRecord, path: string): Answer | Promise<Answer>;
  /** The answer as text for people; `columns` is the width of the screen. */
  text(answer: Answer, columns: number): string;
  /** What goes to standard output instead of text and JSON, such as an export. */
  instead?(answer: Answer): Promise<string> | string;
}

/** How the answer is wanted. */
export interface Telling extends Narrowing {
  readonly json?: boolean;
  /** Width of the screen. */
  readonly columns: number;
}

/** One record's answer as it goes out: text only, so that it may come from another thread and the record can be let go. */
export interface Told {
  /** What goes to standard error, each a sentence. */
  readonly notes: readonly string[];
  /** The JSON document, or the text for people. */
  readonly text: string;
  readonly isDocument: boolean;
}

/**
 * Opens one record, asks one command about it and puts the answer into words.
 *
 * @param path    folder with a datapackage.json, or that file
 * @param command see RecordCommand
 * @param telling narrowing, document or text, width
 * @returns       what to tell, or the failure in its place
 */
export async function toldRecord<Answer>(path: string, command: RecordCommand<Answer>, telling: Telling): Promise<Told | Failure> {
  let name = path;
  try {
    const whole = await heedingInterrupts(`stopped while ${path} was read; nothing was written`, () => openRecord(path));
    name = whole.name;
    const record = narrowed(whole, telling);
    const answer = await command.answer(record, path);
    const instead = await command.instead?.(answer);
    const isDocument = telling.json === true && instead === undefined;
    return { notes: notesOf(record), text: isDocument ? jsonText(answer) : (instead ?? command.text(answer, telling.columns)), isDocument };
  } catch (error) {
    return failureOf(name, error);
  }
}

/** What the reader wants to tell, and rows in this computer's own future. */
function notesOf(record: AirRecord): string[] {
  const notes = record.notes.map((n) => `${record.name}: ${n}`);
  if (record.to > Date.now()) {
    notes.push(`${record.name}: the last reading, ${new Date(record.to).toISOString().slice(0, 16)}Z, lies in this computer's future; one of the two clocks is wrong`);
  }
  return notes;
}
