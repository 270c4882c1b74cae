import { describe, expect, it } from "vitest";
import { dewPoint, dewPointFromVaporPressure, frostPoint, frostPointFromVaporPressure } from "../../../lib/air/dewPoint.js";
import { relativeHumidityFromDewPoint, vaporPressure } from "../../../lib/air/relativeHumidity.js";
import { type WaterForm, waterForms } from "../../../lib/air/saturationForms.js";

const forms = Object.keys(waterForms) as WaterForm[];

describe("dew point", () => {
  it("equals the temperature in saturated air, and from 100 to 105 %", () => {
    for (const form of forms) {
      for (const rh of [100, 100.1, 103, 105]) expect(20 - dewPoint(20, rh, { form })).toBeLessThan(1e-9);
      expect(dewPoint(20, 99.9, { form })).toBeLessThan(20 - 0.01);
    }
    expect(vaporPressure(20, 105)).toBe(vaporPressure(20, 100));
  });

  it("has no answer in air without vapor, nor below what a form accepts", () => {
    for (const form of forms) {
      expect(dewPoint(20, 0, { form })).toBeNaN();
      expect(dewPoint(-100, 1, { form: form === "murphy-koop" ? "goff" : form })).toBeNaN();
    }
    expect(dewPoint(-100, 1, { form: "murphy-koop" })).toBeLessThan(-100);
    expect(dewPointFromVaporPressure(0)).toBeNaN();
    expect(frostPointFromVaporPressure(0)).toBeNaN();
  });

  it("at 0.5 %, as a faulty sensor says, still answers", () => {
    expect(dewPoint(20, 0.5)).toBeLessThan(-40);
    expect(dewPoint(20, 0.5)).toBeGreaterThan(-60);
  });

  it("refuses an unknown form by name", () => {
    expect(() => dewPoint(20, 50, { form: "x" as "goff" })).toThrow(/^dewPoint: form must be one of /);
    expect(() => frostPoint(-5, 50, { form: "goff" as "iapws" })).toThrow(/^frostPoint: form must be one of wmo-magnus, sonntag/);
  });
});

describe("frost point", () => {
  it("is there below the melting point only", () => {
    expect(frostPoint(5, 65)).toBeLessThan(0);
    expect(frostPoint(5, 75)).toBeNaN();
    expect(frostPoint(0, 100)).toBe(0);
    expect(frostPointFromVaporPressure(6.2)).toBeNaN();
  });

  it("lies above the temperature in frosty fog, whose humidity over water is near 100 %", () => {
    expect(frostPoint(-10, 99)).toBeGreaterThan(-10);
    expect(frostPoint(-10, 85)).toBeLessThan(-10);
  });
});

describe("relative humidity from dew point", () => {
  it("is not cut at 100: a wall colder than the dew point condenses", () => {
    expect(relativeHumidityFromDewPoint(20, 20)).toBe(100);
    expect(relativeHumidityFromDewPoint(8, 9.255)).toBeGreaterThan(105);
  });
});
