/**
 * Adds hourly parts up by days; a day without a single hour that counts is NaN.
 *
 * @param parts hourly · [n], hour 0 a midnight · NaN does not count
 * @returns     [⌈n/24⌉], the last day may be a part of one
 * @example daySums([1, 1, NaN])[0] // 2
 * @source none (house rule)
 */
export function daySums(parts: ArrayLike<number>): Float64Array {
  const days: Float64Array = new Float64Array(Math.ceil(parts.length / 24)).fill(Number.NaN);
  for (let h = 0; h < parts.length; h++) {
    const v = parts[h];
    if (Number.isNaN(v)) continue;
    const k = Math.floor(h / 24);
    days[k] = Number.isNaN(days[k]) ? v : days[k] + v;
  }
  return days;
}
