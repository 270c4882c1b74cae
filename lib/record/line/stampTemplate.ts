import type { StampPlan } from "../description/plan.js";
import { newStamp } from "./stamp.js";

/**
 * The last stamp that was read from a column of a log, kept so that the next one is read from its bytes.
 *
 * Within a day the stamps of a column differ in the digits of the clock only: what has the same length and the same bytes
 * elsewhere is of the same day and offset, and its time of day is those digits. Anything else is read anew from its text.
 */
export class StampTemplate {
  /** Bytes of the stamp; 0 while none is known. */
  length = 0;
  /** Days since 1970-01-01; NaN in a column of times. */
  day: number = Number.NaN;
  /** Minutes east of UTC that the text gave; NaN where it gave none. */
  offsetMinutes: number = Number.NaN;
  /** Milliseconds of the time of day of the stamp read last. */
  ofDay = 0;
  /** How often a stamp was read anew. */
  misses = 0;
  /** What must stand where, four bytes at once: place, mask with zeros for the clock's digits, bytes; place, mask, … */
  private words: Int32Array = new Int32Array(0);
  private hour = -1;
  private hourDigits: 1 | 2 = 2;
  private minute = -1;
  private second = -1;
  /** What the time of day has besides hour, minute and second · ms. */
  private rest = 0;

  constructor(private readonly plan: StampPlan) {}

  /** Reads the stamp at `from`, which has `length` bytes; false when it is another day's, or no time that exists. @param view of all `bytes` */
  read(bytes: Uint8Array, view: DataView, from: number): boolean {
    const { words } = this;
    for (let k = 0; k < words.length; k += 3) if ((view.getInt32(from + words[k], true) & words[k + 1]) !== words[k + 2]) return false;
    if (this.hour < 0) return true;
    const h = this.hourDigits === 2 ? two(bytes, from + this.hour) : one(bytes, from + this.hour);
    const m = this.minute < 0 ? 0 : two(bytes, from + this.minute);
    const s = this.second < 0 ? 0 : two(bytes, from + this.second);
    if (h > 23 || m > 59 || s > 59) return false;
    this.ofDay = ((h * 60 + m) * 60 + s) * 1000 + this.rest;
    return true;
  }

  /** Reads the stamp from `from` to `to` by the text's own reader and keeps it; false when that is not possible from bytes. */
  learn(bytes: Uint8Array, from: number, to: number): boolean {
    this.misses++;
    this.length = 0;
    const n = to - from;
    if (n < 4 || n > 60) return false;
    let text = "";
    for (let i = from; i < to; i++) {
      // Blanks at the ends, and what is no printable ASCII, are for the reader of texts.
      if (bytes[i] < 32 || bytes[i] > 126 || (bytes[i] === 32 && (i === from || i === to - 1))) return false;
      text += String.fromCharCode(bytes[i]);
    }
    const stamp = newStamp();
    if (!this.plan.read(text, 0, n, stamp)) return false;
    const spots = this.plan.clock(text);
    if (spots === null || stamp.ofDay >= 86_400_000) return false;
    const { hour, minute, second, hourDigits } = spots;
    const told = (at: number, factor: number): number => (at < 0 ? 0 : factor * two(bytes, from + at));
    this.rest = hour < 0 ? 0 : stamp.ofDay - (hourDigits === 2 ? told(hour, 3_600_000) : 3_600_000 * one(bytes, from + hour)) - told(minute, 60_000) - told(second, 1000);
    const isClock = (i: number): boolean => [hour, minute, second].some((at, k) => at >= 0 && (i === at || (i === at + 1 && (k > 0 || hourDigits === 2))));
    // Words of four bytes, the last of which may overlap the one before.
    const word = (at: number, of: (i: number) => number): number => of(at) | (of(at + 1) << 8) | (of(at + 2) << 16) | (of(at + 3) << 24);
    const places = Array.from({ length: Math.ceil(n / 4) }, (_, k) => Math.min(4 * k, n - 4));
    this.words = Int32Array.from(places.flatMap((at) => [at, word(at, (i) => (isClock(i) ? 0 : 255)), word(at, (i) => (isClock(i) ? 0 : bytes[from + i]))]));
    [this.hour, this.minute, this.second, this.hourDigits] = [hour, minute, second, hourDigits];
    this.day = stamp.day;
    this.ofDay = stamp.ofDay;
    this.offsetMinutes = stamp.offsetMinutes;
    this.length = n;
    return true;
  }
}

/** A digit as a number; 100 when it is none. */
function one(bytes: Uint8Array, at: number): number {
  const a = bytes[at] - 48;
  return a >= 0 && a <= 9 ? a : 100;
}

/** Two digits as a number; 100 when they are none. */
function two(bytes: Uint8Array, at: number): number {
  const a = bytes[at] - 48;
  const b = bytes[at + 1] - 48;
  return a >= 0 && a <= 9 && b >= 0 && b <= 9 ? 10 * a + b : 100;
}
