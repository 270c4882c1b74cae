import { requireWithin } from "./complaint.js";
import { sunPosition } from "./sunPosition.js";

const day = 86400000;
const hour = 3600000;

/**
 * Hours since local mean midnight: the clock of the mean sun at a longitude, without zones or summer time.
 *
 * The tide's clock: its hour of maximum is told in it. UTC + longitude/15 h.
 *
 * @param instant   epoch ms, UTC · finite
 * @param longitude degrees, east positive · −180…180
 * @returns         h · [0, 24)
 * @throws RangeError when an argument is NaN or outside
 * @example meanSolarHours(Date.UTC(2024, 0, 1, 6), 110.2) // 13.3467 h
 * @source definition of local mean solar time
 */
export function meanSolarHours(instant: number, longitude: number): number {
  return (instant - midnightBefore("meanSolarHours", instant, longitude)) / hour;
}

/**
 * The last local mean midnight at or before an instant.
 *
 * @param instant   epoch ms, UTC · finite
 * @param longitude degrees, east positive · −180…180
 * @returns         epoch ms, UTC · not always whole
 * @throws RangeError when an argument is NaN or outside
 * @example meanMidnight(Date.UTC(2024, 0, 1, 6), 90) // 2023-12-31 18:00 UTC
 * @source definition of local mean solar time
 */
export function meanMidnight(instant: number, longitude: number): number {
  return midnightBefore("meanMidnight", instant, longitude);
}

/**
 * Hours on a sundial at a longitude: 12 when the true sun is highest.
 *
 * @param instant   epoch ms, UTC · 1900…2100
 * @param longitude degrees, east positive · −180…180
 * @returns         h · [0, 24)
 * @throws RangeError when an argument is NaN or outside
 * @example apparentSolarHours(Date.UTC(2019, 2, 20, 12, 7, 33), 0) // 12.000 h
 * @source local mean solar time plus the equation of time, see sunPosition
 */
export function apparentSolarHours(instant: number, longitude: number): number {
  const hours = meanSolarHours(instant, longitude) + sunPosition(instant).equationOfTime / 60;
  return ((hours % 24) + 24) % 24;
}

function midnightBefore(at: string, instant: number, longitude: number): number {
  requireWithin(at, "instant", instant, -Infinity, Infinity, "ms");
  requireWithin(at, "longitude", longitude, -180, 180, "degrees");
  const ahead = (longitude / 360) * day;
  const midnight = Math.floor((instant + ahead) / day) * day - ahead;
  // Rounding of an odd longitude may put it a hair after the instant.
  return Math.min(midnight, instant);
}
