import { describe } from "vitest";
import { absoluteHumidity, absoluteHumidityFromVaporPressure } from "../../lib/air/absoluteHumidity.js";
import { airConstants } from "../../lib/air/airConstants.js";
import { airDensity, virtualTemperature } from "../../lib/air/airDensity.js";
import { dewPoint, dewPointFromVaporPressure, frostPoint } from "../../lib/air/dewPoint.js";
import { enhancementFactor } from "../../lib/air/enhancementFactor.js";
import { heatIndex } from "../../lib/air/heatIndex.js";
import { mixingRatio, mixingRatioFromVaporPressure, specificHumidity } from "../../lib/air/mixingRatio.js";
import { relativeHumidityFromDewPoint, relativeHumidityFromVaporPressure, vaporPressure } from "../../lib/air/relativeHumidity.js";
import { saturationVaporPressure } from "../../lib/air/saturationVaporPressure.js";
import { psychrometricWetBulb, stullWetBulb, vaporPressureFromWetBulb } from "../../lib/air/wetBulb.js";
import { checkRows, type PublishedRow } from "./publishedRow.js";

const python = "computed in Python from the same formulas (WMO-No. 8 Magnus, R_v 461.5, R_d 287.05, ε 0.62198, f 1)";
const psychrolib = "computed with npm psychrolib 1.1.1 (thermodynamic wet bulb, Hyland–Wexler class)";
const ashrae = "read: psychrometrics/psychrolib, tests/js/test_psychrolib_si.js";
const example1 = `${ashrae}, ASHRAE example 1: dry 40 °C, wet 20 °C, 101.325 kPa gives 6.5 g/kg, dew point 7 °C, RH 14 %, 0.896 m³/kg`;
const digits = "half a unit of the last printed digit";
const other = "another formula: 0.03 °C";

const rows: PublishedRow[] = [];

// t, RH, e, dew point, frost point, Sonntag dew point, Alduchov–Eskridge dew point, absolute humidity
const points: readonly (readonly (number | null)[])[] = [
  [25, 60, 18.9603, 16.693, null, 16.702, 16.698, 13.7797],
  [20, 50, 11.663, 9.255, null, 9.274, 9.261, 8.6208],
  [30, 80, 33.8698, 26.169, null, 26.169, 26.171, 24.2094],
  [0, 80, 4.8896, -3.04, -2.682, -3.033, -3.039, 3.8788],
  [-10, 70, 2.0092, -14.439, -12.866, -14.431, -14.436, 1.6544],
  [40, 20, 14.7349, 12.78, null, 12.785, 12.794, 10.1959],
];
for (const [t, rh, e, dew, frost, sonntag, alduchov, absolute] of points as number[][]) {
  const air = `${t} °C, ${rh} %`;
  rows.push(
    { given: `vapor pressure of ${air}, hPa`, got: () => vaporPressure(t, rh), expected: e, tolerance: { absolute: 5.1e-5 }, why: digits, source: python },
    { given: `dew point of ${air}, °C`, got: () => dewPoint(t, rh), expected: dew, tolerance: { absolute: 5.1e-4 }, why: digits, source: python },
    { given: `Sonntag dew point of ${air}, °C`, got: () => dewPoint(t, rh, { form: "sonntag" }), expected: sonntag, tolerance: { absolute: 5.1e-4 }, why: digits, source: python },
    { given: `Alduchov–Eskridge dew point of ${air}, °C`, got: () => dewPoint(t, rh, { form: "alduchov-eskridge" }), expected: alduchov, tolerance: { absolute: 5.1e-4 }, why: digits, source: python },
    { given: `default dew point of ${air} against Sonntag's, °C`, got: () => dewPoint(t, rh), expected: sonntag, tolerance: { absolute: 0.03 }, why: other, source: python },
    { given: `absolute humidity of ${air}, g/m³`, got: () => absoluteHumidity(t, rh), expected: absolute, tolerance: { absolute: 5.1e-5 }, why: digits, source: python },
    { given: `relative humidity back from the dew point of ${air}, %`, got: () => relativeHumidityFromDewPoint(t, dew), expected: rh, tolerance: { absolute: 0.005 }, why: "the printed dew point's half digit is 0.004 %", source: python },
  );
  if (frost !== null) rows.push({ given: `frost point of ${air}, °C`, got: () => frostPoint(t, rh), expected: frost, tolerance: { absolute: 5.1e-4 }, why: digits, source: python });
}

