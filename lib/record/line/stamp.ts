import { dayNumber, daysInMonth } from "../../ground/calendar.js";

/** Days since 1970-01-01 between which a stamp may lie: 1990 to 2100; what lies outside is a clock that was not set. */
export const firstDay: number = dayNumber(1990, 1, 1);
export const lastDay: number = dayNumber(2100, 12, 31);

/** What a stamp's text said; readers write into it. */
export interface Stamp {
  /** Days since 1970-01-01 of the written date; NaN where a time of day alone was read. */
  day: number;
  /** Milliseconds of the written time of day; 86 400 000 for 24:00. */
  ofDay: number;
  /** Minutes east of UTC that the text itself gave; NaN where it gave none. */
  offsetMinutes: number;
  /** Why a text of the right form names no day or time that exists; empty when it only is of another form. */
  fault: string;
}

/** Reads `text` from `from` to `to` into a stamp; false when it is of another form or does not exist. */
export type StampReader = (text: string, from: number, to: number, into: Stamp) => boolean;

/**
 * Where the digits of hour, minute and second stand in a stamp's text, counted from its beginning; −1 for what it does not tell.
 * Two digits each, but the hour may have one.
 *
 * Texts of one length that differ in these digits only name the same day and the same offset.
 */
export interface ClockSpots {
  readonly hour: number;
  readonly minute: number;
  readonly second: number;
  readonly hourDigits: 1 | 2;
}

/** Finds the clock's digits in a text that its StampReader has read; null where they are not of that form. */
export type ClockFinder = (text: string) => ClockSpots | null;

/** An empty stamp to read into. */
export function newStamp(): Stamp {
  return { day: Number.NaN, ofDay: 0, offsetMinutes: Number.NaN, fault: "" };
}

const monthWords = ["January", "February", "March", "April", "May", "June", "July", "August", "September", "October", "November", "December"];

/** Puts a date into a stamp; false, with the reason, when it does not exist. */
export function setDate(into: Stamp, year: number, month: number, day: number): boolean {
  if (month < 1 || month > 12) into.fault = `there is no month ${month}`;
  else if (day < 1 || day > daysInMonth(year, month)) into.fault = `${monthWords[month - 1]} ${year} has ${daysInMonth(year, month)} days`;
  else {
    into.day = dayNumber(year, month, day);
    return true;
  }
  return false;
}

/** Puts a time of day into a stamp; false, with the reason, when it does not exist. 24:00:00 is the end of the day. */
export function setTime(into: Stamp, hour: number, minute: number, second: number, ms: number): boolean {
  if (hour > 24 || (hour === 24 && minute + second + ms > 0)) into.fault = `there is no hour ${hour}`;
  else if (minute > 59) into.fault = `there is no minute ${minute}`;
  else if (second > 59) into.fault = `there is no second ${second}`;
  else {
    into.ofDay = ((hour * 60 + minute) * 60 + second) * 1000 + ms;
    return true;
  }
  return false;
}
