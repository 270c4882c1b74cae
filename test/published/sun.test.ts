import { describe } from "vitest";
import { apparentSolarHours } from "../../lib/ground/solarTime.js";
import { sunTimes } from "../../lib/ground/sun.js";
import { sunPosition } from "../../lib/ground/sunPosition.js";
import { checkRows, type PublishedRow } from "./publishedRow.js";

const example = sunPosition(Date.UTC(1992, 9, 13));
const meeus =
  "read in public repository dankelley/oce-issues, 16xx/1660/1660a.R: Meeus, Astronomical Algorithms, example 24.a, 1st edition, 1992-10-13 0 h TD";
const printed = "last printed digit, and the editions' constants differ by 1e-5 degrees";

const rows: PublishedRow[] = [
  { given: "mean longitude", got: () => example.meanLongitude, expected: 201.80719, tolerance: { absolute: 2e-5 }, why: printed, source: meeus },
  { given: "mean anomaly", got: () => example.meanAnomaly, expected: 278.99396, tolerance: { absolute: 2e-5 }, why: printed, source: meeus },
  { given: "eccentricity", got: () => example.eccentricity, expected: 0.016711651, tolerance: { absolute: 2e-8 }, why: "constants of the two editions differ by 1.7e-8", source: meeus },
  { given: "equation of center", got: () => example.equationOfCenter, expected: -1.89732, tolerance: { absolute: 2e-5 }, why: printed, source: meeus },
  { given: "apparent longitude", got: () => example.apparentLongitude, expected: 199.90894, tolerance: { absolute: 2e-5 }, why: printed, source: meeus },
  { given: "distance", got: () => example.distance, expected: 0.99766, tolerance: { absolute: 6e-6 }, why: "last printed digit", source: meeus },
  { given: "obliquity", got: () => example.obliquity, expected: 23.43999, tolerance: { absolute: 1e-5 }, why: "last printed digit", source: meeus },
  { given: "right ascension", got: () => example.rightAscension, expected: -161.61919, tolerance: { absolute: 4e-5 }, why: "as the source's own test allows", source: meeus },
  { given: "declination", got: () => example.declination, expected: -7.78507, tolerance: { absolute: 4e-5 }, why: "as the source's own test allows", source: meeus },
  {
    given: "equation of time of the example, min",
    got: () => example.equationOfTime,
    expected: 13.71,
    tolerance: { absolute: 0.02 },
    why: "+13 m 42.6 s; low-precision formulas lie within 0.02 min",
    source: "read in public test EquationOfTimeTest.kt of package com.mkreidl.ephemeris, 'Meeus chap. 28'",
  },
];

const astropy = "computed with astropy 5.2.1";
for (const [month, date, expected] of [[2, 11, -14.226], [4, 15, -0.125], [5, 14, 3.636], [6, 13, -0.033], [7, 26, -6.539], [9, 1, -0.086], [11, 3, 16.453], [12, 25, 0.098]]) {
  const got = (): number => sunPosition(Date.UTC(2019, month - 1, date, 12)).equationOfTime;
  rows.push({ given: `equation of time 2019-${month}-${date} 12 UTC, min`, got, expected, tolerance: { absolute: 0.05 }, why: "low-precision formula", source: astropy });
}
for (const [month, date, expected] of [[3, 20, -0.164], [6, 21, 23.436], [12, 21, -23.434]]) {
  const got = (): number => sunPosition(Date.UTC(2019, month - 1, date, 12)).declination;
  rows.push({ given: `declination 2019-${month}-${date} 12 UTC, degrees`, got, expected, tolerance: { absolute: 0.01 }, why: "low-precision formula", source: astropy });
}

/** Day of the month before each time where it is not the row's own. */
const table: [place: string, latitude: number, longitude: number, days: [string, string, string, string][]][] = [
  ["7.1° S 110.2° E", -7.1, 110.2, [["03-20", "19 22:43:23", "04:46:51", "10:50:13"], ["06-21", "20 22:49:33", "04:40:52", "10:32:12"], ["12-21", "20 22:20:47", "04:36:57", "10:53:07"]]],
  ["47.45° N 122.30° W", 47.45, -122.3, [["03-20", "14:12:22", "20:16:39", "21 02:21:49"], ["06-21", "12:12:06", "20:11:01", "22 04:09:55"], ["12-21", "15:53:52", "20:07:16", "22 00:20:41"]]],
  ["58° N 5° W", 58, -5, [["03-20", "06:23:00", "12:27:33", "18:33:23"], ["06-21", "03:16:17", "12:21:44", "21:27:13"], ["12-21", "09:04:12", "12:17:54", "15:31:36"]]],
  ["51.4779° N 0°", 51.4779, 0, [["03-20", "06:03:37", "12:07:33", "18:12:30"], ["06-21", "03:42:42", "12:01:44", "20:20:47"], ["12-21", "08:02:54", "11:57:54", "15:52:53"]]],
];
for (const [place, latitude, longitude, days] of table) {
  for (const [date, ...times] of days) {
    const [month, own] = date.split("-").map(Number);
    const noon = Date.UTC(2019, month - 1, own, 12) - (longitude / 15) * 3600000;
    for (const [k, name] of (["sunrise", "transit", "sunset"] as const).entries()) {
      const [, other, clock] = /^(?:(\d+) )?(.*)$/.exec(times[k]) as unknown as [string, string | undefined, string];
      const instant = Date.parse(`2019-${date.slice(0, 2)}-${other ?? date.slice(3)}T${clock}Z`);
      const why = "low-precision formulas below 60° of latitude, seconds";
      rows.push({ given: `${name} at ${place} on ${date}, s of epoch`, got: () => (sunTimes(noon, latitude, longitude)[name] ?? Number.NaN) / 1000, expected: instant / 1000, tolerance: { absolute: 20 }, why, source: `${astropy}, center at −0.8333°, flat horizon` });
      if (name === "transit") {
        rows.push({ given: `sundial at ${place} at transit on ${date}, h`, got: () => apparentSolarHours(instant, longitude), expected: 12, tolerance: { absolute: 5 / 3600 }, why: "5 s: half a second of the table and low-precision formulas", source: astropy });
      }
    }
  }
}

describe("sun and solar time, published values", () => checkRows(rows));
