import { offsetAtEnd } from "../../record/line/isoStamp.js";
import { compileFormat } from "../../record/line/strptime.js";
import { newStamp, type Stamp } from "../../record/line/stamp.js";
import { type StampForm, stampForms } from "./stampForms.js";

/** A column with the forms that read it. */
interface Candidate {
  readonly column: number;
  readonly forms: readonly StampForm[];
}

/** Where the stamp of a row stands and how it is read. */
export interface StampGuess {
  /** One datetime, or a date and a time. */
  readonly fields: readonly { readonly column: number; readonly form: StampForm }[];
  /** Other formats of the date that read as well, so that day and month (or year) cannot be told apart. */
  readonly rivals: readonly string[];
  readonly because: string;
  /** Every stamp carries its own offset. */
  readonly hasOffset: boolean;
}

/** Cells a column is judged by. */
const mostCells = 600;
/** Share of its cells that a form must read. */
const leastRead = 0.85;
/** Way through time that a rival form may be longer than the best before it is out. */
const farther = 1.8;
const dayMs = 86_400_000;
/** A number of seconds below this is no clock's that was set. */
const firstCountedMs = Date.UTC(2000, 0, 1);
const firstMs = Date.UTC(1990, 0, 1);
const lastMs = Date.UTC(2101, 0, 1);

/**
 * Finds the stamp among the columns of a log: the forms that read nearly all of its cells and let the rows follow each other.
 *
 * Day and month are told apart by numbers above twelve, or because in the wrong order the rows would jump by months at midnight.
 * A number is taken for seconds or milliseconds since 1970 where it rises through the years 2000 to 2100 by a day at most, a date alone
 * where there is one row a day.
 *
 * @param rows cells of the rows, in the order of the log
 * @returns    null when no column or pair of columns tells the time of each row
 */
export function stampGuess(rows: readonly (readonly string[])[], width: number): StampGuess | null {
  const step = Math.max(1, Math.floor(rows.length / mostCells));
  const looked = rows.filter((_, i) => i % step === 0);
  const candidates = Array.from({ length: width }, (_, column): Candidate => ({ column, forms: formsOf(looked.map((r) => r[column] ?? "")) }));
  const of = (kind: StampForm["kind"]): Candidate[] => candidates.map((c) => ({ column: c.column, forms: c.forms.filter((f) => f.kind === kind) })).filter((c) => c.forms.length > 0);
  const alone = (kind: StampForm["kind"]): StampGuess["fields"][] => of(kind).flatMap(({ column, forms }) => forms.map((form) => [{ column, form }]));
  const [counted, ways] = [true, false].map((is) => alone("datetime").filter(([{ form }]) => isCounted(form) === is));
  if (ways.length === 0) {
    for (const date of of("date")) for (const time of of("time")) if (date.column !== time.column) for (const form of date.forms) for (const own of time.forms) ways.push([{ column: date.column, form }, { column: time.column, form: own }]);
  }
  // What is written as day and time goes before a number that may be a counter, and both before a day alone.
  const judged = [ways, counted, alone("date")].map((list) => list.map((fields) => ({ fields, ...wayThroughTime(rows, fields) })).filter((w) => w.read >= leastRead && w.isOrderly)).find((list) => list.length > 0);
  if (judged === undefined) return null;
  const column = judged[0].fields[0].column;
  // Several stamps in a row: the first that stands there, in each of its forms.
  const same = judged.filter((w) => w.fields[0].column === column && w.fields.at(-1)?.column === judged[0].fields.at(-1)?.column);
  const shortest = Math.min(...same.map((w) => w.length));
  const best = same.find((w) => w.fields.every((f) => f.form.format === null) && w.length <= shortest * farther) ?? monthFirst(same.filter((w) => w.length <= shortest * (1 + 1e-9))) ?? same.find((w) => w.length === shortest) ?? same[0];
  const isIso = best.fields[0].form.format === null;
  const rivals = isIso ? [] : same.filter((w) => w !== best && w.length <= shortest * farther && w.fields[0].form.format !== best.fields[0].form.format && means(w) !== means(best));
  const cells = looked.slice(0, 50).map((r) => r[best.fields.at(-1)?.column ?? 0] ?? "").filter((c) => /\d/.test(c));
  return {
    fields: best.fields,
    rivals: [...new Set(rivals.map((w) => w.fields[0].form.format ?? "ISO 8601"))],
    because: `${reason(best.fields[0].form, same.length, rivals.length, looked.map((r) => r[column] ?? ""))}${isDayAlone(best.fields) ? "; there is one row a day and no time of day, so each is put at the noon of its day" : ""}`,
    hasOffset: best.fields.some((f) => isCounted(f.form) || f.form.format?.includes("%z") === true) || (best.fields.at(-1)?.form.format === null && cells.every((c) => /(Z|[+-]\d{2}(:?\d{2})?)$/.test(c.slice(5)) && endsInOffset(c))),
  };
}

/** Of orders that fit alike, a clock of twelve beside slashes is most often written with the month first (common practice, no source). */
function monthFirst<T extends { readonly fields: StampGuess["fields"] }>(ways: readonly T[]): T | undefined {
  return ways.find(({ fields }) => fields.some((f) => f.form.format?.includes("%p")) && fields[0].form.format?.startsWith("%m/"));
}

function endsInOffset(cell: string): boolean {
  for (const length of [6, 5, 3, 1]) if (cell.length > length && !Number.isNaN(offsetAtEnd(cell, cell.length - length, cell.length))) return true;
  return false;
}

/** Epoch ms of the first row under a way: two formats that mean the same are no rivals. */
function means(w: { readonly first: string }): string {
  return w.first;
}

