import { type Displayable, displayable } from "../ground/display.js";
import { draftDescription } from "../trust/draft/draftDescription.js";
import type { LogSample } from "../trust/draft/logSample.js";
import type { DescribeFields } from "./describeFields.js";
import { describeText } from "./describeText.js";
import { recordHead } from "./recordHead.js";

/** The draft with its reasons, and its text form. */
export type DescribeAnswer = Displayable<DescribeFields>;

/**
 * What are these logs: drafts their description, tells each guess with its reason, and asks what only the owner knows.
 *
 * @param samples      beginnings and ends of the logs, paths as the draft is to name them
 * @param options.name name of the record, default the first log's
 * @returns            see DescribeFields
 * @throws RecordError when no log can be described
 * @example describeLogs([{ path: "card.txt", head: bytes, tail: null, bytes: bytes.length }]).draft.resources[0].path // "card.txt"
 */
export function describeLogs(samples: readonly LogSample[], options: { name?: string } = {}): DescribeAnswer {
  const { draft, guesses, questions, record, failures } = draftDescription(samples, options);
  const answer: DescribeFields = {
    record: recordHead(record),
    draft,
    guesses,
    questions,
    ...(failures.length === 0 ? {} : { failures: Object.freeze(failures.map((f) => Object.freeze({ path: f.where.file ?? "", error: f.message, kind: f.kind }))) }),
  };
  return displayable(answer, (columns) => describeText(answer, record.files, columns));
}
