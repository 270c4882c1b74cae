import { movingBackground } from "../grid/movingBackground.js";
import { withoutCycles } from "./withoutCycles.js";

/** The running mean · h: 60 before, 60 after, and the hour itself. */
const meanOver = 121;

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
  const background = movingBackground(left, meanOver);
  return left.map((v, h) => v - background[h]);
}
