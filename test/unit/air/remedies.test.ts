import { describe, expect, it } from "vitest";
import { dewPoint, dewPointFromVaporPressure, frostPointFromVaporPressure } from "../../../lib/air/dewPoint.js";
import { geometricHeight } from "../../../lib/air/geopotential.js";
import { impliedElevation } from "../../../lib/air/impliedElevation.js";
import { gravity } from "../../../lib/air/gravity.js";
import { mixingRatioFromVaporPressure } from "../../../lib/air/mixingRatio.js";
import { vaporPressure } from "../../../lib/air/relativeHumidity.js";
import { saturationVaporPressure, saturationVaporPressureOverIce } from "../../../lib/air/saturationVaporPressure.js";
import { columnTemperature } from "../../../lib/air/seaLevelPressure.js";
import { standardHeight, standardPressure } from "../../../lib/air/standardAtmosphere.js";
import { psychrometricWetBulb, stullWetBulb } from "../../../lib/air/wetBulb.js";

/** What is refused, and the whole sentence with its remedy. */
const refusals: readonly (readonly [() => number, string])[] = [
  [() => vaporPressure(293, 50), "vaporPressure: temperature must be from -100 to 100 °C (got 293 °C); give degrees Celsius, or NaN for a missing reading"],
  [() => vaporPressure(20, 106), "vaporPressure: relativeHumidity must be from 0 to 105 % (got 106 %); give percent over liquid water, or NaN for a missing reading"],
  [() => psychrometricWetBulb(20, 50, 85000), "psychrometricWetBulb: pressure must be from 200 to 1200 hPa (got 85000 hPa); give hPa (1 hPa = 100 Pa), or NaN for a missing reading"],
  [() => dewPointFromVaporPressure(1300), "dewPointFromVaporPressure: vaporPressure must be from 0 to 1200 hPa (got 1300 hPa); give hPa (1 hPa = 100 Pa), or NaN for a missing reading"],
  [() => columnTemperature(20, 30000, 50), "columnTemperature: elevation must be from -500 to 9000 m (got 30000 m); give meters above mean sea level"],
  [() => impliedElevation(900, { temperature: 295 }).value, "impliedElevation: temperature must be from -100 to 100 °C (got 295 °C); give degrees Celsius, or NaN for a missing reading"],
  [() => gravity(91), "gravity: latitude must be from -90 to 90 ° (got 91 °); give degrees, north positive"],
  [() => geometricHeight(90000), "geometricHeight: height must be from -5000 to 80000 m (got 90000 m); give meters above mean sea level"],
  [() => standardPressure(12000), "standardPressure: height must be from -1000 to 11000 m (got 12000 m); the lowest layer of the standard atmosphere is all that is built"],
  [() => standardHeight(101325), "standardHeight: pressure must be from 226.3 to 1139.3 hPa (got 101325 hPa); give hPa (1 hPa = 100 Pa)"],
  [() => stullWetBulb(20, 3), "stullWetBulb: relativeHumidity must be from 5 to 99 % (got 3 %); use psychrometricWetBulb outside the range of the fit"],
  [() => saturationVaporPressure(150), "saturationVaporPressure: temperature must be from -100 to 100 °C (got 150 °C); give degrees Celsius, or NaN for a missing reading"],
  [() => saturationVaporPressureOverIce(-101), "saturationVaporPressureOverIce: temperature must be from -100 to 0.01 °C (got -101 °C); give degrees Celsius, or NaN for a missing reading"],
  [() => saturationVaporPressureOverIce(0.02), "saturationVaporPressureOverIce: temperature must be from -100 to 0.01 °C (got 0.02 °C); ice melts there; ask over water"],
];

describe("refusals of lib/air say what to do", () => {
  for (const [call, sentence] of refusals) it(sentence, () => expect(call).toThrow(new RangeError(sentence)));

  it("an unknown form is told by the name of the routine that was asked", () => {
    expect(() => dewPointFromVaporPressure(9, { form: "x" as "goff" })).toThrow(/^dewPointFromVaporPressure: form must be one of wmo-magnus, .*, iapws \(got "x"\)$/);
    expect(() => frostPointFromVaporPressure(2, { form: "goff" as "iapws" })).toThrow(/^frostPointFromVaporPressure: form must be one of wmo-magnus, .*, iapws \(got "goff"\)$/);
    expect(() => dewPoint(20, 50, { form: null as never })).toThrow(/^dewPoint: form must be one of .* \(got null\)$/);
  });

  it("as much vapor as air is too much", () => {
    expect(() => mixingRatioFromVaporPressure(500, 500)).toThrow(new RangeError("mixingRatioFromVaporPressure: pressure must be above the vapor pressure, 500.0 hPa (got 500 hPa)"));
    expect(Number.isFinite(mixingRatioFromVaporPressure(499.9, 500))).toBe(true);
  });
});
