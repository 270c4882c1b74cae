import { describe, expect, it } from "vitest";
import { apparentSolarHours, meanMidnight, meanSolarHours } from "../../../lib/ground/solarTime.js";
import { sunTimes } from "../../../lib/ground/sun.js";
import { sunPosition } from "../../../lib/ground/sunPosition.js";
import { expectClose } from "../../close.js";

const hour = 3600000;

describe("sunTimes", () => {
  it("gives the round whose transit is nearest, whatever the hour and the date in UTC", () => {
    for (const longitude of [-180, -122, 0, 75.5, 179]) {
      for (let h = 0; h < 72; h += 1.7) {
        const instant = Date.UTC(2024, 4, 7) + h * hour;
        const { sunrise, transit, sunset } = sunTimes(instant, 40, longitude);
        expect(Math.abs(transit - instant)).toBeLessThan(12.3 * hour); // half a mean day and the equation of time
        expect(sunrise as number).toBeLessThan(transit);
        expect(sunset as number).toBeGreaterThan(transit);
      }
    }
  });

  it("has its transit where the sundial says 12, all year", () => {
    for (let d = 0; d < 366; d += 5) {
      const { transit } = sunTimes(Date.UTC(2024, 0, 1 + d, 12), 30, 15);
      expectClose(apparentSolarHours(transit, 15), 12, { absolute: 3 / 3600 }, "two low-precision formulas: 3 s");
    }
  });

  it("knows polar day and polar night", () => {
    expect(sunTimes(Date.UTC(2024, 5, 21, 12), 80, 20)).toMatchObject({ sunrise: null, sunset: null, round: "stays up" });
    expect(sunTimes(Date.UTC(2024, 11, 21, 12), 80, 20)).toMatchObject({ sunrise: null, sunset: null, round: "stays down" });
    expect(sunTimes(Date.UTC(2024, 5, 21, 12), -90, 20).round).toBe("stays down");
    expect(sunTimes(Date.UTC(2024, 2, 20, 12), 10, 20).round).toBe("rises");
  });

  it("refuses what is no place and no time", () => {
    expect(() => sunTimes(Date.UTC(2024, 0, 1), 91, 0)).toThrow(new RangeError("sunTimes: latitude must be from -90 to 90 degrees (got 91 degrees)"));
    expect(() => sunTimes(Date.UTC(2024, 0, 1), 9, 200)).toThrow("sunTimes: longitude must be from -180 to 180 degrees (got 200 degrees)");
    expect(() => sunTimes(Number.NaN, 9, 20)).toThrow("sunTimes: instant must be");
  });
});

describe("sunPosition", () => {
  it("returns after a year, with declination between the tropics", () => {
    for (let d = 0; d < 366; d += 3) {
      const { declination, equationOfTime, distance } = sunPosition(Date.UTC(2024, 0, 1 + d));
      expect(Math.abs(declination)).toBeLessThan(23.45);
      expect(Math.abs(equationOfTime)).toBeLessThan(16.6);
      expectClose(distance, 1, { absolute: 0.0171 });
      const later = sunPosition(Date.UTC(2024, 0, 1 + d) + 365.2422 * 24 * hour);
      expectClose(later.declination, declination, { absolute: 0.01 });
      expectClose(later.equationOfTime, equationOfTime, { absolute: 0.03 });
    }
  });

  it("refuses instants outside its series", () => {
    expect(() => sunPosition(Number.NaN)).toThrow("sunPosition: instant must be");
    expect(() => sunPosition(Date.UTC(1700, 0, 1))).toThrow(RangeError);
  });
});

describe("solar time", () => {
  it("is UTC plus a quarter of a minute for each arc minute east", () => {
    const six = Date.UTC(2024, 0, 1, 6);
    expectClose(meanSolarHours(six, 110.2), 6 + 110.2 / 15, { absolute: 1e-9 });
    expectClose(meanSolarHours(six, -122.3), 6 - 122.3 / 15 + 24, { absolute: 1e-9 });
    expect([meanSolarHours(six, 0), meanSolarHours(six, -90), meanSolarHours(six, -180), meanSolarHours(six, 180)]).toEqual([6, 0, 18, 18]);
    expect(meanMidnight(six, 90)).toBe(Date.UTC(2023, 11, 31, 18));
    expect(meanMidnight(Date.UTC(1969, 11, 31, 23), 0)).toBe(Date.UTC(1969, 11, 31));
  });

  it("never leaves [0, 24)", () => {
    for (let k = 0; k < 2000; k++) {
      const longitude = -180 + 0.18007 * k;
      const midnight = meanMidnight(Date.UTC(2020, 5, 1) + 777777 * k, longitude);
      for (const instant of [midnight, Math.ceil(midnight), midnight + 24 * hour - 1]) {
        const hours = meanSolarHours(instant, longitude);
        expect(hours >= 0 && hours < 24, `${hours} h at ${longitude}`).toBe(true);
        const dial = apparentSolarHours(instant, longitude);
        expect(dial >= 0 && dial < 24).toBe(true);
      }
    }
  });

  it("refuses a longitude over 180", () => {
    expect(() => meanSolarHours(0, 181)).toThrow(new RangeError("meanSolarHours: longitude must be from -180 to 180 degrees (got 181 degrees)"));
    expect(() => meanMidnight(Number.NaN, 0)).toThrow("meanMidnight: instant must be finite (got NaN ms)");
  });
});
