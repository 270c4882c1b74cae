import { RecordError } from "../../ground/complaint.js";
import { Cells } from "../../record/line/cells.js";
import { delimiterGuess, type DelimiterGuess } from "./delimiterGuess.js";
import type { LogSample } from "./logSample.js";
import { type LogText, logText } from "./logText.js";
import { commasForBoth, dashForMinus, halvesOfDay } from "./lostMeaning.js";
import { type PreambleGuess, preambleGuess } from "./preambleGuess.js";
import { isStamped, type StampGuess, stampGuess, timesOf } from "./stampGuess.js";
import { timeTrouble } from "./timeTrouble.js";

/** An unknown log cut into rows, with its stamps understood. */
export interface LogTable {
  readonly text: LogText;
  readonly delimiter: DelimiterGuess;
  readonly preamble: PreambleGuess;
  readonly stamps: StampGuess;
  /** Cells of the rows whose stamp was read, blanks at their ends taken off. */
  readonly rows: readonly (readonly string[])[];
  /** Civil times of the rows, epoch ms as if UTC · [rows]. */
  readonly times: Float64Array;
}

/**
 * Cuts an unknown log into rows and finds their stamps.
 *
 * @throws RecordError kind `description` for bytes that are no text, kind `data` for text that is no log or tells no time
 */
export function logTable(sample: LogSample): LogTable {
  const text = logText(sample);
  const lines = [...text.head, ...text.tail].map((l) => l ?? "");
  refusePages(text.path, lines);
  const delimiter = delimiterGuess(lines);
  if (!lines.some((l) => /\d/.test(l))) throw trouble(text.path, "hold rows of readings", "no line with a number", "is it a header alone, or another file?");
  if (delimiter === null) throw trouble(text.path, "hold rows of cells parted by commas, semicolons, tabs, upright strokes or blanks", "none of these cuts its lines into cells that make sense", "look at it in an editor: is it the log?");
  const { style, width } = delimiter;
  const cut = cutter(delimiter);
  const full = lines.flatMap((l) => cut(l) ?? []);
  const stamps = stampGuess(full.filter((r) => r.filter((c) => /\d/.test(c)).length > r.length / 4), width);
  if (stamps === null) {
    const names = preambleGuess(text.head, lines.findIndex((l) => (cut(l)?.[0] ?? []).filter((c) => /\d/.test(c)).length > width / 2), () => false, style, width).names;
    const { got, remedy } = timeTrouble(full.filter((r) => r.filter((c) => /\d/.test(c)).length >= width / 2), width, names ?? []);
    throw trouble(text.path, "tell date and time in each row", got, remedy);
  }
  const isRow = (line: string): boolean => {
    const cells = cut(line)?.[0];
    return cells !== undefined && isStamped(cells, stamps.fields);
  };
  const firstRow = text.head.findIndex((l) => l !== null && isRow(l));
  const preamble = inPlace(preambleGuess(text.head, Math.max(0, firstRow), isRow, style, width), stamps, width);
  const all = timesOf(full, stamps.fields);
  const kept = full.flatMap((r, i) => (Number.isNaN(all[i]) ? [] : [{ r, at: all[i] }]));
  const table = { text, delimiter, preamble, stamps, rows: kept.map((k) => k.r), times: Float64Array.from(kept, (k) => k.at) };
  const double = commasForBoth(table) ?? dashForMinus(table) ?? halvesOfDay(table);
  if (double !== null) throw trouble(text.path, double.requirement, double.got, double.remedy);
  return table;
}

/** Names that are one fewer than the columns: the row's number has none, or date and time share one; else the last column has none. */
function inPlace(preamble: PreambleGuess, { fields }: StampGuess, width: number): PreambleGuess {
  const { names, units } = preamble;
  const isShared = fields[0].column > 0 || fields.at(-1)?.column === 1;
  const moved = (list: readonly string[] | null): readonly string[] | null => (list === null || list.length !== width - 1 ? list : isShared ? ["", ...list] : [...list, ""]);
  return { ...preamble, names: moved(names), units: moved(units) };
}

function trouble(path: string, requirement: string, got: string, remedy: string): RecordError {
  return new RecordError(`${path} must ${requirement} (got ${got}); ${remedy}`, "data", { file: path });
}

/** Cuts a line into the cells of a row; null when it has another number of them. */
function cutter({ style, width }: DelimiterGuess): (line: string) => [readonly string[]] | null {
  const cells = new Cells(style, width + 1);
  return (line) => {
    if (!cells.cut(line) || cells.count < width || cells.count > width + 1) return null;
    const all = cells.all();
    if (all.length === width + 1 && all.pop() !== "") return null;
    return [all];
  };
}

/** Text that is a tree or a page and no table. */
function refusePages(path: string, lines: readonly string[]): void {
  const first = (lines.find((l) => l.trim() !== "") ?? "").trim();
  const what = /^<(\?xml|!doctype|html|svg|\w+[\s>])/i.test(first) ? "a page of markup" : /^[{[]\s*("|$|\{)/.test(first) ? "JSON" : null;
  if (what !== null) throw new RecordError(`${path} must be a text log with one reading a line (got ${what}); write the readings out as a table first`, "description", { file: path });
}
