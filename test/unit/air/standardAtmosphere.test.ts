import { describe, expect, it } from "vitest";
import { altimeterSetting } from "../../../lib/air/altimeterSetting.js";
import { enhancementFactor } from "../../../lib/air/enhancementFactor.js";
import { gravity } from "../../../lib/air/gravity.js";
import { seaLevelPressureThrough } from "../../../lib/air/seaLevelPressure.js";
import { standardAtmosphere, standardHeight, standardPressure, standardTemperature } from "../../../lib/air/standardAtmosphere.js";

describe("standard atmosphere", () => {
  it("begins at sea level and takes both ends of its layer back", () => {
    expect(standardPressure(0)).toBe(1013.25);
    expect(standardHeight(1013.25)).toBe(0);
    for (const h of [-1000, 11000]) expect(Math.abs(standardHeight(standardPressure(h)) - h)).toBeLessThan(1e-7);
    expect(Object.isFrozen(standardAtmosphere)).toBe(true);
  });

  it("tells geopotential from geometric", () => {
    expect(standardPressure(2000, { heightIs: "geometric" })).toBeGreaterThan(standardPressure(2000));
    expect(standardTemperature(2000, { heightIs: "geometric" })).toBeGreaterThan(standardTemperature(2000));
    expect(standardHeight(795, { heightIs: "geometric" })).toBeGreaterThan(standardHeight(795));
  });
});

describe("options of the pressure routines", () => {
  it("refuse an unknown form, and say which there are", () => {
    expect(() => standardPressure(0, { heightIs: "map" as "geometric" })).toThrow('standardPressure: heightIs must be one of geopotential, geometric (got "map")');
    expect(() => standardHeight(1000, { heightIs: "map" as "geometric" })).toThrow(/^standardHeight: heightIs /);
    expect(() => gravity(0, { form: "x" as "wmo" })).toThrow('gravity: form must be one of wgs84, wmo (got "x")');
    expect(() => altimeterSetting(1000, 0, { form: "x" as "smithsonian" })).toThrow('altimeterSetting: form must be one of smithsonian, us-agency, standard-atmosphere (got "x")');
    expect(() => seaLevelPressureThrough(1000, 0, 0, { form: "x" as "hypsometric" })).toThrow('seaLevelPressureThrough: form must be one of hypsometric, wmo-guide (got "x")');
    expect(() => enhancementFactor(1000, { form: "x" as "wmo" })).toThrow('enhancementFactor: form must be one of wmo, buck-1981-water, buck-1981-ice (got "x")');
  });

  it("tell the reader to convert a pressure in Pa", () => {
    expect(() => altimeterSetting(101325, 0)).toThrow("altimeterSetting: pressure must be from 200 to 1200 hPa (got 101325 hPa); give hPa (1 hPa = 100 Pa), or NaN for a missing reading");
  });
});