function reason(form: StampForm, left: number, rivals: number, cells: readonly string[]): string {
  if (form.format === null) return "it is written as ISO 8601 has it";
  if (isCounted(form)) return `its numbers rise as ${form.format === "%s" ? "seconds" : "milliseconds"} since 1970 do; they are instants already, and a zone on this field would only be the one the record is shown in`;
  if (rivals > 0) return "it reads the rows, but another order of day, month and year does so too";
  if (left > 1) return "in this order the rows follow each other; in another they would jump by months or years";
  const swapped = form.format.replace(/%[dm]/g, (l) => (l === "%d" ? "%m" : "%d"));
  const other = swapped === form.format ? { fault: "" } : compileFormat(form.kind, swapped);
  const stamp = newStamp();
  const witness = "fault" in other ? undefined : cells.find((c) => form.read(c, 0, c.length, stamp) && !other.read(c, 0, c.length, stamp));
  return witness === undefined ? "it reads nearly every row" : `in ${witness} a number above 12 can only be the day`;
}

/** Forms that read nearly all cells; made from several cells, since one may be damaged. */
function formsOf(cells: readonly string[]): StampForm[] {
  const filled = cells.filter((c) => c !== "");
  if (filled.length < 0.5 * cells.length || filled.length === 0) return [];
  const forms = new Map<string, StampForm>();
  for (const k of [0, 1, 2, 3, 4, 5, 6]) {
    const cell = filled[Math.floor((k * (filled.length - 1)) / 6)];
    if (cell.length <= 48 && /\d/.test(cell)) for (const form of stampForms(cell)) forms.set(`${form.kind} ${form.format}`, form);
  }
  const stamp = newStamp();
  return [...forms.values()].filter((form) => filled.filter((c) => form.read(c, 0, c.length, stamp)).length >= leastRead * filled.length);
}

/**
 * Civil times of rows.
 *
 * @returns epoch ms as if UTC (true instants where the stamp carries an offset); NaN where a stamp is not read · [rows]
 */
export function timesOf(rows: readonly (readonly string[])[], fields: StampGuess["fields"]): Float64Array {
  const times: Float64Array = new Float64Array(rows.length);
  const stamp = newStamp();
  for (const [i, row] of rows.entries()) {
    const isRead = readStamp(row, fields, stamp);
    const at = stamp.day * dayMs + stamp.ofDay - (Number.isNaN(stamp.offsetMinutes) ? 0 : 60_000 * stamp.offsetMinutes);
    times[i] = isRead && at >= firstMs && at < lastMs ? at : Number.NaN;
  }
  return times;
}

/** Whether a row has a stamp, be it of a clock that was not set. */
export function isStamped(row: readonly string[], fields: StampGuess["fields"]): boolean {
  return readStamp(row, fields, newStamp());
}

function readStamp(row: readonly string[], fields: StampGuess["fields"], into: Stamp): boolean {
  into.day = Number.NaN;
  into.ofDay = 0;
  into.offsetMinutes = Number.NaN;
  return fields.every(({ column, form }) => form.read(row[column] ?? "", 0, (row[column] ?? "").length, into));
}

/** Seconds or milliseconds since 1970. */
function isCounted({ format }: StampForm): boolean {
  return format === "%s" || format === "%Q";
}

/** A date with no time of day beside it. */
export function isDayAlone(fields: StampGuess["fields"]): boolean {
  return fields.length === 1 && fields[0].form.kind === "date";
}

/** How long the way through time is from row to row, how many rows are read, and whether that looks like a log. */
function wayThroughTime(rows: readonly (readonly string[])[], fields: StampGuess["fields"]): { read: number; length: number; isOrderly: boolean; first: string } {
  const times = timesOf(rows, fields).filter((t) => !Number.isNaN(t));
  const read = rows.length === 0 ? 0 : times.length / rows.length;
  const first = times.slice(0, 40).join();
  const steps: number[] = [];
  let length = 0;
  for (let i = 1; i < times.length; i++) {
    const by = Math.abs(times[i] - times[i - 1]);
    length += by;
    if (by > 0) steps.push(by);
  }
  steps.sort((a, b) => a - b);
  const usual = steps[Math.floor(steps.length / 2)] ?? 0;
  const days = new Set(times.map((t) => Math.floor(t / dayMs))).size;
  const near = steps.filter((s) => s <= 3 * usual).length;
  // Digits that are no clock, such as a pressure of 1013 read as 10:13, jump to and fro.
  const isPacked = fields.some((f) => f.form.format !== null && /^(%H|%H%M|%H%M%S|%H\.%M)$|^%.%.%.$/.test(f.form.format));
  const isSteady = near >= 0.8 * steps.length && isRising(times) && steps.length > 0;
  const form = fields[0].form;
  if (isCounted(form)) return { read, length, isOrderly: (isSteady || times.length === 1) && usual <= dayMs && times.every((t) => t >= firstCountedMs), first };
  // A day alone: each row another day, nearly always the next.
  if (isDayAlone(fields)) return { read, length, isOrderly: isSteady && usual === dayMs && days >= 0.9 * times.length, first };
  const isOrderly = steps.length === 0 ? !isPacked || times.length === 1 : near >= 0.5 * steps.length && (!isPacked || (isSteady && (times.length < 4 || days <= times.length / 2)));
  return { read, length, isOrderly, first };
}

/** Nearly all steps go one way. */
function isRising(times: Float64Array): boolean {
  let up = 0;
  let down = 0;
  for (let i = 1; i < times.length; i++) {
    if (times[i] > times[i - 1]) up++;
    else if (times[i] < times[i - 1]) down++;
  }
  return Math.min(up, down) <= 0.1 * (up + down);
}