// t, RH, p, mixing ratio, specific humidity, virtual temperature − temperature, density, wet bulb by psychrolib
const moist: readonly (readonly (number | null)[])[] = [
  [25, 60, 1013.25, 11.8607, 11.7217, 2.124, 1.17555, 19.471],
  [20, 50, 1013.25, 7.2426, 7.1906, 1.2811, 1.19888, 13.783],
  [20, 50, 850, 8.653, 8.5788, 1.5285, 1.00488, 13.358],
  [30, 80, 1000, 21.8049, 21.3396, 3.9317, 1.13446, 27.082],
  [40, 20, 1013.25, null, null, null, 1.12104, 22.032],
];
for (const [t, rh, p, r, q, excess, density, wet] of moist as number[][]) {
  const air = `${t} °C, ${rh} %, ${p} hPa`;
  rows.push(
    {
      given: `density of ${air}, kg/m³`,
      got: () => airDensity(t, rh, p),
      expected: density,
      // The row at 40 °C was made by psychrolib (R_d 287.042, other saturation formula): 1.9·10⁻⁵ apart.
      ...(t === 40
        ? { tolerance: { relative: 3e-5 }, why: "other gas constant and saturation formula", source: psychrolib }
        : { tolerance: { absolute: 5.1e-6 }, why: digits, source: python }),
    },
    {
      given: `wet bulb of ${air}, °C`,
      got: () => psychrometricWetBulb(t, rh, p),
      expected: wet,
      tolerance: { absolute: t === 40 ? 0.2 : 0.06 },
      why: "psychrometric against thermodynamic: measured 0.03…0.05 °C above, 0.17 °C in hot dry air",
      source: psychrolib,
    },
  );
  if (r === null) continue;
  rows.push(
    { given: `mixing ratio of ${air}, g/kg`, got: () => mixingRatio(t, rh, p), expected: r, tolerance: { absolute: 5.1e-5 }, why: digits, source: python },
    { given: `specific humidity of ${air}, g/kg`, got: () => specificHumidity(t, rh, p), expected: q, tolerance: { absolute: 5.1e-5 }, why: digits, source: python },
    { given: `virtual excess of ${air}, K`, got: () => virtualTemperature(t, rh, p) - t, expected: excess, tolerance: { absolute: 5.1e-5 }, why: digits, source: python },
    { given: `virtual excess of ${air} by T·0.61 r, K`, got: () => virtualTemperature(t, rh, p) - t, expected: (0.61 * (t + 273.15) * r) / 1000, tolerance: { relative: 0.03 }, why: "the usual approximation, 1 to 2.5 % off here", source: "read: AMS Glossary of Meteorology, Virtual temperature" },
  );
}

