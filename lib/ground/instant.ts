import { civilDate, dayNumber, daysInMonth } from "./civilDay.js";

const dayMs = 86_400_000;

function padded(value: number, width: number): string {
  return String(value).padStart(width, "0");
}

/**
 * The civil day of an instant, `YYYY-MM-DD`. For a zone's day hand in its civil milliseconds (`civilTime`).
 *
 * @param ms epoch milliseconds · years 0…9999
 * @throws RangeError when `ms` is not finite
 * @example isoDay(1709251200000) // "2024-03-01"
 * @source ISO 8601
 */
export function isoDay(ms: number): string {
  if (!Number.isFinite(ms)) throw new RangeError(`isoDay: ms must be finite epoch milliseconds (got ${ms})`);
  const { year, month, day } = civilDate(Math.floor(ms / dayMs));
  return `${padded(year, 4)}-${padded(month, 2)}-${padded(day, 2)}`;
}

/**
 * An instant as ISO 8601 text in UTC, `2024-03-01T09:00:00Z`; a fraction is written only where there is one.
 *
 * @param ms epoch milliseconds · rounded to whole milliseconds · years 0…9999
 * @throws RangeError when `ms` is not finite
 * @example isoInstant(1709283600500) // "2024-03-01T09:00:00.500Z"
 * @source ISO 8601
 */
export function isoInstant(ms: number): string {
  if (!Number.isFinite(ms)) throw new RangeError(`isoInstant: ms must be finite epoch milliseconds (got ${ms})`);
  const whole = Math.round(ms);
  const ofDay = whole - Math.floor(whole / dayMs) * dayMs;
  const fraction = ofDay % 1000;
  const seconds = (ofDay - fraction) / 1000;
  const clock = `${padded(Math.floor(seconds / 3600), 2)}:${padded(Math.floor(seconds / 60) % 60, 2)}:${padded(seconds % 60, 2)}`;
  return `${isoDay(whole)}T${clock}${fraction === 0 ? "" : `.${padded(fraction, 3)}`}Z`;
}

/** ISO 8601 text taken apart. */
export interface IsoTime {
  /** The written civil time as if it were UTC · epoch milliseconds. */
  readonly civil: number;
  /** Seconds east of UTC that the text itself gives, or null. */
  readonly offset: number | null;
  /** False for a bare date. */
  readonly hasTime: boolean;
}

const isoForm = /^(\d{4})-(\d{2})-(\d{2})(?:[T ](\d{2}):(\d{2})(?::(\d{2})(?:[.,](\d{1,9}))?)?(Z|[+-]\d{2}(?::?\d{2})?)?)?$/;

/**
 * Reads ISO 8601 text: a date, or a date and a time (`T` or blank between), seconds, fraction and offset optional.
 *
 * @returns null when the text is not of that form or the date or time does not exist
 * @example readIso("2024-03-01T09:00+07:00") // { civil: Date.UTC(2024, 2, 1, 9), offset: 25200, hasTime: true }
 * @source ISO 8601; hours 0…23 (24:00:00 is the end of the day), seconds 0…59
 */
export function readIso(text: string): IsoTime | null {
  const found = isoForm.exec(text.trim());
  if (found === null) return null;
  const [, y, mo, d, h, mi, s, fraction, zone] = found;
  const year = Number(y);
  const month = Number(mo);
  const day = Number(d);
  if (month < 1 || month > 12 || day < 1 || day > daysInMonth(year, month)) return null;
  const date = dayNumber(year, month, day) * dayMs;
  if (h === undefined) return { civil: date, offset: null, hasTime: false };
  const hour = Number(h);
  const minute = Number(mi);
  const second = Number(s ?? 0);
  const ms = fraction === undefined ? 0 : Math.floor(Number(fraction.padEnd(3, "0").slice(0, 3)));
  const isEndOfDay = hour === 24 && minute === 0 && second === 0 && ms === 0;
  if ((hour > 23 && !isEndOfDay) || minute > 59 || second > 59) return null;
  const offset = zone === undefined ? null : readOffset(zone);
  if (zone !== undefined && offset === null) return null;
  return { civil: date + ((hour * 60 + minute) * 60 + second) * 1000 + ms, offset, hasTime: true };
}

/**
 * Reads a fixed offset from UTC: `Z`, `UTC`, `+07:00`, `-0330`, `+07`.
 *
 * @returns seconds east of UTC, or null when it is none or lies beyond ±14 h
 * @example readOffset("-03:30") // -12600
 * @source ISO 8601; civil offsets lie between −12 and +14 h
 */
export function readOffset(text: string): number | null {
  if (text === "Z" || text === "UTC") return 0;
  const found = /^([+-])(\d{2})(?::?(\d{2}))?$/.exec(text);
  if (found === null) return null;
  const minutes = Number(found[3] ?? 0);
  const seconds = (Number(found[2]) * 60 + minutes) * 60;
  if (minutes > 59 || seconds > 14 * 3600) return null;
  return found[1] === "-" && seconds !== 0 ? -seconds : seconds;
}
