import type { Parser } from "./syntax.js";

/** Content of an is_complete_reply. */
export type Completeness = { readonly status: "complete" | "invalid" } | { readonly status: "incomplete"; readonly indent: string };

/** Unterminated template, comment not closed, unexpected end of text. */
const openEnded: ReadonlySet<number> = new Set([1160, 1010, 1126]);

const unterminatedString = 1002;

/**
 * Whether a text is a whole cell, or a console should wait for another line.
 *
 * @param parser the compiler's parser
 * @param code   what was typed so far
 */
export function isComplete(parser: Parser, code: string): Completeness {
  const faults = parser.parse(code).parseDiagnostics;
  if (faults.length === 0) return { status: "complete" };
  const first = faults[0];
  const end = code.trimEnd().length;
  // A string cannot go on in the next line.
  if (first.code === unterminatedString) return { status: "invalid" };
  if (openEnded.has(first.code) || first.start >= end) return { status: "incomplete", indent: indentAfter(code) };
  return { status: "invalid" };
}

/** Indent of the next line: as the last one, two deeper after an opening bracket. */
function indentAfter(code: string): string {
  const line = code.trimEnd().split("\n").at(-1) ?? "";
  const own = /^[ \t]*/.exec(line)?.[0] ?? "";
  return /[{([]$/.test(line) ? `${own}  ` : own;
}
