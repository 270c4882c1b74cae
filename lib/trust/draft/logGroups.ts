import { compileFormat } from "../../record/line/strptime.js";
import type { LogTable } from "./logTable.js";
import { plainWord } from "./quantityVocabulary.js";
import { type StampGuess, timesOf } from "./stampGuess.js";

/** Logs of one shape, in order of time: one resource. */
export interface LogGroup {
  readonly tables: readonly LogTable[];
  /** The one to take header and dialect from. */
  readonly model: LogTable;
  /** Stem of the files' names where they hold one place of several; null where they do not part places. */
  readonly stem: string | null;
  /** Why these files were put apart from others of the same shape. */
  readonly because: string;
}

/** An order of day, month and year in which the files lie so many times farther apart is out. */
const muchFarther = 3;

/**
 * Puts logs of one shape together: same cells, same names, same stamps. A log without a header joins one that has it.
 *
 * A date whose order one log leaves open is read as another of the same shape tells.
 */
export function logGroups(tables: readonly LogTable[]): LogGroup[] {
  const groups: LogTable[][] = [];
  for (const table of [...tables].sort((a, b) => Number(a.preamble.names === null) - Number(b.preamble.names === null))) {
    const home = groups.find((g) => isAlike(g[0], table));
    if (home === undefined) groups.push([table]);
    else home.push(table);
  }
  return groups.map((g) => {
    const model = modelOf(g);
    const placed = g.map((t) => ({ table: readAs(model, t), place: tables.indexOf(t) }));
    const ordered = placed.sort((a, b) => middle(a.table.times) - middle(b.table.times) || a.place - b.place);
    return { tables: ordered.map(({ table }) => table), model: { ...model, text: g.find((t) => t.text.encoding !== null)?.text ?? model.text }, stem: null, because: "" };
  });
}

/** The one to take header and stamps from: with a header, and with a date that can only be read one way. */
function modelOf(tables: readonly LogTable[]): LogTable {
  const named = tables.filter((t) => t.preamble.names !== null);
  const model = named[0] ?? tables[0];
  const telling = named.find((t) => t.stamps.rivals.length === 0) ?? tables.find((t) => t.stamps.rivals.length === 0);
  if (telling !== undefined) return named.includes(telling) ? telling : { ...model, stamps: telling.stamps };
  return tables.length === 1 ? model : { ...model, stamps: closestTogether(model.stamps, tables) };
}

/** Logs of a day or two each, of which none tells day from month: the order in which they stand much closer together than in any other. */
function closestTogether(stamps: StampGuess, tables: readonly LogTable[]): StampGuess {
  const [first, ...rest] = stamps.fields;
  const ways = [first.form.format, ...stamps.rivals].flatMap((format) => {
    const compiled = format === null ? { fault: "" } : compileFormat(first.form.kind, format);
    if ("fault" in compiled) return [];
    const fields = [{ ...first, form: { ...first.form, format, read: compiled.read } }, ...rest];
    const spans = tables.map((t) => spanOfTimes(timesOf(t.rows, fields)));
    return [{ fields, length: Math.max(...spans.map((s) => s.to)) - Math.min(...spans.map((s) => s.from)) }];
  });
  const [best, next] = ways.sort((a, b) => a.length - b.length);
  if (next === undefined || !(next.length > muchFarther * best.length)) return stamps;
  return { ...stamps, fields: best.fields, rivals: [], because: "in this order the files follow each other; in another they would lie months or years apart" };
}

/** A log of a few days may be read with day and month exchanged: its times anew, as the model tells. */
function readAs({ stamps }: LogTable, table: LogTable): LogTable {
  const isSame = table.stamps.fields.every((f, k) => f.form.format === stamps.fields[k].form.format);
  return isSame ? table : { ...table, stamps, times: timesOf(table.rows, stamps.fields) };
}

function middle(times: Float64Array): number {
  return times.length === 0 ? 0 : times.slice().sort()[times.length >> 1];
}

/**
 * First and last time of a log, without the few rows of a clock that was not set: those a year or more from the others.
 *
 * @returns epoch ms as if UTC, and how many rows stand apart
 */
export function spanOfTimes(times: Float64Array): { readonly from: number; readonly to: number; readonly apart: number } {
  const sorted = times.slice().sort();
  const yearMs = 365 * 86_400_000;
  const most = Math.floor(0.05 * sorted.length);
  let [low, high] = [0, sorted.length - 1];
  for (let i = 0; i < most; i++) if (sorted[i + 1] - sorted[i] > yearMs) low = i + 1;
  for (let i = 0; i < most; i++) if (sorted[sorted.length - 1 - i] - sorted[sorted.length - 2 - i] > yearMs) high = sorted.length - 2 - i;
  return { from: sorted[low], to: sorted[high], apart: sorted.length - (high - low + 1) };
}

