import { describe, expect, it } from "vitest";
import { absoluteHumidity, absoluteHumidityFromVaporPressure } from "../../../lib/air/absoluteHumidity.js";
import { airDensity, virtualTemperature } from "../../../lib/air/airDensity.js";
import { altimeterSetting } from "../../../lib/air/altimeterSetting.js";
import { dewPoint, dewPointFromVaporPressure, frostPoint, frostPointFromVaporPressure } from "../../../lib/air/dewPoint.js";
import { enhancementFactor } from "../../../lib/air/enhancementFactor.js";
import { geometricHeight, geopotentialHeight } from "../../../lib/air/geopotential.js";
import { gravity } from "../../../lib/air/gravity.js";
import { heatIndex } from "../../../lib/air/heatIndex.js";
import { hypsometricThickness } from "../../../lib/air/hypsometricThickness.js";
import { mixingRatio, mixingRatioFromVaporPressure, specificHumidity } from "../../../lib/air/mixingRatio.js";
import { relativeHumidityFromDewPoint, relativeHumidityFromVaporPressure, vaporPressure } from "../../../lib/air/relativeHumidity.js";
import { saturationVaporPressure, saturationVaporPressureOverIce } from "../../../lib/air/saturationVaporPressure.js";
import { columnTemperature, seaLevelPressure, seaLevelPressureThrough } from "../../../lib/air/seaLevelPressure.js";
import { standardHeight, standardPressure, standardTemperature } from "../../../lib/air/standardAtmosphere.js";
import { psychrometricWetBulb, stullWetBulb, vaporPressureFromWetBulb } from "../../../lib/air/wetBulb.js";

/** A public routine with good arguments, and for each argument its two limits (null: none is held here). */
interface Case {
  readonly name: string;
  readonly call: (...args: number[]) => number;
  readonly good: readonly number[];
  readonly limits: readonly (readonly [string, number, number])[];
}

const T = ["temperature", -100, 100] as const;
const RH = ["relativeHumidity", 0, 105] as const;
const P = ["pressure", 200, 1200] as const;
const E = ["vaporPressure", 0, 1200] as const;
const H = ["elevation", -500, 9000] as const;

