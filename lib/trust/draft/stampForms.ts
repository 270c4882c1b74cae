import { readIsoDate, readIsoDatetime, readIsoTime } from "../../record/line/isoStamp.js";
import { newStamp, type StampReader } from "../../record/line/stamp.js";
import { compileFormat } from "../../record/line/strptime.js";

export type StampKind = "datetime" | "date" | "time";

/** One way to read a column of stamps. */
export interface StampForm {
  readonly kind: StampKind;
  /** A strptime pattern; null for ISO 8601. */
  readonly format: string | null;
  readonly read: StampReader;
}

const isoReaders: Readonly<Record<StampKind, StampReader>> = { datetime: readIsoDatetime, date: readIsoDate, time: readIsoTime };

/** A beginning of a text, read so far as `format`. */
interface Part {
  readonly format: string;
  readonly end: number;
}

const literal = (text: string): string => text.replace(/%/g, "%%");

/**
 * Every way in which a text may be a stamp: date orders, two-digit years, names of months, packed digits, clocks of twelve, seconds and milliseconds since 1970.
 *
 * @param text a cell without blanks at its ends
 * @returns    forms that read this text, ISO 8601 first
 */
export function stampForms(text: string): StampForm[] {
  const found = new Map<string, StampForm>();
  const add = (kind: StampKind, format: string | null): void => {
    const compiled = format === null ? { read: isoReaders[kind] } : compileFormat(kind, format);
    if ("fault" in compiled || !compiled.read(text, 0, text.length, newStamp())) return;
    found.set(`${kind} ${format}`, { kind, format, read: compiled.read });
  };
  for (const kind of ["datetime", "date", "time"] as const) add(kind, null);
  if (/^\d{9,10}([.,]\d{1,9})?$/.test(text)) add("datetime", "%s");
  if (/^\d{12,13}([.,]\d{1,9})?$/.test(text)) add("datetime", "%Q");
  for (const date of dates(text)) {
    const rest = text.slice(date.end);
    add("date", date.format + literal(rest));
    const joiner = /^[^\d+]{0,4}?(?=\d)/.exec(rest)?.[0];
    if (joiner === undefined) continue;
    for (const time of times(rest.slice(joiner.length))) add("datetime", date.format + literal(joiner) + time.format + literal(rest.slice(joiner.length + time.end)));
  }
  for (const time of times(text)) {
    const rest = text.slice(time.end);
    add("time", time.format + literal(rest));
    const joiner = /^[^\d\p{L}]{1,3}/u.exec(rest)?.[0];
    if (joiner === undefined) continue;
    for (const date of dates(rest.slice(joiner.length))) add("datetime", time.format + literal(joiner) + date.format + literal(rest.slice(joiner.length + date.end)));
  }
  return [...found.values()];
}

/** Dates at the beginning of a text. */
function dates(text: string): Part[] {
  const parts: Part[] = [];
  const match = (form: RegExp, of: (m: RegExpExecArray) => readonly string[]): void => {
    const m = form.exec(text);
    if (m !== null) for (const format of of(m)) parts.push({ format, end: m[0].length });
  };
  const month = (word: string): string[] => (word.length === 3 ? ["%b"] : ["%B", "%b"]);
  const year = (digits: string): string => (digits.length === 4 ? "%Y" : "%y");
  match(/^\d{4}([^\d\p{L}:,;]{1,2})\d{1,2}\1\d{1,2}(?!\d)/u, ([, s]) => orders(s, ["%Y", "%m", "%d"], ["%Y", "%d", "%m"]));
  match(/^\d{1,2}([^\d\p{L}:,;]{1,2})\d{1,2}\1\d{4}(?!\d)/u, ([, s]) => orders(s, ["%d", "%m", "%Y"], ["%m", "%d", "%Y"]));
  match(/^\d{1,2}([^\d\p{L}:,;]{1,2})\d{1,2}\1\d{2}(?!\d)/u, ([, s]) => orders(s, ["%d", "%m", "%y"], ["%m", "%d", "%y"], ["%y", "%m", "%d"]));
  match(/^\d{4}年\d{1,2}月\d{1,2}日/, () => ["%Y年%m月%d日"]);
  match(/^\d{1,2}([^\d\p{L}]{0,2})(\p{L}{3,9})(\.?[^\d\p{L}]{0,2})(\d{4}|\d{2})(?!\d)/u, ([, a, word, b, y]) =>
    month(word).flatMap((m) => [`%d${literal(a)}${m}${literal(b)}${year(y)}`, ...(y.length === 2 ? [`%y${literal(a)}${m}${literal(b)}%d`] : [])]),
  );
  match(/^(\p{L}{3,9})(\.?[^\d\p{L}]{1,2})\d{1,2}([^\d\p{L}:]{1,3})(\d{4}|\d{2})(?![\d:])/u, ([, word, a, b, y]) => month(word).map((m) => `${m}${literal(a)}%d${literal(b)}${year(y)}`));
  match(/^\d{4}([^\d\p{L}]{0,2})(\p{L}{3,9})(\.?[^\d\p{L}]{0,2})\d{1,2}(?!\d)/u, ([, a, word, b]) => month(word).map((m) => `%Y${literal(a)}${m}${literal(b)}%d`));
  match(/^\d{8}(?=\d{0,6}(?!\d))/, () => ["%Y%m%d", "%d%m%Y", "%m%d%Y"]);
  match(/^\d{6}(?=(\d{4}|\d{6})?(?!\d))/, () => ["%y%m%d", "%d%m%y", "%m%d%y"]);
  match(/^\d{4}(-?)\d{3}(?!\d)/, ([, s]) => [`%Y${s}%j`]);
  return parts;
}

function orders(sign: string, ...lists: readonly (readonly string[])[]): string[] {
  return lists.map((list) => list.join(literal(sign)));
}

/** Times of day at the beginning of a text. */
function times(text: string): Part[] {
  const parts: Part[] = [];
  const add = (format: string, end: number): void => {
    const rest = text.slice(end);
    const half = /^(\s*)[ap]m(?![a-z])/i.exec(rest);
    const body = half === null ? format : `${format.replace("%H", "%I")}${half[1].replace(/\s+/g, " ")}%p`;
    const at = end + (half?.[0].length ?? 0);
    const offset = /^(\s*)(?:Z|[+-]\d{2}(?::?\d{2})?)(?!\d)/.exec(text.slice(at));
    if (offset !== null) parts.push({ format: `${body}${offset[1].replace(/\s+/g, " ")}%z`, end: at + offset[0].length });
    parts.push({ format: body, end: at });
  };
  const clock = /^\d{1,2}([:.h-])\d{1,2}(?:([:.m-])\d{1,2}(?:([.,:])\d{1,9})?)?/.exec(text);
  if (clock !== null) {
    const [all, a, b, f] = clock;
    if (f !== undefined) add(`%H${a}%M${b}%S${f}%f`, all.length);
    else add(b === undefined ? `%H${a}%M` : `%H${a}%M${b}%S`, all.length);
  }
  const packed = /^\d{4}(\d{2})?(?!\d)/.exec(text);
  if (packed !== null) add(packed[1] === undefined ? "%H%M" : "%H%M%S", packed[0].length);
  const hour = /^\d{1,2}(?=$|\s*[ap]m)/i.exec(text);
  if (hour !== null) add("%H", hour[0].length);
  return parts;
}