rows.push(
  { given: "mixing ratio of 40 °C, 20 %, 1013.25 hPa, g/kg", got: () => mixingRatio(40, 20, 1013.25), expected: 9.198, tolerance: { relative: 0.003 }, why: "other saturation formula: 0.25 %", source: psychrolib },
  { given: "mixing ratio from e 3169.7 Pa, p 95461 Pa, g/kg", got: () => (mixingRatioFromVaporPressure(31.697, 954.61) * 0.621945) / airConstants.molarRatio, expected: 21.3604, tolerance: { relative: 3e-6 }, why: "printed digits, our 0.62198 exchanged for ASHRAE's 0.621945", source: ashrae },
  { given: "the same with our ratio of molar masses, g/kg", got: () => mixingRatioFromVaporPressure(31.697, 954.61), expected: 21.3604, tolerance: { relative: 6e-5 }, why: "0.62198 against 0.621945", source: ashrae },
  { given: "dew point of 25 °C, 80 %, °C", got: () => dewPoint(25, 80), expected: 21.3094, tolerance: { absolute: 0.03 }, why: other, source: "read: psychrolib.js header" },
  { given: "dew point of 25 °C, 80 % by Hyland–Wexler, °C", got: () => dewPoint(25, 80, { form: "hyland-wexler" }), expected: 21.3094, tolerance: { absolute: 0.001 }, why: "their formula", source: "read: psychrolib.js header" },
  { given: "dry 30, wet 25, 954.61 hPa: g/kg", got: () => mixingRatioFromVaporPressure(vaporPressureFromWetBulb(30, 25, 954.61), 954.61), expected: 19.2281, tolerance: { relative: 0.005 }, why: "psychrometric against thermodynamic wet bulb: measured −0.26 %", source: ashrae },
  { given: "dry 40, wet 20: g/kg", got: () => mixingRatioFromVaporPressure(vaporPressureFromWetBulb(40, 20, 1013.25), 1013.25), expected: 6.5, tolerance: { absolute: 0.4 }, why: "printed to 0.1; psychrometric against thermodynamic: 0.17 °C of wet bulb in such dry air is 0.25 g/kg", source: example1 },
  { given: "40 °C, 14 %: g/kg", got: () => mixingRatio(40, 14, 1013.25), expected: 6.5, tolerance: { absolute: 0.33 }, why: "printed to 0.1, and the printed 14 % is ±0.5 %, 0.23 g/kg", source: example1 },
  { given: "40 °C, 14 %: dew point, °C", got: () => dewPoint(40, 14), expected: 7, tolerance: { absolute: 1 }, why: "printed to ±0.5, and ±0.5 % of humidity is 0.5 °C", source: example1 },
  { given: "40 °C, dew point 7 °C: RH, %", got: () => relativeHumidityFromDewPoint(40, 7), expected: 14, tolerance: { absolute: 1 }, why: "as printed, ±1 %", source: example1 },
  { given: "40 °C, 14 %: m³ for each kg of dry air", got: () => (1 + mixingRatio(40, 14, 1013.25) / 1000) / airDensity(40, 14, 1013.25), expected: 0.896, tolerance: { relative: 0.01 }, why: "as printed", source: example1 },
  { given: "volume of dry air at 25 °C, m³/kg", got: () => 1 / airDensity(25, 0, 1013.25), expected: 0.8443, tolerance: { relative: 0.001 }, why: "printed digits and gas constant", source: ashrae },
  { given: "density of air at 30 °C with 20 g/kg, 954.61 hPa, kg/m³", got: () => airDensity(30, relativeHumidityFromVaporPressure(30, (954.61 * 0.02) / (airConstants.molarRatio + 0.02)), 954.61), expected: 1.08412, tolerance: { relative: 3e-4 }, why: "rounded constants", source: ashrae },
  { given: "Stull wet bulb of 20 °C, 50 %", got: () => stullWetBulb(20, 50), expected: 13.699, tolerance: { absolute: 5.1e-4 }, why: digits, source: "computed in Python from the formula (formula read on calculatorlib.com)" },
  { given: "Stull wet bulb of 30 °C, 50 % (the page's own worked 21.92 is wrong)", got: () => stullWetBulb(30, 50), expected: 22.297, tolerance: { absolute: 5.1e-4 }, why: digits, source: "computed in Python from the formula (formula read on calculatorlib.com)" },
  { given: "Stull against the psychrometer, 30 °C, 50 %", got: () => stullWetBulb(30, 50), expected: psychrometricWetBulb(30, 50, 1013.25), tolerance: { absolute: 1 }, why: "the fit is good to ±1 °C near sea level", source: "from memory (Stull 2011)" },
  { given: "psychrometer 20/15 °C, 1013.25 hPa: e, hPa", got: () => vaporPressureFromWetBulb(20, 15, 1013.25), expected: 13.742, tolerance: { absolute: 5.1e-4 }, why: digits, source: "computed in Python from the WMO-No. 8 form; its coefficient from memory" },
  { given: "psychrometer 20/15 °C, 1013.25 hPa: RH, %", got: () => (100 * vaporPressureFromWetBulb(20, 15, 1013.25)) / (enhancementFactor(1013.25) * saturationVaporPressure(20)), expected: 58.6, tolerance: { absolute: 0.051 }, why: digits, source: "computed in Python from the WMO-No. 8 form; its coefficient from memory" },
  { given: "CIPM-2007 density of 20 °C, 50 %, 1013.25 hPa, kg/m³", got: () => airDensity(20, 50, 1013.25), expected: 1.199314, tolerance: { relative: 5e-4 }, why: "ideal gas against the metrological formula with 400 ppm carbon dioxide: 0.04 %", source: "computed in Python from CIPM-2007 (coefficients read in several public source files)" },
  { given: "CIPM-2007 density of 25 °C, 60 %, 1013.25 hPa, kg/m³", got: () => airDensity(25, 60, 1013.25), expected: 1.175922, tolerance: { relative: 5e-4 }, why: "ideal gas against the metrological formula with 400 ppm carbon dioxide: 0.04 %", source: "computed in Python from CIPM-2007 (coefficients read in several public source files)" },
  { given: "20 °C, 50 %: surface temperature with 80 % at it, RH there, %", got: () => relativeHumidityFromVaporPressure(12.617, vaporPressure(20, 50)), expected: 80, tolerance: { absolute: 0.005 }, why: "half a digit of 12.617 °C is 0.003 %", source: "computed in Python from WMO-No. 8; DIN 4108-2 prints 12.6 °C (read: gebaeudeforum.de)" },
  { given: "20 °C, 50 %: surface at 12.6 °C, RH there, %", got: () => relativeHumidityFromVaporPressure(12.6, vaporPressure(20, 50)), expected: 80, tolerance: { absolute: 0.35 }, why: "12.6 is rounded to 0.05 °C, 0.27 %, and ISO 13788 uses another formula", source: "read: gebaeudeforum.de, minimum thermal protection, Nov 2021 (DIN 4108-2)" },
  { given: "135.29 Pa at 20 °C, g/m³", got: () => absoluteHumidityFromVaporPressure(1.3529, 20), expected: 1, tolerance: { absolute: 5e-5 }, why: digits, source: "computed in Python, R_v 461.5" },
  { given: "3 % of humidity at 20 °C, g/m³", got: () => absoluteHumidity(20, 53) - absoluteHumidity(20, 50), expected: 0.52, tolerance: { absolute: 0.0051 }, why: digits, source: "computed in Python, R_v 461.5" },
);

