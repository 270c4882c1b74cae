import { getTimes } from "suncalc";
import { requireWithin } from "./complaint.js";

/** The sun's round at one place; instants are epoch ms, UTC. */
export interface SunTimes {
  /** Null where the sun does not cross the horizon in this round. */
  readonly sunrise: number | null;
  /** The sun highest in the sky. */
  readonly transit: number;
  readonly sunset: number | null;
  /** `rises`: it rises and sets · `stays up` · `stays down`. */
  readonly round: "rises" | "stays up" | "stays down";
}

/** Years that the package's time scale is made for. */
const firstInstant: number = Date.UTC(1900, 0, 1);
const lastInstant: number = Date.UTC(2150, 0, 1);

/**
 * Sunrise, transit and sunset of the round whose mean transit is nearest to an instant (half a day away at most, and the
 * equation of time).
 *
 * Center of the sun at −0.833°, flat horizon, no height of the observer. For a civil day at a place, ask with its local noon:
 * sunrise may then fall on the day before in UTC. Beyond 66° of latitude a refraction of a few tenths of a degree moves the
 * sunrise by minutes: do not quote it to the second.
 *
 * @param instant   epoch ms, UTC · 1900…2150
 * @param latitude  degrees, north positive · −90…90
 * @param longitude degrees, east positive · −180…180
 * @returns         see SunTimes, frozen
 * @throws RangeError when an argument is NaN or outside
 * @example sunTimes(Date.UTC(2019, 2, 20, 12), 51.4779, 0).transit // 2019-03-20 12:07:33 UTC
 * @source suncalc 2 (Meeus, Astronomical Algorithms); within 20 s of astropy 5.2.1 below 60° of latitude
 */
export function sunTimes(instant: number, latitude: number, longitude: number): SunTimes {
  requireWithin("sunTimes", "instant", instant, firstInstant, lastInstant, "ms");
  requireWithin("sunTimes", "latitude", latitude, -90, 90, "degrees");
  requireWithin("sunTimes", "longitude", longitude, -180, 180, "degrees");
  const times = getTimes(new Date(instant), latitude, longitude);
  const sunrise = times.sunrise === null ? null : times.sunrise.getTime();
  const sunset = times.sunset === null ? null : times.sunset.getTime();
  // The package asks the declination at transit once: near the polar circle only one of the two may exist.
  const rises = sunrise !== null && sunset !== null;
  const round = rises ? "rises" : times.alwaysUp === true ? "stays up" : "stays down";
  return Object.freeze({ sunrise: rises ? sunrise : null, transit: times.solarNoon.getTime(), sunset: rises ? sunset : null, round });
}
