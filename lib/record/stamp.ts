import { civilInstant } from "../ground/calendar.js";
import { type CivilTime, offsetOf, parseIso } from "../ground/instant.js";

/** Parts of a date and time that a text gave; what is absent stays at its default. */
interface Parts {
  year: number;
  month: number;
  day: number;
  dayOfYear: number;
  hour: number;
  hour12: number;
  afternoon: number;
  minute: number;
  second: number;
  fraction: number;
  offset: number | null;
}

type Take = (parts: Parts, text: string) => boolean;

const monthNames = ["jan", "feb", "mar", "apr", "may", "jun", "jul", "aug", "sep", "oct", "nov", "dec"];
const longMonths = ["january", "february", "march", "april", "may", "june", "july", "august", "september", "october", "november", "december"];

const number =
  (name: "year" | "month" | "day" | "dayOfYear" | "hour" | "hour12" | "minute" | "second"): Take =>
  (parts, text) => {
    parts[name] = Number(text);
    return true;
  };

/** Letters of strptime that can be read: the pattern of their text, and what they do with it. */
const letters: Readonly<Record<string, readonly [string, Take]>> = {
  Y: ["\\d{4}", number("year")],
  y: [
    "\\d{2}",
    (parts, text) => {
      // Years 69 to 99 are of the last century, as POSIX has it.
      parts.year = Number(text) + (Number(text) >= 69 ? 1900 : 2000);
      return true;
    },
  ],
  m: ["\\d{1,2}", number("month")],
  d: ["\\d{1,2}", number("day")],
  j: ["\\d{1,3}", number("dayOfYear")],
  H: ["\\d{1,2}", number("hour")],
  I: ["\\d{1,2}", number("hour12")],
  M: ["\\d{1,2}", number("minute")],
  S: ["\\d{1,2}", number("second")],
  f: [
    "\\d{1,9}",
    (parts, text) => {
      parts.fraction = Number(`0.${text}`);
      return true;
    },
  ],
  p: [
    "[AaPp]\\.?[Mm]\\.?",
    (parts, text) => {
      parts.afternoon = text[0].toLowerCase() === "p" ? 1 : 0;
      return true;
    },
  ],
  z: [
    "Z|[+-]\\d\\d:?\\d\\d|[+-]\\d\\d",
    (parts, text) => {
      parts.offset = offsetOf(text);
      return !Number.isNaN(parts.offset);
    },
  ],
  b: ["[A-Za-z]{3,9}\\.?", monthByName],
  B: ["[A-Za-z]{3,9}\\.?", monthByName],
};

function monthByName(parts: Parts, text: string): boolean {
  const name = text.toLowerCase().replace(".", "");
  const k = name.length === 3 ? monthNames.indexOf(name) : longMonths.indexOf(name);
  parts.month = k + 1;
  return k >= 0;
}

/** Reads a stamp; null when the text does not fit or names no real day or time. */
export type StampReader = (text: string) => CivilTime | null;

/** A format that is compiled, or what is wrong with it. */
export type CompiledFormat = { readonly read: StampReader; readonly letters: ReadonlySet<string> } | { readonly fault: string };

/**
 * Compiles a strptime format into a reader; the default is ISO 8601.
 *
 * @param kind   `datetime`, `date` or `time`
 * @param format as in the description; nothing or `default` is ISO 8601; the old prefix `fmt:` is taken off
 */
export function compileFormat(kind: "datetime" | "date" | "time", format: string | undefined): CompiledFormat {
  if (format === undefined || format === "default") return { read: isoReader(kind), letters: new Set() };
  if (format === "any") return { fault: "be a pattern, not any" };
  const text = format.startsWith("fmt:") ? format.slice(4) : format;
  const takes: Take[] = [];
  const used = new Set<string>();
  let pattern = "";
  for (let i = 0; i < text.length; i++) {
    if (text[i] !== "%") {
      pattern += text[i] === " " ? " +" : text[i].replace(/[.*+?^${}()|[\]\\/]/g, "\\$&");
      continue;
    }
    const letter = text[++i];
    if (letter === "%") {
      pattern += "%";
      continue;
    }
    const known = letter === undefined ? undefined : letters[letter];
    if (known === undefined) return { fault: "use only %Y %y %m %d %H %I %p %M %S %f %z %j %b %B %%" };
    pattern += `(${known[0]})`;
    takes.push(known[1]);
    used.add(letter);
  }
  const needed = kind === "time" ? used.has("H") || used.has("I") : (used.has("Y") || used.has("y")) && (used.has("j") || (used.has("d") && (used.has("m") || used.has("b") || used.has("B"))));
  if (!needed) return { fault: kind === "time" ? "tell the hour" : "tell year, month and day" };
  const regex = new RegExp(`^${pattern}$`);
  return { read: (value) => readBy(regex, takes, value), letters: used };
}

function readBy(regex: RegExp, takes: readonly Take[], value: string): CivilTime | null {
  const m = regex.exec(value);
  if (m === null) return null;
  const parts: Parts = { year: 1970, month: 1, day: 1, dayOfYear: 0, hour: 0, hour12: -1, afternoon: -1, minute: 0, second: 0, fraction: 0, offset: null };
  for (let k = 0; k < takes.length; k++) if (!takes[k](parts, m[k + 1])) return null;
  if (parts.hour12 >= 0) {
    if (parts.hour12 < 1 || parts.hour12 > 12) return null;
    parts.hour = (parts.hour12 % 12) + (parts.afternoon === 1 ? 12 : 0);
  }
  const seconds = parts.second + parts.fraction;
  let civil: number;
  if (parts.dayOfYear > 0) {
    const newYear = civilInstant(parts.year, 1, 1, parts.hour, parts.minute, seconds);
    if (parts.dayOfYear > 365 && new Date(newYear + (parts.dayOfYear - 1) * 86400000).getUTCFullYear() !== parts.year) return null;
    civil = newYear + (parts.dayOfYear - 1) * 86400000;
  } else civil = civilInstant(parts.year, parts.month, parts.day, parts.hour, parts.minute, seconds);
  return Number.isNaN(civil) ? null : { civil, offsetMinutes: parts.offset };
}

const isoTime = /^(\d\d):(\d\d)(?::(\d\d(?:\.\d{1,9})?))?(Z|[+-]\d\d(?::?\d\d)?)?$/;

function isoReader(kind: "datetime" | "date" | "time"): StampReader {
  if (kind === "datetime") return (text) => (text.length > 10 ? parseIso(text) : null);
  if (kind === "date") return (text) => (text.length === 10 ? parseIso(text) : null);
  return (text) => {
    const m = isoTime.exec(text);
    if (m === null) return null;
    const civil = civilInstant(1970, 1, 1, +m[1], +m[2], +(m[3] ?? 0));
    return Number.isNaN(civil) ? null : { civil, offsetMinutes: m[4] === undefined ? null : offsetOf(m[4]) };
  };
}
