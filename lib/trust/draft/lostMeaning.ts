import type { DelimiterGuess } from "./delimiterGuess.js";
import type { PreambleGuess } from "./preambleGuess.js";
import type { StampGuess } from "./stampGuess.js";

/** A log cut into rows, as far as it is looked at here. */
interface CutLog {
  readonly delimiter: DelimiterGuess;
  readonly rows: readonly (readonly string[])[];
  readonly preamble: PreambleGuess;
  readonly stamps: StampGuess;
  readonly times: Float64Array;
}

/** What a log must be, what it is instead, and what to do, for one sentence. */
export interface LostMeaning {
  readonly requirement: string;
  readonly got: string;
  readonly remedy: string;
}

/**
 * A log in which commas part the cells and the decimals too: 24.3 stands there as two cells, and nothing tells them apart.
 *
 * Told by columns of digits that jump as last digits do, each behind a whole number, and by a header with as many names fewer.
 */
export function commasForBoth({ delimiter, rows, preamble, stamps }: CutLog): LostMeaning | null {
  if (delimiter.style.delimiter !== "," || rows.length < 20) return null;
  const stampColumns = new Set(stamps.fields.map((f) => f.column));
  const looked = rows.slice(0, 500);
  const isWhole = (c: number): boolean => c >= 0 && !stampColumns.has(c) && looked.every((r) => /^[+-]?\d*$/.test(r[c]));
  let halves = 0;
  for (let c = 1; c < delimiter.width; c++) {
    const filled = looked.map((r) => r[c]).filter((t) => t !== "");
    const lengths = new Set(filled.map((t) => t.length));
    const isLastDigits = lengths.size === 1 && filled.every((t) => /^\d{1,3}$/.test(t)) && isEven(filled) && turns(filled.map(Number)) > 0.3;
    if (isLastDigits && isWhole(c - 1)) halves++;
  }
  const missing = preamble.names === null ? 0 : delimiter.width - preamble.names.length;
  if (halves === 0 || (preamble.names !== null && missing !== halves)) return null;
  return { requirement: "write decimals with another sign than the one between the cells", got: `commas for both, such as in ${rows[0].join(",").slice(0, 60)}`, remedy: "save it with semicolons or tabs between the cells, or with decimal points" };
}

/** Last digits come about equally often. */
function isEven(texts: readonly string[]): boolean {
  const counts = new Map<string, number>();
  for (const t of texts) counts.set(t.slice(-1), (counts.get(t.slice(-1)) ?? 0) + 1);
  return counts.size >= 9 && Math.max(...counts.values()) < 0.25 * texts.length;
}

/** Share of the steps that turn back by more than a third of the range: last digits run round and round. */
function turns(values: readonly number[]): number {
  const range = values.reduce((a, b) => Math.max(a, b), 0) - values.reduce((a, b) => Math.min(a, b), Number.POSITIVE_INFINITY);
  let far = 0;
  for (let i = 1; i < values.length; i++) if (Math.abs(values[i] - values[i - 1]) > 0.33 * range) far++;
  return far / Math.max(1, values.length - 1);
}

/** A log that writes minus as a dash, which no number has. */
export function dashForMinus({ rows }: CutLog): LostMeaning | null {
  for (const row of rows) {
    const dashed = row.find((c) => /^[\u2012-\u2015\u2212]\s?\d+([.,]\d+)?/.test(c));
    if (dashed !== undefined) return { requirement: "write minus as a hyphen", got: dashed, remedy: "replace the dash by - throughout the log" };
  }
  return null;
}

/** A log whose hours run from 1 to 12 twice a day without AM or PM. */
export function halvesOfDay({ times, stamps }: CutLog): LostMeaning | null {
  if (stamps.fields.some((f) => f.form.format?.includes("%p") === true) || times.length < 24) return null;
  const hours = new Set(Array.from(times, (t) => Math.floor(t / 3_600_000) % 24));
  if (hours.has(0) || [...hours].some((h) => h > 12) || hours.size < 10) return null;
  let back = 0;
  for (let i = 1; i < times.length; i++) {
    const by = times[i] - times[i - 1];
    if (by < -10 * 3_600_000 && by > -13 * 3_600_000) back++;
  }
  if (back === 0) return null;
  return { requirement: "tell date and time in each row", got: "hours from 1 to 12 that come twice a day, with no AM or PM beside them", remedy: "let the logger write 24 hours, or join AM and PM to the time in its column, such as 2:05 PM" };
}
