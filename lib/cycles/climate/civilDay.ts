const dayMs = 86_400_000;

/**
 * Number of the civil day an instant falls in, counted from 1970-01-01, in the record's standard time all year.
 *
 * @param at          epoch ms, UTC
 * @param offsetHours standard time less UTC · h
 * @returns           whole number
 * @example civilDay(0, -8) // -1
 */
export function civilDay(at: number, offsetHours: number): number {
  return Math.floor((at + 3_600_000 * offsetHours) / dayMs);
}

/**
 * Date of a civil day.
 *
 * @param day days since 1970-01-01
 * @returns   YYYY-MM-DD
 * @example civilDate(59) // "1970-03-01"
 */
export function civilDate(day: number): string {
  return new Date(day * dayMs).toISOString().slice(0, 10);
}

/**
 * Month of a civil day, counted from January of year 0.
 *
 * @param day days since 1970-01-01
 * @returns   12 · year + month − 1
 * @example civilMonth(0) // 23640
 */
export function civilMonth(day: number): number {
  const date = new Date(day * dayMs);
  return 12 * date.getUTCFullYear() + date.getUTCMonth();
}

/**
 * First civil day of a month.
 *
 * @param month as civilMonth gives it
 * @returns     days since 1970-01-01
 * @example monthStart(23641) // 31
 */
export function monthStart(month: number): number {
  return Date.UTC(Math.floor(month / 12), month % 12, 1) / dayMs;
}

/**
 * Name of a month.
 *
 * @param month as civilMonth gives it
 * @returns     YYYY-MM
 * @example monthDate(23640) // "1970-01"
 */
export function monthDate(month: number): string {
  return civilDate(monthStart(month)).slice(0, 7);
}