const cases: readonly Case[] = [
  { name: "saturationVaporPressure", call: (t) => saturationVaporPressure(t), good: [20], limits: [T] },
  { name: "saturationVaporPressureOverIce", call: (t) => saturationVaporPressureOverIce(t), good: [-20], limits: [["temperature", -100, 0.01]] },
  { name: "enhancementFactor", call: (p) => enhancementFactor(p), good: [1000], limits: [P] },
  { name: "vaporPressure", call: (t, rh) => vaporPressure(t, rh), good: [20, 50], limits: [T, RH] },
  { name: "relativeHumidityFromDewPoint", call: (t, d) => relativeHumidityFromDewPoint(t, d), good: [20, 9], limits: [T, ["dewPoint", -100, 100]] },
  { name: "relativeHumidityFromVaporPressure", call: (t, e) => relativeHumidityFromVaporPressure(t, e), good: [20, 9], limits: [T, E] },
  { name: "dewPoint", call: (t, rh) => dewPoint(t, rh), good: [20, 50], limits: [T, RH] },
  { name: "frostPoint", call: (t, rh) => frostPoint(t, rh), good: [-20, 50], limits: [T, RH] },
  { name: "dewPointFromVaporPressure", call: (e) => dewPointFromVaporPressure(e), good: [9], limits: [E] },
  { name: "frostPointFromVaporPressure", call: (e) => frostPointFromVaporPressure(e), good: [2], limits: [E] },
  { name: "absoluteHumidity", call: (t, rh) => absoluteHumidity(t, rh), good: [20, 50], limits: [T, RH] },
  { name: "absoluteHumidityFromVaporPressure", call: (e, t) => absoluteHumidityFromVaporPressure(e, t), good: [9, 20], limits: [E, T] },
  { name: "mixingRatio", call: (t, rh, p) => mixingRatio(t, rh, p), good: [20, 10, 1000], limits: [T, RH, P] },
  { name: "mixingRatioFromVaporPressure", call: (e, p) => mixingRatioFromVaporPressure(e, p), good: [9, 1000], limits: [["vaporPressure", 0, 1200], P] },
  { name: "specificHumidity", call: (t, rh, p) => specificHumidity(t, rh, p), good: [20, 10, 1000], limits: [T, RH, P] },
  { name: "virtualTemperature", call: (t, rh, p) => virtualTemperature(t, rh, p), good: [20, 10, 1000], limits: [T, RH, P] },
  { name: "airDensity", call: (t, rh, p) => airDensity(t, rh, p), good: [20, 10, 1000], limits: [T, RH, P] },
  { name: "vaporPressureFromWetBulb", call: (t, w, p) => vaporPressureFromWetBulb(t, w, p), good: [20, 15, 1000], limits: [["dryBulb", -100, 100], ["wetBulb", -100, 100], P] },
  { name: "psychrometricWetBulb", call: (t, rh, p) => psychrometricWetBulb(t, rh, p), good: [20, 50, 1000], limits: [T, RH, P] },
  { name: "stullWetBulb", call: (t, rh) => stullWetBulb(t, rh), good: [20, 50], limits: [["temperature", -20, 50], ["relativeHumidity", 5, 99]] },
  { name: "heatIndex", call: (t, rh) => heatIndex(t, rh), good: [30, 50], limits: [["temperature", -100, 60], RH] },
  { name: "standardPressure", call: (h) => standardPressure(h), good: [1000], limits: [["height", -1000, 11000]] },
  { name: "standardTemperature", call: (h) => standardTemperature(h), good: [1000], limits: [["height", -1000, 11000]] },
  { name: "standardHeight", call: (p) => standardHeight(p), good: [1000], limits: [["pressure", 226.3, 1139.3]] },
  { name: "geopotentialHeight", call: (h) => geopotentialHeight(h), good: [1000], limits: [["height", -5000, 80000]] },
  { name: "geometricHeight", call: (h) => geometricHeight(h), good: [1000], limits: [["height", -5000, 80000]] },
  { name: "gravity", call: (l, height) => gravity(l, { height }), good: [45, 0], limits: [["latitude", -90, 90], ["height", -500, 9000]] },
  { name: "hypsometricThickness", call: (a, b, t) => hypsometricThickness(a, b, t), good: [1000, 900, 10], limits: [["lowerPressure", 200, 1200], ["upperPressure", 200, 1200], ["meanTemperature", -100, 100]] },
  { name: "columnTemperature", call: (t, h, rh) => columnTemperature(t, h, rh), good: [20, 100, 50], limits: [T, H, RH] },
  { name: "seaLevelPressureThrough", call: (p, h, t) => seaLevelPressureThrough(p, h, t), good: [1000, 100, 20], limits: [P, H, ["temperature", -100, 300]] },
  { name: "seaLevelPressure", call: (p, h, temperature, relativeHumidity) => seaLevelPressure(p, h, { temperature, relativeHumidity }), good: [1000, 100, 20, 50], limits: [P, H, T, RH] },
  { name: "altimeterSetting", call: (p, h) => altimeterSetting(p, h), good: [1000, 100], limits: [P, H] },
];

const swapped = (good: readonly number[], i: number, value: unknown): number[] => good.map((g, k) => (k === i ? (value as number) : g));

describe.each(cases)("$name", ({ name, call, good, limits }) => {
  it("answers good arguments with a finite number", () => {
    expect(Number.isFinite(call(...good))).toBe(true);
    expect(limits.length).toBe(good.length);
  });

  limits.forEach(([argument, low, high], i) => {
    it(`${argument}: missing in is missing out`, () => {
      expect(call(...swapped(good, i, Number.NaN))).toBeNaN();
    });

    it(`${argument}: accepted at both limits, refused beyond them with its value`, () => {
      for (const edge of [low, high]) {
        // At an edge another rule may speak (more vapor than air, wet bulb above dry), never the range.
        try {
          call(...swapped(good, i, edge));
        } catch (error) {
          expect((error as Error).message).not.toMatch(/must be from/);
        }
      }
      for (const beyond of [low - 0.1, high + 0.1, Number.POSITIVE_INFINITY, Number.NEGATIVE_INFINITY]) {
        const attempt = (): number => call(...swapped(good, i, beyond));
        expect(attempt).toThrow(RangeError);
        expect(attempt).toThrow(`${name}: ${argument} must be from ${low} to ${high} `);
        expect(attempt).toThrow(`(got ${beyond} `);
      }
    });

    it(`${argument}: null and text are a TypeError`, () => {
      for (const wrong of [null, "20"]) {
        const attempt = (): number => call(...swapped(good, i, wrong));
        expect(attempt).toThrow(TypeError);
        expect(attempt).toThrow(`${name}: ${argument} must be a number (got ${wrong === null ? "null" : '"20"'})`);
      }
    });
  });
});
