/**
 * Hours of a day as a clock shows them; 24 and more turn over.
 *
 * @param hours h · finite
 * @returns     hours and minutes
 * @example clockTime(9.87) // 09:52
 */
export function clockTime(hours: number): string {
  const minutes = Math.round((((hours % 24) + 24) % 24) * 60) % 1440;
  return `${String(Math.floor(minutes / 60)).padStart(2, "0")}:${String(minutes % 60).padStart(2, "0")}`;
}
