import { Cells, type CellStyle } from "../../record/line/cells.js";
import { cellKind } from "./cellKind.js";

/** How the lines of a log are cut, and how sure that is. */
export interface DelimiterGuess {
  readonly style: CellStyle;
  /** Cells of a row; one that is always empty at the end is not counted. */
  readonly width: number;
  readonly because: string;
}

const names: Readonly<Record<string, string>> = { ",": "commas", ";": "semicolons", "\t": "tabs", "|": "upright strokes", " ": "blanks" };
/** Lines looked at, spread over the sample. */
const mostLines = 400;
/** Cells of a line that are looked at. */
const mostCells = 256;
/** Share of the lines times share of the cells that must make sense. */
const leastScore = 0.4;

/**
 * Finds what parts the cells of a log: the sign by which most lines have one number of cells and the cells make sense.
 *
 * @param lines lines of the log in order
 * @returns     null when no sign cuts the lines into at least two cells that make sense
 */
export function delimiterGuess(lines: readonly string[]): DelimiterGuess | null {
  const filled = lines.filter((l) => l.trim() !== "" && /\d/.test(l));
  const step = Math.max(1, Math.floor(filled.length / mostLines));
  const looked = filled.filter((_, i) => i % step === 0);
  const singles = looked.reduce((n, l) => n + (l.match(/(^|[,;\t|])\s*'[^']*'(?=\s*($|[,;\t|]))/g)?.length ?? 0), 0);
  const doubles = looked.reduce((n, l) => n + (l.match(/"[^"]*"/g)?.length ?? 0), 0);
  const quoteChar = singles > doubles && singles > looked.length / 2 ? "'" : '"';
  let best: DelimiterGuess | null = null;
  let bestScore = leastScore;
  for (const delimiter of Object.keys(names)) {
    const style: CellStyle = { delimiter, quoteChar, doubleQuote: true, skipInitialSpace: delimiter === " " };
    const { score, width } = judge(style, looked);
    // A sign that gives more cells of equal sense is the better one.
    if (width < 2 || score < bestScore + (best === null ? 0 : 0.02 * Math.sign(best.width - width))) continue;
    bestScore = score;
    best = { style, width, because: `${names[delimiter]} cut most lines into ${width} cells that make sense` };
  }
  return best;
}

function judge(style: CellStyle, lines: readonly string[]): { score: number; width: number } {
  const cells = new Cells(style, mostCells);
  const counts = new Map<number, { lines: number; kinds: number; sound: number; isClosed: boolean }>();
  for (const line of lines) {
    if (!cells.cut(style.delimiter === " " ? line.trimEnd() : line) || cells.count > mostCells) continue;
    const all = cells.all();
    const known = counts.get(all.length) ?? { lines: 0, kinds: 0, sound: 0, isClosed: true };
    known.lines++;
    if (all[all.length - 1] !== "") known.isClosed = false;
    for (const cell of all) {
      known.kinds++;
      if (cellKind(cell) !== "odd") known.sound++;
    }
    counts.set(all.length, known);
  }
  let score = 0;
  let width = 0;
  for (const [count, known] of counts) {
    const value = (known.lines / lines.length) * (known.sound / known.kinds) ** 2;
    if (count < 2 || value <= score) continue;
    score = value;
    width = known.isClosed ? count - 1 : count;
  }
  return { score, width };
}
