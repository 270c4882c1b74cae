import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { absoluteHumidity } from "../../lib/air/absoluteHumidity.js";
import { airDensity, virtualTemperature } from "../../lib/air/airDensity.js";
import { altimeterSetting } from "../../lib/air/altimeterSetting.js";
import { dewPoint, dewPointFromVaporPressure, frostPoint, frostPointFromVaporPressure } from "../../lib/air/dewPoint.js";
import { geometricHeight, geopotentialHeight } from "../../lib/air/geopotential.js";
import { gravity } from "../../lib/air/gravity.js";
import { hypsometricThickness } from "../../lib/air/hypsometricThickness.js";
import { impliedElevation } from "../../lib/air/impliedElevation.js";
import { mixingRatio, specificHumidity } from "../../lib/air/mixingRatio.js";
import { relativeHumidityFromDewPoint, vaporPressure } from "../../lib/air/relativeHumidity.js";
import { type IceForm, iceForms, type WaterForm, waterForms } from "../../lib/air/saturationForms.js";
import { acceptedForm, saturationVaporPressure, saturationVaporPressureOverIce } from "../../lib/air/saturationVaporPressure.js";
import { columnTemperature, seaLevelPressureThrough } from "../../lib/air/seaLevelPressure.js";
import { standardHeight, standardPressure } from "../../lib/air/standardAtmosphere.js";
import { psychrometricWetBulb, vaporPressureFromWetBulb } from "../../lib/air/wetBulb.js";

const seeded = { seed: 20240620, numRuns: 400 };
const real = (min: number, max: number) => fc.double({ min, max, noNaN: true });
const waterForm = fc.constantFrom(...(Object.keys(waterForms) as WaterForm[]));
const iceForm = fc.constantFrom(...(Object.keys(iceForms) as IceForm[]));

describe("saturation", () => {
  it("rises with temperature, over all that a form accepts", () => {
    for (const phase of ["water", "ice"] as const) {
      for (const name of Object.keys(phase === "water" ? waterForms : iceForms)) {
        const { form, low, high } = acceptedForm("test", phase, name);
        let before = 0;
        for (let i = 0; i <= 2000; i++) {
          const now = form.pressure(low + ((high - low) * i) / 2000);
          expect(now, `${name} over ${phase} at ${low + ((high - low) * i) / 2000} °C`).toBeGreaterThan(before);
          before = now;
        }
      }
    }
  });

  it("is less over ice than over supercooled water; equal at 0 °C within 0.05 %", () => {
    fc.assert(
      fc.property(real(-40, 0), iceForm, (t, form) => {
        const ratio = saturationVaporPressureOverIce(t, { form }) / saturationVaporPressure(t, { form });
        // One pair of forms (Alduchov–Eskridge) misses by 4.5·10⁻⁴ at 0 °C itself.
        expect(ratio).toBeLessThanOrEqual(1.0005);
        if (t < -1) expect(ratio).toBeLessThan(1);
      }),
      seeded,
    );
  });
});

describe("dew and frost", () => {
  it("the dew point is never above the temperature and rises with humidity", () => {
    fc.assert(
      fc.property(real(-60, 60), real(1, 105), real(0.1, 50), waterForm, (t, rh, more, form) => {
        const dew = dewPoint(t, rh, { form });
        expect(dew).toBeLessThanOrEqual(t);
        if (rh + more < 100) expect(dewPoint(t, rh + more, { form })).toBeGreaterThan(dew);
        if (rh >= 100) expect(t - dew).toBeLessThan(1e-8);
      }),
      seeded,
    );
  });

  it("every form goes there and back: temperature, relative humidity, vapor pressure", () => {
    fc.assert(
      fc.property(real(-60, 60), real(1, 100), waterForm, (t, rh, form) => {
        expect(Math.abs(dewPointFromVaporPressure(saturationVaporPressure(t, { form }), { form }) - t)).toBeLessThan(1e-8);
        expect(Math.abs(relativeHumidityFromDewPoint(t, dewPoint(t, rh, { form }), { form }) - rh)).toBeLessThan(1e-6);
      }),
      seeded,
    );
    fc.assert(
      fc.property(real(-99, 0.01), iceForm, (t, form) => {
        expect(Math.abs(frostPointFromVaporPressure(saturationVaporPressureOverIce(t, { form }), { form }) - t)).toBeLessThan(1e-8);
      }),
      seeded,
    );
  });

  it("the forms differ by no more than the documentation tells", () => {
    for (const [lowest, most] of [[0, 0.042], [-20, 0.078], [-40, 0.12]] as const) {
      let worst = 0;
      for (let t = -20; t <= 45; t++) {
        for (let rh = 5; rh <= 100; rh += 5) {
          const dew = dewPoint(t, rh);
          if (dew < lowest) continue;
          for (const form of Object.keys(waterForms) as WaterForm[]) worst = Math.max(worst, Math.abs(dewPoint(t, rh, { form }) - dew));
        }
      }
      expect(worst, `dew points above ${lowest} °C`).toBeLessThan(most);
      expect(worst, `dew points above ${lowest} °C`).toBeGreaterThan(0.95 * most);
    }
  });

  it("goes there and back at both ends of what each form accepts", () => {
    for (const name of Object.keys(waterForms) as WaterForm[]) {
      const { low, high } = acceptedForm("test", "water", name);
      for (const t of [low, high]) {
        const e = saturationVaporPressure(t, { form: name });
        if (e > 1200) continue;
        expect(Math.abs(dewPointFromVaporPressure(e, { form: name }) - t), `${name} at ${t}`).toBeLessThan(1e-6);
      }
    }
  });

  it("below 0 °C the frost point lies at or above the dew point, at most 12 % of it nearer to 0", () => {
    fc.assert(
      fc.property(real(-50, 30), real(1, 100), (t, rh) => {
        const dew = dewPoint(t, rh);
        const frost = frostPoint(t, rh);
        if (dew < -1e-9) {
          expect(frost).toBeGreaterThanOrEqual(dew);
          expect(frost).toBeLessThan(0);
          expect(frost - dew).toBeLessThan(-0.13 * dew + 1e-9);
        } else if (dew > 0.02) expect(frost).toBeNaN();
      }),
      seeded,
    );
  });
});

