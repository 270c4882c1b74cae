import type { Converter } from "./compiler.js";

/** What may stand at a place in a cell. */
export interface Completions {
  /** Offsets of the text that a match replaces (UTF-16). */
  readonly start: number;
  readonly end: number;
  readonly matches: readonly string[];
  /** The compiler's word for each match: `method`, `const`, `class` … */
  readonly kinds: readonly string[];
}

/**
 * Completions at a place: those that begin as the text does, exact case first.
 *
 * @param converter    the compiler's state
 * @param declarations what earlier cells declared
 * @param code         the cell
 * @param position     offset of the cursor (UTF-16)
 */
export function completeCell(converter: Converter, declarations: string, code: string, position: number): Completions {
  const found = converter.complete(declarations, code, position);
  const typed = code.slice(found.start, Math.max(found.start, position));
  const lower = typed.toLowerCase();
  const fitting = found.candidates.filter((name) => name.toLowerCase().startsWith(lower));
  const matches = [...fitting.filter((name) => name.startsWith(typed)), ...fitting.filter((name) => !name.startsWith(typed))];
  const kinds = new Map((found.original?.entries ?? []).map((entry) => [entry.name, String(entry.kind)]));
  return { start: found.start, end: Math.max(found.end, position), matches, kinds: matches.map((name) => kinds.get(name) ?? "") };
}

/**
 * The name that a cell asks about when it is a name and a question mark (`dewPoint?`), which is no TypeScript; else null.
 *
 * @param code a whole cell
 */
export function askedName(code: string): string | null {
  return /^\s*([A-Za-z_$][\w$.]*)\?\s*$/.exec(code)?.[1] ?? null;
}

interface Piece {
  readonly text: string;
}

/**
 * Type and documentation of the name at a place, or just left of it; null when there is none.
 *
 * @param converter    the compiler's state
 * @param declarations what earlier cells declared
 * @param code         the cell
 * @param position     offset of the cursor (UTF-16)
 */
export function inspectCell(converter: Converter, declarations: string, code: string, position: number): string | null {
  for (const at of position > 0 ? [position, position - 1] : [position]) {
    // The compiler's own type does not say that nothing may be found.
    const found = converter.inspect(declarations, code, at) as ReturnType<Converter["inspect"]> | undefined;
    const head = joined(found?.displayParts);
    if (found === undefined || head === "") continue;
    const tags = (found.tags ?? []).map((tag) => `@${tag.name} ${joined(tag.text)}`.trimEnd());
    return [head, joined(found.documentation), tags.join("\n")].filter((part) => part !== "").join("\n\n");
  }
  return null;
}

function joined(pieces: readonly Piece[] | undefined): string {
  return (pieces ?? []).map((piece) => piece.text).join("");
}
