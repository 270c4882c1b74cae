/**
 * How many days are still to be logged, in words.
 *
 * @param days whole number
 * @example moreDays(1) // "1 more day"
 */
export function moreDays(days: number): string {
  return `${days} more ${days === 1 ? "day" : "days"}`;
}