// °F in and out, as the formula is published
for (const [f, rh, expected] of [[90, 50, 94.6], [100, 40, 109.26], [96, 65, 121.03], [86, 90, 105.39], [95, 10, 89.45], [80, 40, 79.58]] as const) {
  rows.push({ given: `heat index of ${f} °F, ${rh} %, °F`, got: () => heatIndex((f - 32) / 1.8, rh) * 1.8 + 32, expected, tolerance: { absolute: 0.0051 }, why: digits, source: "computed in Python (formula and rules read on wpc.ncep.noaa.gov, heat index equation)" });
}

const trade = "common practice, no source";
rows.push(
  { given: "a display at 20.3 °C, 47 % shows the dew point, °C", got: () => dewPoint(20.3, 47), expected: 8.6, tolerance: { absolute: 0.15 }, why: "display rounds to 0.1, its formula may differ", source: trade },
  { given: "a display at 15.6 °C, 66.4 % shows the dew point, °C", got: () => dewPoint(15.6, 66.4), expected: 9.4, tolerance: { absolute: 0.15 }, why: "display rounds to 0.1, its formula may differ", source: trade },
  { given: "dew point from 11.663 hPa, °C", got: () => dewPointFromVaporPressure(11.663), expected: 9.255, tolerance: { absolute: 5.1e-4 }, why: digits, source: python },
);

describe("humidity, published values", () => checkRows(rows));
