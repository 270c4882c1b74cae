/**
 * A span in the unit a person would use: `14 min`, `3.5 h`, `2.1 d`, `25.2 years`.
 *
 * @param seconds s · its sign does not count
 * @example spanInWords(-3600) // "60 min"
 */
export function spanInWords(seconds: number): string {
  const s = Math.abs(seconds);
  if (s < 90) return `${Math.round(s)} s`;
  if (s < 90 * 60) return `${Math.round(s / 60)} min`;
  if (s < 36 * 3600) return `${Number((s / 3600).toFixed(1))} h`;
  if (s < 730 * 86400) return `${Number((s / 86400).toFixed(1))} d`;
  return `${(s / 86400 / 365.2425).toFixed(1)} years`;
}
