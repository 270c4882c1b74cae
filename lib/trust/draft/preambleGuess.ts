import { Cells, type CellStyle } from "../../record/line/cells.js";
import { unitNamed } from "./headerMeaning.js";

/** What stands before the first row of a log, and which lines are comments. */
export interface PreambleGuess {
  /** Names of the columns, as far as the log has them; they may be doubled or empty. */
  readonly names: readonly string[] | null;
  /** Cells of a line of units under the names. */
  readonly units: readonly string[] | null;
  /** The names can be matched: they stand in a line of their own and are all different. */
  readonly hasHeader: boolean;
  /** Line of the header when other lines that are no comments stand before it. */
  readonly headerRow: number | null;
  readonly commentRows: readonly number[];
  readonly commentChar: string;
}

/** Signs that begin a comment, likeliest first. */
const commentSigns = ["#", "//", ";", "%", "!", "*", "'", "--", "$", ">"];

/**
 * Reads the lines before the first row: comments, titles, the header, a line of units.
 *
 * @param lines    whole lines of the beginning
 * @param firstRow index of the first row among them
 * @param isRow    whether a line is a row
 * @param width    cells of a row
 */
export function preambleGuess(lines: readonly (string | null)[], firstRow: number, isRow: (line: string) => boolean, style: CellStyle, width: number): PreambleGuess {
  const texts = lines.map((l) => l ?? "");
  const commentChar = commentSignOf(texts, isRow, style);
  const isComment = (l: string): boolean => commentChar !== "" && l.startsWith(commentChar);
  const before = texts.slice(0, firstRow).flatMap((text, i) => (text.trim() === "" || isComment(text) ? [] : [{ text, line: i + 1, cells: headerCells(text, style, width) }]));
  const fits = (cells: readonly string[]): boolean => cells.length === width || (cells.length === width + 1 && cells[width] === "") || (cells.length > 1 && cells.length === width - 1);
  let at = before.length - 1;
  let units: readonly string[] | null = null;
  if (at >= 1 && isStatistics(before[at].cells) && fits(before[at - 1].cells)) at--;
  if (at >= 1 && isUnits(before[at].cells) && fits(before[at - 1].cells)) units = before[at--].cells;
  // A header may name one column more than the rows fill.
  const found = at >= 0 && hasWords(before[at].cells) && (fits(before[at].cells) || isTooWide(before[at].cells, width)) ? before[at] : null;
  if (found === null) {
    const comment = [...texts.slice(0, firstRow)].reverse().find((l) => isComment(l) && fits(cellsOf(l.slice(commentChar.length).trimStart(), style)));
    const names = comment === undefined ? null : cellsOf(comment.slice(commentChar.length).trimStart(), style);
    return { names: names !== null && hasWords(names) ? names : null, units, hasHeader: false, headerRow: null, commentRows: before.map((b) => b.line), commentChar };
  }
  const names = found.cells.length === width + 1 && found.cells[width] === "" ? found.cells.slice(0, width) : found.cells;
  const isUsable = names.length === width && isCutAs(found.text, style, found.cells) && names.every((n, i) => n !== "" && names.indexOf(n) === i);
  const isFirst = found === before[0];
  const after = before.filter((b) => b.line > found.line).map((b) => b.line);
  return {
    names,
    units,
    hasHeader: isUsable,
    headerRow: isUsable && !isFirst ? found.line : null,
    commentRows: isUsable ? after : before.map((b) => b.line),
    commentChar,
  };
}

/** Cells of a line before the rows; names with blanks in them stand two blanks apart where blanks part the cells. */
function headerCells(text: string, style: CellStyle, width: number): string[] {
  const cells = cellsOf(text, style);
  if (style.delimiter !== " " || cells.length <= width) return cells;
  const apart = text.trim().split(/\s{2,}|\t/);
  return apart.length === width || apart.length === width - 1 ? apart : cells;
}

function cellsOf(text: string, style: CellStyle): string[] {
  const cells = new Cells(style, 4096);
  return cells.cut(style.delimiter === " " ? text.trimEnd() : text) ? cells.all() : [];
}

/** The reader, too, cuts the line into these names. */
function isCutAs(text: string, style: CellStyle, names: readonly string[]): boolean {
  return cellsOf(text, style).join("\u001f") === names.join("\u001f");
}

function isTooWide(cells: readonly string[], width: number): boolean {
  return cells.length === width + 1 && cells.every((c) => c !== "");
}

/** At least half of the cells hold letters and few hold numbers. */
function hasWords(cells: readonly string[]): boolean {
  const filled = cells.filter((c) => c !== "");
  const words = filled.filter((c) => /\p{L}/u.test(c) && !/^\d{1,4}[-/.:]\d/.test(c));
  return filled.length > 0 && words.length >= 0.5 * filled.length && filled.filter((c) => /^[+-]?\d+([.,]\d+)?$/.test(c)).length <= 0.3 * filled.length;
}

/** A line that says how each column was taken: a sample, a mean, an extreme. */
function isStatistics(cells: readonly string[]): boolean {
  const filled = cells.filter((c) => c !== "");
  return filled.length > 0 && filled.every((c) => /^(smp|sample|inst|avg|average|mean|min|minimum|max|maximum|std|stdev|tot|total|med|median)$/i.test(c));
}

/** A line of units: half of the filled cells or more, in brackets or not. */
function isUnits(cells: readonly string[]): boolean {
  const filled = cells.map((c) => c.replace(/^[([{]|[)\]}]$/g, "").trim()).filter((c) => c !== "" && c !== "-");
  const known = filled.filter((c) => unitNamed(c) !== null || /^(y+[-/.]m+[-/.]d+.*|d+[-/.]m+[-/.]y+.*|m+[-/.]d+[-/.]y+.*|hh?:mm.*|utc.*|m\/s|km\/h|mph|v|mv|volts?|lux|ppm|mm|w\/m2|°|deg)$/i.test(c));
  return known.length > 0 && known.length >= 0.5 * filled.length;
}

/** The sign that begins lines which are no rows, and no row. */
function commentSignOf(lines: readonly string[], isRow: (line: string) => boolean, style: CellStyle): string {
  for (const sign of commentSigns) {
    if (sign === style.delimiter) continue;
    const marked = lines.filter((l) => l.startsWith(sign));
    if (marked.length > 0 && !marked.some(isRow)) return sign;
  }
  return "";
}
