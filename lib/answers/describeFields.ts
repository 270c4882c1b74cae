import type { Description } from "../record/description/description.js";
import type { OpenQuestion } from "../record/description/openQuestions.js";
import type { Guess } from "../trust/draft/logSample.js";
import type { RecordHead } from "./recordHead.js";

/** The fields of the answer, as `describe --json` writes them. */
export interface DescribeFields {
  /** Of what was looked at, by the draft: times as its zone has them. */
  readonly record: RecordHead;
  /** A datapackage.json that validates; questions stand in it. */
  readonly draft: Description;
  readonly guesses: readonly Guess[];
  readonly questions: readonly OpenQuestion[];
  /** Logs that could not be described; absent when all could. */
  readonly failures?: readonly { readonly path: string; readonly error: string; readonly kind: "description" | "data" }[];
}
