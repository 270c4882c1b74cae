import { requireWithin } from "./complaint.js";

/** Where the sun stands among the stars, seen from the earth's center; degrees unless said. */
export interface SunPosition {
  /** Mean longitude L₀ · 0…360. */
  readonly meanLongitude: number;
  /** Mean anomaly M · 0…360. */
  readonly meanAnomaly: number;
  readonly eccentricity: number;
  /** Equation of center C. */
  readonly equationOfCenter: number;
  /** Apparent longitude λ, with nutation and aberration · 0…360. */
  readonly apparentLongitude: number;
  /** Distance · astronomical units. */
  readonly distance: number;
  /** Obliquity of the ecliptic, corrected for the apparent place. */
  readonly obliquity: number;
  /** −180…180. */
  readonly rightAscension: number;
  /** North positive. */
  readonly declination: number;
  /** Apparent less mean solar time · minutes · positive when a sundial is ahead of the clock. */
  readonly equationOfTime: number;
}

const degree: number = Math.PI / 180;
const j2000: number = Date.UTC(2000, 0, 1, 12);

/**
 * The sun's apparent position and the equation of time.
 *
 * Low-precision series: 0.01° in longitude, about a second in the equation of time. UTC is taken for terrestrial time; the
 * minute between them moves the declination by less than 0.0004°.
 *
 * @param instant epoch ms, UTC · 1900…2100
 * @returns       see SunPosition, frozen
 * @throws RangeError when instant is NaN or outside
 * @example sunPosition(Date.UTC(2019, 10, 3, 12)).equationOfTime // 16.438 min
 * @source Jean Meeus, Astronomical Algorithms, chapters on the sun's position and the equation of time (series from memory,
 *         held by the book's worked example and by astropy); holds within some centuries of 2000
 */
export function sunPosition(instant: number): SunPosition {
  requireWithin("sunPosition", "instant", instant, Date.UTC(1900, 0, 1), Date.UTC(2101, 0, 1), "ms");
  const t = (instant - j2000) / (36525 * 86400000);
  const meanLongitude = turned(280.46646 + t * (36000.76983 + t * 0.0003032));
  const meanAnomaly = turned(357.52911 + t * (35999.05029 - t * 0.0001537));
  const eccentricity = 0.016708634 - t * (0.000042037 + t * 0.0000001267);
  const m = meanAnomaly * degree;
  const equationOfCenter =
    (1.914602 - t * (0.004817 + t * 0.000014)) * Math.sin(m) + (0.019993 - 0.000101 * t) * Math.sin(2 * m) + 0.000289 * Math.sin(3 * m);
  const distance = (1.000001018 * (1 - eccentricity ** 2)) / (1 + eccentricity * Math.cos(m + equationOfCenter * degree));
  // The moon's node sways the equinox; this short form of nutation is the one the low-precision series goes with.
  const node = (125.04 - 1934.136 * t) * degree;
  const nutation = -0.00478 * Math.sin(node);
  const apparentLongitude = turned(meanLongitude + equationOfCenter - 0.00569 + nutation);
  const obliquity = 23.4392911 - t * (0.0130042 + t * (0.00000016 - t * 0.000000504)) + 0.00256 * Math.cos(node);
  const e = obliquity * degree;
  const l = apparentLongitude * degree;
  const rightAscension = Math.atan2(Math.cos(e) * Math.sin(l), Math.cos(l)) / degree;
  const declination = Math.asin(Math.sin(e) * Math.sin(l)) / degree;
  // 0.0057183° is aberration, which the mean sun does not have; one degree is four minutes.
  const ahead = meanLongitude - 0.0057183 - rightAscension + nutation * Math.cos(e);
  const equationOfTime = 4 * (turned(ahead + 180) - 180);
  return Object.freeze({
    meanLongitude,
    meanAnomaly,
    eccentricity,
    equationOfCenter,
    apparentLongitude,
    distance,
    obliquity,
    rightAscension,
    declination,
    equationOfTime,
  });
}

/** The same direction within 0…360. */
function turned(degrees: number): number {
  return ((degrees % 360) + 360) % 360;
}