function isAlike(a: LogTable, b: LogTable): boolean {
  const [p, q] = [a.preamble, b.preamble];
  const style = (t: LogTable): string => JSON.stringify([t.delimiter.style, t.delimiter.width]);
  if (style(a) !== style(b) || !sameStamps(a, b)) return false;
  if (a.text.encoding !== b.text.encoding && !a.text.isPlain && !b.text.isPlain) return false;
  if (p.commentChar !== q.commentChar && p.commentChar !== "" && q.commentChar !== "") return false;
  // A headerless continuation of a card that began with a header.
  if (q.names === null && q.commentRows.length === 0 && p.hasHeader && p.headerRow === null && p.commentRows.length === 0) return true;
  return JSON.stringify([p.names, p.hasHeader, p.headerRow, p.commentRows]) === JSON.stringify([q.names, q.hasHeader, q.headerRow, q.commentRows]);
}

function sameStamps(a: LogTable, b: LogTable): boolean {
  const columns = (t: LogTable): string => t.stamps.fields.map((f) => `${f.column} ${f.form.kind}`).join();
  if (columns(a) !== columns(b) || a.stamps.hasOffset !== b.stamps.hasOffset) return false;
  const [f, g] = [a, b].map((t) => t.stamps.fields.map((x) => x.form.format));
  return f.every((format, k) => format === g[k] || (k === 0 && (b.stamps.rivals.includes(format ?? "") || a.stamps.rivals.includes(g[0] ?? ""))));
}

/** What a file's name says beside numbers, dates and words for a log. */
export function stemOf(path: string): string {
  const base = (path.split("/").pop() ?? path).replace(/\.[^.]*$/, "");
  const words = plainWord(base).split(/[^\p{L}]+/u).filter((w) => w !== "" && !/^(log|logs|logger|data|daten|datalog|card|karte|export|csv|txt|file|readings|record|part|jan|feb|mar|apr|may|jun|jul|aug|sep|oct|nov|dec|january|february|march|april|june|july|august|september|october|november|december)$/.test(w));
  return words.join("-");
}

/**
 * Parts files of one shape that cannot be of one logger: they say different things at the same times.
 *
 * @param group without a column that tells places
 * @returns     one group for each logger, by the stems of the files' names; the group itself when nothing contradicts
 */
export function partedByFiles(group: LogGroup): LogGroup[] {
  const { tables } = group;
  if (tables.length < 2) return [group];
  const conflicts = tables.flatMap((a, i) => tables.slice(i + 1).flatMap((b) => (contradict(a, b) ? [[a, b] as const] : [])));
  if (conflicts.length === 0) return [group];
  const isBad = (a: LogTable, b: LogTable): boolean => conflicts.some(([x, y]) => (x === a && y === b) || (x === b && y === a));
  const parts: { stem: string; tables: LogTable[] }[] = [];
  for (const t of tables) {
    const stem = stemOf(t.text.path);
    const home = parts.find((p) => p.stem === stem && !p.tables.some((o) => isBad(o, t)));
    if (home === undefined) parts.push({ stem, tables: [t] });
    else home.tables.push(t);
  }
  const because = `${conflicts[0].map((t) => t.text.path).join(" and ")} hold different values at the same times, so they are of different loggers`;
  const stems = parts.map((p) => p.stem);
  return parts.map((p, i) => {
    const isOwn = p.stem !== "" && stems.indexOf(p.stem) === i && stems.lastIndexOf(p.stem) === i;
    const name = isOwn ? p.stem : plainWord((p.tables[0].text.path.split("/").pop() ?? "").replace(/\.[^.]*$/, "")).replace(/[^a-z0-9]+/g, "-");
    return { tables: p.tables, model: modelOf(p.tables), stem: name || `logger-${i + 1}`, because };
  });
}

/** Whether two logs say different things of the same time. */
function contradict(a: LogTable, b: LogTable): boolean {
  const [own, others] = [spanOfTimes(a.times), spanOfTimes(b.times)];
  const [from, to] = [Math.max(own.from, others.from), Math.min(own.to, others.to)];
  if (!(from <= to)) return false;
  const cells = (t: LogTable): Map<number, string> => new Map(Array.from(t.times, (at, i) => [at, i] as const).flatMap(([at, i]) => (at >= from && at <= to ? [[at, body(t, i)] as const] : [])));
  const [known, other] = [cells(a), cells(b)];
  let same = 0;
  let unlike = 0;
  for (const [at, text] of other) {
    const there = known.get(at);
    if (there === undefined) continue;
    if (there === text) same++;
    else unlike++;
  }
  if (same + unlike >= 5) return unlike > same;
  const inside = (t: LogTable): number => t.times.filter((x) => x > from && x < to).length;
  return same + unlike === 0 && inside(a) >= 8 && inside(b) >= 8;
}

/** The cells of a row without its stamp. */
function body(t: LogTable, row: number): string {
  const stamps = new Set(t.stamps.fields.map((f) => f.column));
  return t.rows[row].filter((_, c) => !stamps.has(c)).join("\u001f");
}
