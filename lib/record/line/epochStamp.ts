import type { StampReader } from "./stamp.js";

const dayMs = 86_400_000;
/** Most digits before the point: what a number of milliseconds holds exactly. */
const mostDigits = 15;

/** Formats of an instant counted from 1970-01-01T00:00Z, with the milliseconds of their unit. */
const units: Readonly<Record<string, number>> = Object.freeze({ "%s": 1000, "%Q": 1 });

/**
 * The reader of `%s`, seconds since 1970, or `%Q`, milliseconds since 1970: digits, and a fraction behind a point or a comma if there is one.
 *
 * The stamp is an instant already: its offset is told, 0. What is finer than a millisecond is cut off; whether the year is possible
 * is judged where rows are read.
 *
 * @param format exactly `%s` or `%Q`
 * @returns      null for any other format
 * @source `%s`: seconds since the Epoch, POSIX.1-2024 date; `%Q`: d3-time-format
 * @example epochReader("%s")?.("1709283600", 0, 10, stamp) // true: 2024-03-01T09:00:00Z
 */
export function epochReader(format: string): StampReader | null {
  const unit = units[format];
  if (unit === undefined) return null;
  return (text, from, to, into) => {
    let whole = 0;
    let i = from;
    for (; i < to; i++) {
      const digit = text.charCodeAt(i) - 48;
      if (digit < 0 || digit > 9) break;
      whole = 10 * whole + digit;
    }
    if (i === from || i - from > mostDigits) return false;
    let ms = 0;
    if (i < to) {
      const sign = text.charCodeAt(i);
      if ((sign !== 46 && sign !== 44) || i + 1 === to) return false;
      let scale = unit / 10;
      for (i++; i < to; i++) {
        const digit = text.charCodeAt(i) - 48;
        if (digit < 0 || digit > 9) return false;
        ms += scale < 1 ? 0 : digit * scale;
        scale /= 10;
      }
    }
    const all = whole * unit + ms;
    into.day = Math.floor(all / dayMs);
    into.ofDay = all - into.day * dayMs;
    into.offsetMinutes = 0;
    return true;
  };
}
