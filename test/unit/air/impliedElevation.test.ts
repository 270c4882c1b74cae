import { uniformFloat64 } from "pure-rand/distribution/uniformFloat64";
import { xoroshiro128plus } from "pure-rand/generator/xoroshiro128plus";
import { describe, expect, it } from "vitest";
import { impliedElevation } from "../../../lib/air/impliedElevation.js";

describe("implied elevation", () => {
  it("is a frozen Estimate in meters, in order", () => {
    const found = impliedElevation(858.086);
    expect(Object.isFrozen(found)).toBe(true);
    expect(found.unit).toBe("m");
    expect(found.level).toBe(0.95);
    expect(Math.abs(found.value - 1380)).toBeLessThan(0.01);
    expect(found.low).toBeLessThan(found.value);
    expect(found.high).toBeGreaterThan(found.value);
  });

  it("has no width when nothing is unknown", () => {
    const found = impliedElevation(900, { seaLevelSpread: 0, temperatureSpread: 0 });
    expect(found.low).toBe(found.high);
    expect(found.standardError).toBe(0);
  });

  it("takes a warm column for a higher place", () => {
    expect(impliedElevation(860, { temperature: 22 }).value).toBeGreaterThan(impliedElevation(860).value + 70);
  });

  it("answers below sea level", () => {
    const found = impliedElevation(1060);
    expect(found.value).toBeLessThan(-350);
    expect(found.standardError).toBeGreaterThan(0);
  });

  it("takes 8 hPa of weather, and 10 K without a temperature, 3 K with one", () => {
    expect(impliedElevation(860)).toEqual(impliedElevation(860, { seaLevelPressure: 1013.25, seaLevelSpread: 8, temperatureSpread: 10 }));
    expect(impliedElevation(860, { temperature: 22 })).toEqual(impliedElevation(860, { temperature: 22, temperatureSpread: 3 }));
    expect(impliedElevation(860, { temperature: 22 })).not.toEqual(impliedElevation(860, { temperature: 22, temperatureSpread: 10 }));
  });

  it("its error is the slope of its own answer in what is unknown", () => {
    for (const own of [{}, { temperature: 22 }]) {
      const at = (seaLevelPressure: number): number => impliedElevation(700, { ...own, seaLevelPressure }).value;
      const slope = (at(1015.01) - at(1014.99)) / 0.02;
      const found = impliedElevation(700, { ...own, seaLevelPressure: 1015, seaLevelSpread: 2, temperatureSpread: 0 });
      expect(Math.abs(found.standardError - 2 * slope)).toBeLessThan(1e-5 * slope);
      expect(Math.abs(found.high - found.value - 1.959964 * found.standardError)).toBeLessThan(1e-9);
    }
    // A column of one mean temperature has a height in proportion to it: 1 K of (295.15 + foot)/2.
    const warm = impliedElevation(700, { temperature: 22, seaLevelSpread: 0, temperatureSpread: 1 });
    const foot = 295.15 * (1013.25 / 700) ** (0.0065 / 0.0341631947);
    expect(Math.abs(warm.standardError - warm.value / ((295.15 + foot) / 2))).toBeLessThan(1e-5 * warm.value);
  });

  it("refuses what cannot be, missing included", () => {
    expect(() => impliedElevation(Number.NaN)).toThrow("impliedElevation: pressure must be from 200 to 1200 hPa (got NaN hPa)");
    expect(() => impliedElevation(900, { seaLevelSpread: -1 })).toThrow("impliedElevation: seaLevelSpread must be from 0 to 50 hPa (got -1 hPa)");
    expect(() => impliedElevation(900, { seaLevelPressure: 850 })).toThrow("impliedElevation: seaLevelPressure must be from 900 to 1100 hPa (got 850 hPa)");
    expect(() => impliedElevation(900, { temperatureSpread: 51 })).toThrow("impliedElevation: temperatureSpread must be from 0 to 50 K (got 51 K)");
    expect(() => impliedElevation(900, { temperature: Number.NaN })).toThrow("impliedElevation: temperature must be from -100 to 100 °C (got NaN °C)");
  });

  it("holds the true elevation in 95 % of weathers that are as it was told", () => {
    const random = xoroshiro128plus(1380);
    const normal = (): number => Math.sqrt(-2 * Math.log(1 - uniformFloat64(random))) * Math.cos(2 * Math.PI * uniformFloat64(random));
    const n = 4000;
    for (const [height, spread, kelvin] of [[20, 8, 10], [1380, 3, 3], [2500, 8, 10]] as const) {
      let held = 0;
      for (let i = 0; i < n; i++) {
        // The weather is made by the barometric formula of a whole column, not by the inverse that is tested.
        const seaLevel = 1013.25 + spread * normal();
        const shift = kelvin * normal();
        const foot = 288.15 + shift;
        const reading = seaLevel * (1 - (0.0065 * height) / foot) ** 5.255876;
        const found = impliedElevation(reading, { seaLevelSpread: spread, temperatureSpread: kelvin });
        if (found.low <= height && height <= found.high) held++;
      }
      // Binomial: three standard errors of 4000 draws are 1.03 %.
      expect(held / n, `${height} m`).toBeGreaterThan(0.9395);
      expect(held / n, `${height} m`).toBeLessThan(0.9605);
    }
  });
});
