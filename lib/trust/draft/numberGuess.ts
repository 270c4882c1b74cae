import { type NumberStyle, readNumber, wordNumber } from "../../record/line/numberText.js";

/** A column read as numbers. */
export interface NumberGuess {
  readonly style: NumberStyle;
  /** As written, in the column's own unit; NaN where no number stands · [rows]. */
  readonly values: Float64Array;
  /** Texts that stand for a missing value. */
  readonly marks: readonly string[];
  /** Numbers that stand for a missing value, as written. */
  readonly codes: readonly string[];
  /** What stands after the numbers (a unit), or before them (a name), in most cells. */
  readonly suffix: string;
  readonly prefix: string;
  /** Most decimals written. */
  readonly decimals: number;
  /** Rows whose cell is a number. */
  readonly present: number;
  readonly because: string;
}

/** Share of the filled cells that must be numbers or marks of missing values. */
const leastRead = 0.8;
const knownMarks = /^(-{1,5}|\*{1,5}|\?{1,3}|\.|n\.?\/?a\.?n?|#n\/?a|null|none|nil|missing|err(or)?|fail(ed)?|invalid|void|x{1,5}|nd|n\.d\.|---\.-|--\.-|-\.-|off|open|ovf|ofl|lo|hi|overrange|underrange)$/i;
/** Numbers that loggers write for a missing value: all nines, eights or sevens, the ends of a word of 16 bits, and what a broken wire gives. */
const codeForm = /^-?9{2,6}([.,][90]{1,4})?$|^-?(8{3,6}|7{3,6})([.,][780]{1,4})?$|^-9([.,]0+)?$|^-127([.,]0+)?$|^-?(32767|32768|65535|2147483647|1e\+?\d+)([.,]0+)?$|^-?(3276\.[78]|327\.6[78]|6553\.5)$/;

const plain: NumberStyle = { decimalChar: ".", groupChar: "", bareNumber: true, isInteger: false };
const styles: readonly NumberStyle[] = [
  plain,
  { ...plain, decimalChar: "," },
  ...[",", " ", "'", "\u00a0", "\u202f", "’"].map((groupChar) => ({ ...plain, groupChar })),
  ...[".", " ", "'", "\u00a0", "\u202f"].map((groupChar) => ({ ...plain, decimalChar: ",", groupChar })),
];

/**
 * Reads a column as numbers: decimal and group sign, units written into the cells, texts and numbers that mean missing.
 *
 * @param cells blanks at their ends taken off · [rows]
 * @returns     null when it is no column of numbers; values all NaN when nothing but marks stand in it
 */
export function numberGuess(cells: readonly string[]): NumberGuess | null {
  const filled = cells.filter((c) => c !== "" && wordNumber(c) === null);
  const counts = new Map<string, number>();
  for (const c of filled) if (!/\d/.test(c)) counts.set(c, (counts.get(c) ?? 0) + 1);
  const marks = [...counts].filter(([text, n]) => knownMarks.test(text) || n >= Math.max(3, 0.01 * cells.length)).map(([text]) => text);
  const written = filled.filter((c) => /\d/.test(c));
  if (written.length === 0) {
    const isMarksOnly = marks.every((m) => knownMarks.test(m));
    return isMarksOnly ? guess(cells, plain, marks, "no number stands in it") : null;
  }
  if (written.length < 0.5 * filled.length && marks.some((m) => !knownMarks.test(m))) return null;
  for (const bareNumber of [true, false]) {
    for (const s of styles) {
      const style = Object.freeze({ ...s, bareNumber });
      const read = written.filter((c) => fits(c, style)).length;
      if (read < leastRead * written.length || (style.groupChar !== "" && !usesGroups(written, style))) continue;
      if (bareNumber || isEvenText(written)) return guess(cells, choice(written, style), marks, because(written, style));
    }
  }
  return null;
}

/** A comma before three digits in every cell is a group sign where it can be none of decimals: 1,013 beside 998. */
function choice(written: readonly string[], style: NumberStyle): NumberStyle {
  const sign = style.decimalChar;
  if (style.groupChar !== "") return style;
  const signed = written.filter((c) => c.includes(sign));
  const isThousands = signed.length > 0 && signed.every((c) => new RegExp(`^[+-]?\\d{1,3}\\${sign}\\d{3}$`).test(c));
  const others = written.filter((c) => !c.includes(sign) && fits(c, style)).map(Number);
  if (!isThousands) return style;
  const near = signed.map((c) => Number(c.replace(sign, "")));
  const isNear = others.length > 0 && others.every((v) => v >= 500 && v < 1000) && near.every((v) => v >= 1000 && v < 1100);
  const isPressure = sign === "," && others.length === 0 && near.every((v) => v >= 1000 && v < 1090);
  return isNear || isPressure ? Object.freeze({ ...style, decimalChar: sign === "." ? "," : ".", groupChar: sign }) : style;
}

function because(written: readonly string[], style: NumberStyle): string {
  const sample = written.find((c) => (style.groupChar !== "" ? c.includes(style.groupChar) : c.includes(style.decimalChar))) ?? written[0];
  return `its numbers are written like ${sample}`;
}

/** Reads it, and groups are of three digits. */
function fits(cell: string, style: NumberStyle): boolean {
  if (Number.isNaN(readNumber(cell, 0, cell.length, style))) return false;
  if (style.groupChar === "") return true;
  const front = (/\d[^\p{L}]*/u.exec(cell)?.[0] ?? cell).split(style.decimalChar)[0];
  return front.split(style.groupChar).slice(1).every((g) => /^\d{3}\D*$/.test(g));
}

function usesGroups(written: readonly string[], style: NumberStyle): boolean {
  return written.some((c) => c.includes(style.groupChar));
}

/** Text about the numbers is the same in most cells: a unit, not a sentence or a stamp. */
function isEvenText(written: readonly string[]): boolean {
  const around = written.map((c) => c.replace(/[\d.,'’ \u00a0\u202f+-]+/g, "#"));
  const usual = mostCommon(around);
  return around.filter((a) => a === usual).length >= leastRead * around.length && (usual.match(/#/g)?.length ?? 0) === 1;
}

function mostCommon(texts: readonly string[]): string {
  const counts = new Map<string, number>();
  for (const t of texts) counts.set(t, (counts.get(t) ?? 0) + 1);
  return [...counts].reduce((a, b) => (b[1] > a[1] ? b : a), ["", 0])[0];
}

function guess(cells: readonly string[], style: NumberStyle, marks: readonly string[], says: string): NumberGuess {
  const values: Float64Array = Float64Array.from(cells, (c) => readNumber(c, 0, c.length, style));
  for (let i = 0; i < values.length; i++) if (!Number.isFinite(values[i])) values[i] = Number.NaN;
  const codes = codesOf(cells, values);
  const isCode = new Set(codes);
  let present = 0;
  let decimals = 0;
  for (const [i, c] of cells.entries()) {
    if (isCode.has(c)) values[i] = Number.NaN;
    if (Number.isNaN(values[i])) continue;
    present++;
    const at = c.lastIndexOf(style.decimalChar);
    if (at >= 0) decimals = Math.max(decimals, /^\d*/.exec(c.slice(at + 1))?.[0].length ?? 0);
  }
  const texts = style.bareNumber ? [] : cells.filter((c) => /\d/.test(c)).slice(0, 200);
  const prefix = mostCommon(texts.map((c) => /^([\p{L}_ ]+)[=: ]/u.exec(c)?.[1].trim() ?? ""));
  const suffix = mostCommon(texts.map((c) => /[^\d.,]*$/.exec(c)?.[0].trim() ?? ""));
  const used = cells.includes("") ? ["", ...marks] : marks;
  return { style, values, marks: Object.freeze(used), codes, suffix, prefix, decimals, present, because: says };
}

/** Numbers of the known forms that stand far from all others, or that are the whole column. */
function codesOf(cells: readonly string[], values: Float64Array): readonly string[] {
  const counts = new Map<string, number>();
  for (const [i, c] of cells.entries()) if (!Number.isNaN(values[i]) && codeForm.test(c)) counts.set(c, (counts.get(c) ?? 0) + 1);
  if (counts.size === 0) return [];
  const codes = new Set(counts.keys());
  const rest = values.filter((v, i) => !Number.isNaN(v) && !codes.has(cells[i])).sort();
  if (rest.length === 0) {
    const n = [...counts.values()].reduce((a, b) => a + b, 0);
    return codes.size <= 2 && n >= 3 ? [...codes] : [];
  }
  const at = (p: number): number => rest[Math.round(p * (rest.length - 1))];
  const spread = Math.max(at(0.99) - at(0.01), 0.5);
  const value = (text: string): number => values[cells.indexOf(text)];
  return [...counts].filter(([text, n]) => {
    const v = value(text);
    const off = Math.max(at(0.01) - v, v - at(0.99));
    // A bare −9 or 99 can be a true reading: it must come back and stand well apart.
    const isLoneNegative = v < 0 && rest[0] >= 0;
    return Math.abs(v) >= 127 ? off > 1.5 * spread : n >= 3 && off > (isLoneNegative ? 0.15 : 0.8) * spread;
  }).map(([text]) => text);
}
