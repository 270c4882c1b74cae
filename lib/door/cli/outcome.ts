import { RecordError, withoutRoutine } from "../../ground/complaint.js";

/** 0 done · 1 the data cannot carry the answer · 2 wrong use or a faulty description. */
export type ExitCode = 0 | 1 | 2;

/** The sentence and exit code of a failure. A programming mistake of our own is thrown on. */
export interface Failure {
  /** Name of the record as far as it is known. */
  readonly name: string;
  readonly sentence: string;
  /** Faults beyond the first. */
  readonly more: number;
  readonly code: ExitCode;
}

/**
 * Turns what was thrown into a failure to tell; anything that is not a fault of the data or of the use is thrown again.
 *
 * @param name  the record's name, or its path where the name is not known yet
 * @param error what was thrown
 */
export function failureOf(name: string, error: unknown): Failure {
  if (error instanceof RecordError) return { name, sentence: oneLine(withoutRoutine(error.message)), more: error.others.length, code: error.kind === "data" ? 1 : 2 };
  // The library's own checks of arguments (a line that cannot be told apart, a step below zero) are wrong use here.
  if (error instanceof RangeError || error instanceof TypeError) {
    const sentence = withoutRoutine(error.message);
    if (sentence !== error.message) return { name, sentence: oneLine(sentence), more: 0, code: 2 };
  }
  throw error;
}

/** A sentence stays on one line whatever a file name or a value in it holds. */
function oneLine(text: string): string {
  return text.replace(/[\u0000-\u001f\u007f\u2028\u2029]+/g, " ");
}

/** The one line for a run in which everything failed. */
export function firstOf(failures: readonly Failure[]): string {
  const more = failures.reduce((n, f) => n + f.more + 1, 0) - 1;
  return more === 0 ? failures[0].sentence : `${failures[0].sentence} (and ${more} more)`;
}
