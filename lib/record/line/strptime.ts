import { dayNumber, isLeapYear } from "../../ground/calendar.js";
import { epochReader } from "./epochStamp.js";
import { offsetAtEnd, readIsoDate, readIsoDatetime, readIsoTime } from "./isoStamp.js";
import { type ClockFinder, newStamp, setDate, setTime, type Stamp, type StampReader } from "./stamp.js";

/** Which letters make up a compiled format, its reader and where it finds the clock; or what is wrong with the format. */
export type CompiledFormat = { readonly read: StampReader; readonly letters: ReadonlySet<string>; readonly clock: ClockFinder } | { readonly fault: string };

/** Longest run of digits each numeric letter takes; %Y needs all four, %y both. */
const digitsOf: Readonly<Record<string, number>> = Object.freeze({ Y: 4, y: 2, m: 2, d: 2, j: 3, H: 2, I: 2, M: 2, S: 2, f: 9 });
const wordLetters = "bBpz";
const months = ["january", "february", "march", "april", "may", "june", "july", "august", "september", "october", "november", "december"];
/** Each of these says a thing that may be said once. */
const rivals = ["Yy", "mbBj", "dj", "HI", "M", "S", "f", "p", "z"];

/** What the letters said, by character code; NaN where one said nothing. Behind that, where the digits of the clock stood; first of all, how many the hour had. */
type Found = Float64Array;
const places = 128;

const codeOf = (letter: string): number => letter.charCodeAt(0);
const [Y, y, m, b, B, d, j, H, I, M, S, f, p, z] = [..."YymbBdjHIMSfpz"].map(codeOf);

/** Formats whose whole texts are ISO 8601 too, and are read faster so: reader, length of the text, sign between day and time. */
const isoFormats: Readonly<Record<string, readonly [StampReader, number, number]>> = Object.freeze({
  "%Y-%m-%d": [readIsoDate, 10, 0],
  "%H:%M:%S": [readIsoTime, 8, 0],
  "%H:%M": [readIsoTime, 5, 0],
  "%Y-%m-%d %H:%M:%S": [readIsoDatetime, 19, 32],
  "%Y-%m-%d %H:%M": [readIsoDatetime, 16, 32],
  "%Y-%m-%dT%H:%M:%S": [readIsoDatetime, 19, 84],
  "%Y-%m-%dT%H:%M": [readIsoDatetime, 16, 84],
});

/**
 * Compiles a strptime format into a reader: %Y %y %m %d %j %b %B %H %I %p %M %S %f %z %%, and any other character as itself.
 *
 * Leading zeros may be left out, blanks in the format take one blank or more, month names are English in any case,
 * %y from 69 is of the last century, %f is kept to the millisecond. A literal Z is text; %z reads an offset.
 * %s (seconds since 1970) and %Q (milliseconds) stand alone, with a fraction or without: their texts are instants.
 *
 * @param kind   what the format must tell: a `date`, a `time`, or both
 * @param format without the old prefix `fmt:`
 * @source strptime of C and Python; century of %y by POSIX; %s and %Q as epochStamp.ts has them
 */
export function compileFormat(kind: "datetime" | "date" | "time", format: string): CompiledFormat {
  const epoch = epochReader(format);
  if (epoch !== null) {
    if (kind !== "datetime") return { fault: `stand on a field of type datetime, because ${format} tells day and time` };
    return { letters: new Set(format[1]), read: epoch, clock: () => null };
  }
  const steps: string[] = [];
  const letters = new Set<string>();
  for (let i = 0; i < format.length; i++) {
    if (format[i] !== "%") {
      // Several blanks in a row are one: it takes as many as there are.
      if (format[i] !== " " || steps[steps.length - 1] !== " ") steps.push(format[i]);
      continue;
    }
    const letter = format[++i] ?? "";
    if (letter === "%") steps.push("%");
    else if (!(letter in digitsOf) && (letter === "" || !wordLetters.includes(letter))) {
      if (letter === "s" || letter === "Q") return { fault: `hold %${letter} alone, because it tells day and time` };
      return { fault: `use only %Y %y %m %d %H %I %p %M %S %f %z %j %b %B %%, or %s or %Q alone${letter === "" ? "" : `, not %${letter}`}` };
    } else {
      if (letters.has(letter)) return { fault: `use %${letter} once` };
      steps.push(`%${letter}`);
      letters.add(letter);
    }
  }
  const fault = missingPart(kind, letters);
  if (fault !== null) return { fault };
  const found = new Float64Array(2 * places);
  const slow: StampReader = (text, from, to, into) => run(steps, text, from, to, into, found.fill(Number.NaN));
  const clock: ClockFinder = (text) => {
    if (letters.has("I") || !slow(text, 0, text.length, newStamp())) return null;
    const [hour, minute, second] = [H, M, S].map((code) => (Number.isNaN(found[code]) ? -1 : found[places + code]));
    return Number.isNaN(hour + minute + second) ? null : { hour, minute, second, hourDigits: found[places] === 1 ? 1 : 2 };
  };
  const quick = isoFormats[format];
  if (quick === undefined) return { letters, clock, read: slow };
  const [iso, length, between] = quick;
  return { letters, clock, read: (text, from, to, into) => (to - from === length && (between === 0 || text.charCodeAt(from + 10) === between) && iso(text, from, to, into)) || slow(text, from, to, into) };
}

