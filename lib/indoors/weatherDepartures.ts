import { withoutCycles } from "./withoutCycles.js";

/** Half of the running mean · h: 60 before, 60 after, and the hour itself. */
const halfWindow = 60;

/**
 * Departures from the 5-day running mean: the weather of hours to days, without cycle, season and slow drift.
 *
 * The variance of plain values grows with the length of the record and with the season; that of these departures does not.
 *
 * @param values any unit · hourly · [n], hour 0 a midnight · NaN allowed outside the mask
 * @param mask   hours that count · [n] · 1 counts
 * @returns      [n] · NaN outside the mask
 * @throws RangeError as withoutCycles
 * @example weatherDepartures(outside, mask)[100] // K from the mean of hours 40…160
 * @source centered 121-hour mean over present hours; indoors README
 */
export function weatherDepartures(values: ArrayLike<number>, mask: Uint8Array): Float64Array {
  const left = withoutCycles(values, mask);
  const n = left.length;
  const sums = new Float64Array(n + 1);
  const counts = new Float64Array(n + 1);
  for (let h = 0; h < n; h++) {
    sums[h + 1] = sums[h] + (mask[h] === 1 ? left[h] : 0);
    counts[h + 1] = counts[h] + mask[h];
  }
  return left.map((v, h) => {
    const from = Math.max(0, h - halfWindow);
    const to = Math.min(n, h + halfWindow + 1);
    return mask[h] === 1 ? v - (sums[to] - sums[from]) / (counts[to] - counts[from]) : Number.NaN;
  });
}
