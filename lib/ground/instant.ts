import { civilDate, civilInstant } from "./calendar.js";

const dayMs = 86_400_000;

function padded(value: number, width: number): string {
  return String(value).padStart(width, "0");
}

/**
 * The civil day of an instant, `YYYY-MM-DD`. For a zone's day hand in its civil milliseconds (`civilTime`).
 *
 * @param ms epoch milliseconds · years 0…9999
 * @throws RangeError when `ms` is not finite
 * @example dayText(1709251200000) // "2024-03-01"
 * @source ISO 8601
 */
export function dayText(ms: number): string {
  if (!Number.isFinite(ms)) throw new RangeError(`dayText: ms must be finite epoch milliseconds (got ${ms})`);
  const { year, month, day } = civilDate(Math.floor(ms / dayMs));
  return `${padded(year, 4)}-${padded(month, 2)}-${padded(day, 2)}`;
}

/**
 * An instant as ISO 8601 text in UTC, `2024-03-01T09:00:00Z`; a fraction is written only where there is one.
 *
 * @param ms epoch milliseconds · rounded to whole milliseconds · years 0…9999
 * @returns  text that ends in Z
 * @throws RangeError when `ms` is not finite
 * @example instantText(1709283600500) // "2024-03-01T09:00:00.500Z"
 * @source ISO 8601
 */
export function instantText(ms: number): string {
  if (!Number.isFinite(ms)) throw new RangeError(`instantText: ms must be finite epoch milliseconds (got ${ms})`);
  const whole = Math.round(ms);
  const ofDay = whole - Math.floor(whole / dayMs) * dayMs;
  const fraction = ofDay % 1000;
  const seconds = (ofDay - fraction) / 1000;
  const clock = `${padded(Math.floor(seconds / 3600), 2)}:${padded(Math.floor(seconds / 60) % 60, 2)}:${padded(seconds % 60, 2)}`;
  return `${dayText(whole)}T${clock}${fraction === 0 ? "" : `.${padded(fraction, 3)}`}Z`;
}

/** A civil time as it was written. */
export interface CivilTime {
  /** As if it were UTC · epoch milliseconds. */
  readonly civil: number;
  /** Minutes east of UTC that the text itself gives, or null. */
  readonly offsetMinutes: number | null;
}

const isoForm = /^(\d{4})-(\d{2})-(\d{2})(?:[T ](\d{2}):(\d{2})(?::(\d{2})(?:[.,](\d{1,9}))?)?(Z|[+-]\d{2}(?::?\d{2})?)?)?$/;

/**
 * Reads ISO 8601 text: a date, or a date and a time (`T` or blank between), seconds, fraction and offset optional.
 *
 * @returns null when the text is not of that form, or its date, time or offset does not exist
 * @example parseIso("2024-03-01T09:00+07:00") // { civil: Date.UTC(2024, 2, 1, 9), offsetMinutes: 420 }
 * @source ISO 8601; 24:00:00 is the end of the day
 */
export function parseIso(text: string): CivilTime | null {
  const found = isoForm.exec(text.trim());
  if (found === null) return null;
  const [, year, month, day, hour = "0", minute = "0", second = "0", fraction = "0", zone] = found;
  const civil = civilInstant(Number(year), Number(month), Number(day), Number(hour), Number(minute), Number(`${second}.${fraction}`));
  const offsetMinutes = zone === undefined ? null : offsetOf(zone);
  return Number.isNaN(civil) || Number.isNaN(offsetMinutes) ? null : { civil, offsetMinutes };
}

/**
 * Reads a fixed offset from UTC: `Z`, `UTC`, `+07:00`, `-0330`, `+07`.
 *
 * @returns minutes east of UTC, or NaN when it is none or lies beyond ±14 h
 * @example offsetOf("-03:30") // -210
 * @source ISO 8601; civil offsets lie between −12 and +14 h
 */
export function offsetOf(text: string): number {
  if (text === "Z" || text === "UTC") return 0;
  const found = /^([+-])(\d{2})(?::?(\d{2}))?$/.exec(text);
  if (found === null) return Number.NaN;
  const minutes = Number(found[2]) * 60 + Number(found[3] ?? 0);
  if (Number(found[3] ?? 0) > 59 || minutes > 14 * 60) return Number.NaN;
  return found[1] === "-" && minutes !== 0 ? -minutes : minutes;
}
