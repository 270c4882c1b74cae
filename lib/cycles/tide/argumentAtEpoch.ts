import type { LineOfTide } from "./lineTable.js";

/** Zero of every fitted phase: 2000-01-01T00:00Z · epoch ms. */
export const tideEpoch = 946_684_800_000;

/**
 * Mean longitudes at the epoch · degrees: of the moon, the sun, the lunar perigee and the solar perigee.
 *
 * @source Meeus, Astronomical Algorithms, mean elements at 2000-01-01T12 (218.3165, 280.4665, 83.3532, 282.9373), moved half a
 * day back by their rates (from memory); held by a test against places of moon and sun computed with astropy
 */
const longitudes = { moon: 211.7283, sun: 279.9736, lunarPerigee: 83.2975, solarPerigee: 282.9373 };

/**
 * The astronomical argument of a line at the epoch, at longitude 0 · degrees, 0…360.
 *
 * 0 for the solar lines, whose hours count from local mean midnight. For L2 the argument is twice the mean moon's hour
 * angle, so that hours count from its upper (or lower) transit. The other lines count hours of their own day from the zero
 * of species × mean solar angle + the multiples of `lineTable`.
 */
export function argumentAtEpoch(line: LineOfTide): number {
  const sum =
    line.moon * longitudes.moon + line.sun * longitudes.sun + line.lunarPerigee * longitudes.lunarPerigee + line.solarPerigee * longitudes.solarPerigee;
  return ((sum % 360) + 360) % 360;
}