describe("moist air", () => {
  const weather = [real(-40, 50), real(0, 100), real(600, 1080)] as const;

  it("specific humidity < mixing ratio, moist air is lighter than dry, virtual temperature is higher", () => {
    fc.assert(
      fc.property(...weather, (t, rh, p) => {
        expect(specificHumidity(t, rh, p)).toBeLessThanOrEqual(mixingRatio(t, rh, p));
        expect(airDensity(t, rh, p)).toBeLessThanOrEqual(airDensity(t, 0, p));
        expect(virtualTemperature(t, rh, p)).toBeGreaterThanOrEqual(t);
        // Density is that of dry air at the virtual temperature; the rounded constants differ by 2·10⁻⁵ of the vapor.
        const dry = (100 * p) / (287.05 * (virtualTemperature(t, rh, p) + 273.15));
        expect(Math.abs(airDensity(t, rh, p) / dry - 1)).toBeLessThan(5e-6);
        // The vapor in a cubic meter is the specific humidity's share of it, to the same rounding.
        expect(Math.abs(absoluteHumidity(t, rh) - specificHumidity(t, rh, p) * airDensity(t, rh, p))).toBeLessThan(5e-5 * absoluteHumidity(t, rh) + 1e-12);
      }),
      seeded,
    );
  });

  it("the wet bulb lies between dew point and temperature and solves its equation", () => {
    fc.assert(
      fc.property(real(-30, 50), real(1, 100), real(600, 1080), (t, rh, p) => {
        const wet = psychrometricWetBulb(t, rh, p);
        expect(wet).toBeLessThanOrEqual(t);
        expect(wet).toBeGreaterThanOrEqual(dewPoint(t, rh) - 1e-8);
        const factor = 1.0016 + 3.15e-6 * p - 0.074 / p;
        expect(Math.abs(vaporPressureFromWetBulb(t, wet, p) / factor - vaporPressure(t, rh))).toBeLessThan(1e-7);
        if (rh < 99) expect(psychrometricWetBulb(t, rh + 1, p)).toBeGreaterThan(wet);
      }),
      seeded,
    );
  });
});

describe("heights and pressures", () => {
  it("standard atmosphere, geopotential and altimeter go there and back", () => {
    fc.assert(
      fc.property(real(-450, 8900), real(700, 1080), (h, p) => {
        expect(Math.abs(standardHeight(standardPressure(h)) - h)).toBeLessThan(1e-7);
        expect(Math.abs(standardHeight(standardPressure(h, { heightIs: "geometric" }), { heightIs: "geometric" }) - h)).toBeLessThan(1e-7);
        expect(Math.abs(geometricHeight(geopotentialHeight(h)) - h)).toBeLessThan(1e-7);
        expect(Math.abs(altimeterSetting(standardPressure(h), h, { form: "standard-atmosphere" }) - 1013.25)).toBeLessThan(1e-8);
        expect(altimeterSetting(p, 0)).toBe(p);
      }),
      seeded,
    );
  });

  it("reduction is the hypsometric equation backwards", () => {
    fc.assert(
      fc.property(real(700, 1080), real(-400, 3000), real(-30, 35), real(0, 100), (p, h, t, rh) => {
        const column = columnTemperature(t, h, rh);
        const reduced = seaLevelPressureThrough(p, h, column);
        if (reduced <= 1200) expect(Math.abs(hypsometricThickness(reduced, p, column) - h)).toBeLessThan(1e-7);
        // With one column the reduction is a factor: the shape of the curve stays.
        expect(Math.abs(seaLevelPressureThrough(p + 1, h, column) - reduced - reduced / p)).toBeLessThan(1e-8);
      }),
      seeded,
    );
  });

  it("gravity is even in latitude, grows toward the pole, and the two forms agree", () => {
    fc.assert(
      fc.property(real(0, 89), (latitude) => {
        expect(gravity(-latitude)).toBe(gravity(latitude));
        expect(gravity(latitude + 1)).toBeGreaterThan(gravity(latitude));
        expect(Math.abs(gravity(latitude) - gravity(latitude, { form: "wmo" }))).toBeLessThan(3e-6);
      }),
      seeded,
    );
  });

  it("an implied elevation inverts the standard atmosphere and its interval grows with what is unknown", () => {
    fc.assert(
      fc.property(real(-400, 5000), real(0, 15), (h, spread) => {
        const found = impliedElevation(standardPressure(h), { seaLevelSpread: spread });
        expect(Math.abs(found.value - h)).toBeLessThan(1e-7);
        const wider = impliedElevation(standardPressure(h), { seaLevelSpread: spread + 1 });
        expect(wider.high - wider.low).toBeGreaterThan(found.high - found.low);
      }),
      seeded,
    );
  });
});
