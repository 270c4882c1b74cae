import { describe, expect, it } from "vitest";
import { iceForms, waterForms } from "../../../lib/air/saturationForms.js";
import { acceptedForm, saturationVaporPressure, saturationVaporPressureOverIce } from "../../../lib/air/saturationVaporPressure.js";

describe("saturation vapor pressure", () => {
  it("takes the WMO form unless told otherwise", () => {
    expect(saturationVaporPressure(20)).toBe(saturationVaporPressure(20, { form: "wmo-magnus" }));
    expect(saturationVaporPressureOverIce(-20)).toBe(saturationVaporPressureOverIce(-20, { form: "wmo-magnus" }));
    expect(saturationVaporPressure(0)).toBe(6.112);
  });

  it("names the known forms when it gets another", () => {
    expect(() => saturationVaporPressure(20, { form: "tetens" as "goff" })).toThrow(
      'saturationVaporPressure: form must be one of wmo-magnus, sonntag, alduchov-eskridge, buck-1981, buck-1996, hyland-wexler, goff, murphy-koop, iapws (got "tetens")',
    );
    expect(() => saturationVaporPressureOverIce(-20, { form: "goff" as "iapws" })).toThrow(TypeError);
    expect(() => saturationVaporPressure(20, { form: "toString" as "goff" })).toThrow(TypeError);
  });

  it("says that ice melts", () => {
    expect(() => saturationVaporPressureOverIce(5)).toThrow("saturationVaporPressureOverIce: temperature must be from -100 to 0.01 °C (got 5 °C); ice melts there; ask over water");
  });

  it("goes as far as a form's own range where that is wider", () => {
    expect(saturationVaporPressure(180, { form: "hyland-wexler" })).toBeGreaterThan(9000);
    expect(saturationVaporPressure(-150, { form: "murphy-koop" })).toBeGreaterThan(0);
    expect(() => saturationVaporPressure(180)).toThrow(RangeError);
    expect(acceptedForm("x", "water", "iapws").high).toBe(373.946);
    expect(acceptedForm("x", "ice", "iapws").low).toBe(-223);
  });

  it("keeps its tables frozen, with a source and a sensible range in every entry", () => {
    for (const table of [waterForms, iceForms]) {
      expect(Object.isFrozen(table)).toBe(true);
      for (const form of Object.values(table)) {
        expect(Object.isFrozen(form)).toBe(true);
        expect(form.source.length).toBeGreaterThan(10);
        expect(form.from).toBeLessThan(form.to);
      }
    }
  });

  it("holds each form to the range its source gives", () => {
    const ranges = (table: Readonly<Record<string, { readonly from: number; readonly to: number }>>): unknown => Object.fromEntries(Object.entries(table).map(([name, f]) => [name, [f.from, f.to]]));
    expect(ranges(waterForms)).toEqual({
      "wmo-magnus": [-45, 60], sonntag: [-100, 100], "alduchov-eskridge": [-40, 50], "buck-1981": [-20, 50], "buck-1996": [-40, 50],
      "hyland-wexler": [0, 200], goff: [-50, 100], "murphy-koop": [-150, 59], iapws: [0.01, 373.946],
    });
    expect(ranges(iceForms)).toMatchObject({ "wmo-magnus": [-65, 0], sonntag: [-100, 0], "alduchov-eskridge": [-80, 0], "buck-1981": [-50, 0], "hyland-wexler": [-100, 0], iapws: [-223, 0.01] });
  });

  it("inverts the closed forms exactly", () => {
    for (const form of [...Object.values(waterForms), ...Object.values(iceForms)]) {
      if (form.inverse === undefined) continue;
      for (const t of [-40, -10, 0]) expect(Math.abs(form.inverse(form.pressure(t)) - t)).toBeLessThan(1e-11);
    }
  });
});
