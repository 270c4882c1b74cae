import { describe } from "vitest";
import { type AltimeterForm, altimeterSetting } from "../../lib/air/altimeterSetting.js";
import { hypsometricThickness } from "../../lib/air/hypsometricThickness.js";
import { impliedElevation } from "../../lib/air/impliedElevation.js";
import { relativeHumidityFromVaporPressure } from "../../lib/air/relativeHumidity.js";
import { columnTemperature, seaLevelPressure, seaLevelPressureThrough } from "../../lib/air/seaLevelPressure.js";
import { checkRows, type PublishedRow } from "./publishedRow.js";

const python = "computed in Python with 9.80665 and 287.05";
const rows: PublishedRow[] = [];

for (const [p1, p2, kelvin, expected] of [[1000, 500, 273.15, 5541.96], [1013.25, 850, 288.15, 1481.78], [1000, 900, 300, 925.2]] as const) {
  rows.push({ given: `thickness ${p1} to ${p2} hPa at ${kelvin} K, m`, got: () => hypsometricThickness(p1, p2, kelvin - 273.15), expected, tolerance: { absolute: 0.0051 }, why: "printed digits", source: `${python} (formula read: AMS Glossary of Meteorology, Hypsometric equation)` });
}

for (const [p, t, e, h, expected] of [[995, 10, 8, 100, 1007.023], [970, 15, 10, 320, 1007.214], [940, -5, 3, 500, 1001.36], [860, 20, 14, 1380, 1006.712]] as const) {
  const relativeHumidity = relativeHumidityFromVaporPressure(t, e);
  const given = `sea level from ${p} hPa, ${t} °C, e ${e} hPa, ${h} m`;
  const memory = "form and C_h from memory";
  rows.push(
    { given, got: () => seaLevelPressure(p, h, { temperature: t, relativeHumidity }), expected, tolerance: { absolute: 5.1e-4 }, why: "printed digits", source: `${python}; ${memory}` },
    { given: `${given}, log₁₀ form`, got: () => seaLevelPressure(p, h, { temperature: t, relativeHumidity, form: "wmo-guide" }), expected, tolerance: { absolute: 0.15 }, why: "0.01 to 0.10 hPa between the forms", source: `${python}; ${memory}; K_p read in a public source file citing the WMO guide, part I, ch. 3` },
  );
}

rows.push(
  { given: "sea level from 101226.5 Pa, 105 m, 17.19 °C, dry, hPa", got: () => seaLevelPressureThrough(1012.265, 105, columnTemperature(17.19, 105, 0)), expected: 1024.84, tolerance: { absolute: 0.01 }, why: "±1 Pa; R_d 287.05 against 287.042 is 0.3 Pa", source: "read: psychrometrics/psychrolib, tests/js/test_psychrolib_si.js" },
  { given: "highest elevation of 1013.25 hPa when 8 hPa are unknown, m", got: () => impliedElevation(1013.25, { temperatureSpread: 0 }).high, expected: 1.96 * 8 * 8.3, tolerance: { absolute: 1 }, why: "8.3 m each hPa is rounded to 0.05", source: "computed in Python: one hPa is 8.3 m near 1013 hPa, 15 °C" },
);

const settings: Record<Exclude<AltimeterForm, "smithsonian">, readonly number[]> = {
  "us-agency": [1003.723, 1014.351, 1011.645],
  "standard-atmosphere": [1003.998, 1014.632, 1011.943],
};
const stations = [[850, 1380], [900, 1000], [1000, 100]] as const;
for (const form of ["us-agency", "standard-atmosphere"] as const) {
  stations.forEach(([p, h], i) => {
    rows.push({ given: `altimeter setting of ${p} hPa at ${h} m, ${form}, hPa`, got: () => altimeterSetting(p, h, { form }), expected: settings[form][i] as number, tolerance: { absolute: 5.1e-4 }, why: "printed digits", source: form === "us-agency" ? "computed in Python; form with 0.3 hPa from memory" : "computed in Python by inverting the standard atmosphere" });
  });
}
stations.forEach(([p, h], i) => {
  rows.push({ given: `altimeter setting of ${p} hPa at ${h} m, smithsonian, hPa`, got: () => altimeterSetting(p, h), expected: settings["standard-atmosphere"][i] as number, tolerance: { absolute: 0.08 }, why: "rounded constants of the form (288 K, 0.19028): measured 0.073 hPa at 1380 m", source: "computed in Python by inverting the standard atmosphere; form read on archive.eol.ucar.edu, prescorr" });
});
rows.push({ given: "0.3 hPa between the forms at 0 m, hPa", got: () => altimeterSetting(1000, 0) - altimeterSetting(1000, 0, { form: "us-agency" }), expected: 0.3, tolerance: { absolute: 1e-9 }, why: "exact", source: "from memory" });

describe("pressure reduction, published values", () => checkRows(rows));
