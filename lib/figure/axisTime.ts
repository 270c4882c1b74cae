/**
 * A civil time as Plotly's date axes read it, to the minute; at midnight the date alone.
 *
 * @param civil epoch ms as if UTC · finite
 * @example civilText(Date.UTC(2024, 4, 3, 9, 5)) // "2024-05-03 09:05"
 */
export function civilText(civil: number): string {
  const whole = Math.round(civil / 60_000) * 60_000;
  const text = new Date(whole).toISOString();
  return whole % 86_400_000 === 0 ? text.slice(0, 10) : text.slice(0, 16).replace("T", " ");
}

/**
 * Turns instants into the record's standard time as Plotly reads it.
 *
 * @param offsetHours standard time less UTC · h
 * @returns           a function of epoch ms, UTC
 * @example standardTime(7)(Date.UTC(2024, 4, 3, 2, 5)) // "2024-05-03 09:05"
 */
export function standardTime(offsetHours: number): (at: number) => string {
  const shift = offsetHours * 3_600_000;
  return (at) => civilText(at + shift);
}
