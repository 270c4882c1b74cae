import { type ClockFinder, setDate, setTime, type Stamp } from "./stamp.js";

/** Two digits at a place of a text; −1 when they are none. */
function two(text: string, at: number): number {
  const a = text.charCodeAt(at) - 48;
  const b = text.charCodeAt(at + 1) - 48;
  return a >= 0 && a <= 9 && b >= 0 && b <= 9 ? 10 * a + b : -1;
}

/**
 * Reads an ISO 8601 date, `2024-03-01`.
 *
 * @source ISO 8601; the default format of `date` in Data Package 2.0
 */
export function readIsoDate(text: string, from: number, to: number, into: Stamp): boolean {
  if (to - from !== 10 || text.charCodeAt(from + 4) !== 45 || text.charCodeAt(from + 7) !== 45) return false;
  const century = two(text, from);
  const year = two(text, from + 2);
  const month = two(text, from + 5);
  const day = two(text, from + 8);
  if (century < 0 || year < 0 || month < 0 || day < 0) return false;
  return setDate(into, 100 * century + year, month, day);
}

/**
 * Reads an ISO 8601 time of day, `09:05`, `09:05:00`, `09:05:00.25`, with or without an offset (`Z`, `+07:00`, `+0700`, `+07`).
 *
 * @source ISO 8601; the default format of `time` in Data Package 2.0, seconds optional
 */
export function readIsoTime(text: string, from: number, to: number, into: Stamp): boolean {
  const hour = two(text, from);
  const minute = two(text, from + 3);
  if (to - from < 5 || hour < 0 || minute < 0 || text.charCodeAt(from + 2) !== 58) return false;
  let i = from + 5;
  let second = 0;
  let ms = 0;
  if (i < to && text.charCodeAt(i) === 58) {
    second = i + 3 <= to ? two(text, i + 1) : -1;
    if (second < 0) return false;
    i += 3;
    const c = text.charCodeAt(i);
    if (i < to && (c === 46 || c === 44)) {
      let scale = 100;
      const first = ++i;
      for (; i < to; i++) {
        const digit = text.charCodeAt(i) - 48;
        if (digit < 0 || digit > 9) break;
        ms += Math.floor(digit * scale);
        scale = scale === 1 ? 0 : scale / 10;
      }
      if (i === first) return false;
    }
  }
  if (i < to) {
    const minutes = offsetAtEnd(text, i, to);
    if (Number.isNaN(minutes)) return false;
    into.offsetMinutes = minutes;
  }
  return setTime(into, hour, minute, second, ms);
}

/** Reads an ISO 8601 date and time, with `T` or a blank between. */
export function readIsoDatetime(text: string, from: number, to: number, into: Stamp): boolean {
  const between = text.charCodeAt(from + 10);
  if (to - from < 16 || (between !== 84 && between !== 32)) return false;
  return readIsoDate(text, from, from + 10, into) && readIsoTime(text, from + 11, to, into);
}

/**
 * Finds the clock's digits in ISO texts.
 *
 * @param at where the time of day begins in the text; −1 in a date
 */
export function isoClock(at: number): ClockFinder {
  return (text) => (at < 0 ? { hour: -1, minute: -1, second: -1, hourDigits: 2 } : { hour: at, minute: at + 3, second: text.charCodeAt(at + 5) === 58 ? at + 6 : -1, hourDigits: 2 });
}

/**
 * Minutes east of UTC of `Z`, `+07:00`, `+0700` or `+07` that fills the text from `from` to `to`; NaN when it is none.
 */
export function offsetAtEnd(text: string, from: number, to: number): number {
  const sign = text.charCodeAt(from);
  if (sign === 90 && to - from === 1) return 0;
  const hours = two(text, from + 1);
  if ((sign !== 43 && sign !== 45) || hours < 0 || to - from < 3) return Number.NaN;
  let minutes = 0;
  if (to - from > 3) {
    const at = text.charCodeAt(from + 3) === 58 ? from + 4 : from + 3;
    minutes = at + 2 === to ? two(text, at) : -1;
  }
  const all = 60 * hours + minutes;
  if (minutes < 0 || minutes > 59 || all > 14 * 60) return Number.NaN;
  return sign === 45 ? 0 - all : all;
}