function missingPart(kind: "datetime" | "date" | "time", letters: ReadonlySet<string>): string | null {
  for (const set of rivals) {
    const both = [...set].filter((l) => letters.has(l));
    if (both.length > 1) return `use one of ${both.map((l) => `%${l}`).join(" and ")}, not both`;
  }
  const has = (some: string): boolean => [...some].some((l) => letters.has(l));
  const hasDate = has("Yy") && (has("j") || (has("d") && has("mbB")));
  if (kind !== "time" && !hasDate) return "tell year, month and day";
  if (kind === "time" && has("YymdjbB")) return "tell the time of day alone";
  if (kind === "date" && has("HIMSfp")) return "tell the day alone";
  if (kind !== "date" && !has("HI")) return "tell the hour";
  if (has("I") !== has("p")) return "use %I and %p together";
  return null;
}

function run(steps: readonly string[], text: string, from: number, to: number, into: Stamp, found: Found): boolean {
  let i = from;
  for (const step of steps) {
    if (step.length === 1) {
      if (i >= to || text[i] !== step) return false;
      i++;
      if (step === " ") while (i < to && text.charCodeAt(i) === 32) i++;
      continue;
    }
    i = take(step[1], text, i, to, found);
    if (i < 0) return false;
  }
  return i === to && put(found, into);
}

/** Reads one letter's text from `i` on; returns where it ends, −1 when it is not there. */
function take(letter: string, text: string, i: number, to: number, found: Found): number {
  const most = digitsOf[letter];
  if (most !== undefined) {
    let value = 0;
    let end = i;
    for (; end < to && end - i < most; end++) {
      const digit = text.charCodeAt(end) - 48;
      if (digit < 0 || digit > 9) break;
      value = 10 * value + digit;
    }
    const count = end - i;
    if (count === 0 || ((letter === "Y" || letter === "y") && count < most)) return -1;
    if (count === 2 || letter === "H") found[places + codeOf(letter)] = i;
    if (letter === "H") found[places] = count;
    found[codeOf(letter)] = letter === "f" ? Math.floor((value / 10 ** count) * 1000 + 1e-6) : value;
    return end;
  }
  if (letter === "z") {
    // The longest offset that stands here.
    for (const end of [i + 6, i + 5, i + 3, i + 1]) {
      if (end > to) continue;
      const minutes = offsetAtEnd(text, i, end);
      if (Number.isNaN(minutes)) continue;
      found[z] = minutes;
      return end;
    }
    return -1;
  }
  if (letter === "p") {
    const word = text.slice(i, i + 2).toLowerCase();
    if (i + 2 > to || (word !== "am" && word !== "pm")) return -1;
    found[p] = word === "pm" ? 1 : 0;
    return i + 2;
  }
  const rest = text.slice(i, Math.min(to, i + 9)).toLowerCase();
  const month = months.findIndex((name) => rest.startsWith(letter === "B" ? name : name.slice(0, 3)));
  found[codeOf(letter)] = month + 1;
  return month < 0 ? -1 : i + (letter === "B" ? months[month].length : 3);
}

function put(found: Found, into: Stamp): boolean {
  const said = (letter: number): boolean => !Number.isNaN(found[letter]);
  const year = said(Y) ? found[Y] : found[y] + (found[y] >= 69 ? 1900 : 2000);
  if (said(j)) {
    const days = isLeapYear(year) ? 366 : 365;
    if (found[j] < 1 || found[j] > days) {
      into.fault = `${year} has ${days} days`;
      return false;
    }
    into.day = dayNumber(year, 1, 1) + found[j] - 1;
  } else if (!Number.isNaN(year) && !setDate(into, year, said(m) ? found[m] : said(b) ? found[b] : found[B], found[d])) return false;
  if (said(z)) into.offsetMinutes = found[z];
  let hour = said(H) ? found[H] : 0;
  if (said(I)) {
    if (found[I] < 1 || found[I] > 12) {
      into.fault = `there is no hour ${found[I]} on a clock of twelve`;
      return false;
    }
    hour = (found[I] % 12) + 12 * found[p];
  }

  const orZero = (letter: number): number => (said(letter) ? found[letter] : 0);
  return setTime(into, hour, orZero(M), orZero(S), orZero(f));
}
