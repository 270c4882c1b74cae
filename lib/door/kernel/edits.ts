/** One change of a text: so many characters taken out at a place, others put in. */
export interface Edit {
  /** Offset in the text before the change. */
  readonly at: number;
  readonly remove: number;
  readonly insert: string;
}

/** A changed text that still knows where each of its characters came from. */
export interface EditedText {
  readonly text: string;
  /** Offset in the old text of an offset in the new one; inside something put in, the place where it was put. */
  back(offset: number): number;
}

/**
 * Applies changes that do not overlap.
 *
 * @param text  the old text
 * @param edits changes by offsets in the old text, in any order; those at one place keep their order
 */
export function applyEdits(text: string, edits: readonly Edit[]): EditedText {
  if (edits.length === 0) return { text, back: (offset) => offset };
  const sorted = edits.map((edit, i) => ({ edit, i })).sort((a, b) => a.edit.at - b.edit.at || a.i - b.i).map(({ edit }) => edit);
  const pieces: string[] = [];
  // Where kept text starts: [in the new text, in the old text].
  const anchors: [number, number][] = [[0, 0]];
  let read = 0;
  let written = 0;
  const put = (piece: string): void => {
    pieces.push(piece);
    written += piece.length;
  };
  for (const { at, remove, insert } of sorted) {
    put(text.slice(read, at));
    anchors.push([written, at]);
    put(insert);
    read = at + remove;
    anchors.push([written, read]);
  }
  put(text.slice(read));
  const back = (offset: number): number => {
    let i = anchors.length - 1;
    while (i > 0 && anchors[i][0] > offset) i--;
    const [start, origin] = anchors[i];
    const limit = i + 1 < anchors.length ? anchors[i + 1][1] : text.length;
    return Math.min(origin + offset - start, limit);
  };
  return { text: pieces.join(""), back };
}

/** Line and column, both from 0, of an offset in a text. */
export function placeOf(text: string, offset: number): { line: number; column: number } {
  const before = text.slice(0, offset);
  const line = before.split("\n").length - 1;
  return { line, column: offset - (before.lastIndexOf("\n") + 1) };
}

/** Offset in a text of a line and column, both from 0; past the end of a line, that end. */
export function offsetOf(text: string, line: number, column: number): number {
  let start = 0;
  for (let i = 0; i < line; i++) {
    const next = text.indexOf("\n", start);
    if (next === -1) return text.length;
    start = next + 1;
  }
  const end = text.indexOf("\n", start);
  return Math.min(start + column, end === -1 ? text.length : end);
}
