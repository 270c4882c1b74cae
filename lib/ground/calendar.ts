/**
 * Days from 1970-01-01 to a date of the Gregorian calendar; negative before it.
 *
 * @param year  whole year
 * @param month 1…12
 * @param day   1…31; a day beyond the month's end counts on into the next month
 * @example dayNumber(2024, 3, 1) // 19783
 * @source proleptic Gregorian calendar (ISO 8601); counted in 400-year cycles of 146 097 days
 */
export function dayNumber(year: number, month: number, day: number): number {
  // The year is begun in March, so that the leap day is its last.
  const y = month <= 2 ? year - 1 : year;
  const cycle = Math.floor(y / 400);
  const yearOfCycle = y - cycle * 400;
  const dayOfYear = Math.floor((153 * (month > 2 ? month - 3 : month + 9) + 2) / 5) + day - 1;
  const dayOfCycle = yearOfCycle * 365 + Math.floor(yearOfCycle / 4) - Math.floor(yearOfCycle / 100) + dayOfYear;
  return cycle * 146097 + dayOfCycle - 719468;
}

/** A date of the Gregorian calendar: month 1…12, day 1…31. */
export interface CivilDate {
  readonly year: number;
  readonly month: number;
  readonly day: number;
}

/**
 * The date that stands a number of days after 1970-01-01: `dayNumber` turned round.
 *
 * @param days whole days, negative before 1970
 * @example civilDate(19783) // { year: 2024, month: 3, day: 1 }
 * @source as dayNumber
 */
export function civilDate(days: number): CivilDate {
  const shifted = days + 719468;
  const cycle = Math.floor(shifted / 146097);
  const dayOfCycle = shifted - cycle * 146097;
  const leaps = Math.floor(dayOfCycle / 1460) - Math.floor(dayOfCycle / 36524) + Math.floor(dayOfCycle / 146096);
  const yearOfCycle = Math.floor((dayOfCycle - leaps) / 365);
  const dayOfYear = dayOfCycle - (365 * yearOfCycle + Math.floor(yearOfCycle / 4) - Math.floor(yearOfCycle / 100));
  const shiftedMonth = Math.floor((5 * dayOfYear + 2) / 153);
  const day = dayOfYear - Math.floor((153 * shiftedMonth + 2) / 5) + 1;
  const month = shiftedMonth < 10 ? shiftedMonth + 3 : shiftedMonth - 9;
  return { year: yearOfCycle + cycle * 400 + (month <= 2 ? 1 : 0), month, day };
}

/** Whether a year of the Gregorian calendar has a 29 February. */
export function isLeapYear(year: number): boolean {
  return year % 4 === 0 && (year % 100 !== 0 || year % 400 === 0);
}

/**
 * Days of a month of the Gregorian calendar.
 *
 * @param month 1…12
 * @example daysInMonth(2023, 2) // 28
 */
export function daysInMonth(year: number, month: number): number {
  if (month === 2) return isLeapYear(year) ? 29 : 28;
  return month === 4 || month === 6 || month === 9 || month === 11 ? 30 : 31;
}

/**
 * A civil date and time as epoch milliseconds, as if it were UTC.
 *
 * @param month  1…12
 * @param hour   0…23; 24:00:00 is the end of the day
 * @param second 0…below 60, with fraction; kept to the millisecond
 * @returns      NaN when the date or the time does not exist
 * @example civilInstant(2023, 2, 29, 0, 0, 0) // NaN
 */
export function civilInstant(year: number, month: number, day: number, hour: number, minute: number, second: number): number {
  if (!(month >= 1 && month <= 12 && day >= 1 && day <= daysInMonth(year, month))) return Number.NaN;
  const isEndOfDay = hour === 24 && minute === 0 && second === 0;
  if (!((hour >= 0 && hour <= 23) || isEndOfDay) || !(minute >= 0 && minute <= 59 && second >= 0 && second < 60)) return Number.NaN;
  return (dayNumber(year, month, day) * 1440 + hour * 60 + minute) * 60_000 + Math.round(second * 1000);
}
