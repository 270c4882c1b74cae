import { describe, expect, it } from "vitest";
import { geopotentialHeight } from "../../lib/air/geopotential.js";
import { standardAtmosphere, standardHeight, standardPressure, standardTemperature } from "../../lib/air/standardAtmosphere.js";
import { csvTable } from "./csvTable.js";
import { checkRows, type PublishedRow } from "./publishedRow.js";

const ashrae = "read: psychrometrics/psychrolib, tests/js/test_psychrolib_si.js, quoting ASHRAE Handbook Fundamentals 2017; heights are geopotential";
const constants = "computed in Python from the defining constants (T₀, p₀ read: US Standard Atmosphere page, scipp.ucsc.edu; M, R*, g₀, r₀ read: public Julia module COESA)";
const millimeters = (hPa: number): number => hPa / 1.33322387415;

const rows: PublishedRow[] = [];
for (const [h, pascal, t] of [[-500, 107478, 18.2], [0, 101325, 15], [500, 95461, 11.8], [1000, 89875, 8.5], [4000, 61640, -11]] as const) {
  rows.push(
    { given: `pressure at ${h} m, hPa`, got: () => standardPressure(h), expected: pascal / 100, tolerance: { absolute: 0.01 }, why: "±1 Pa", source: ashrae },
    { given: `temperature at ${h} m, °C`, got: () => standardTemperature(h), expected: t, tolerance: { absolute: 0.1 }, why: "±0.1 °C", source: ashrae },
  );
}
for (const [h, geopotential, geometric] of [[1000, 898.746, 898.763], [2000, 794.952, 795.014], [5000, 540.199, 540.483]] as const) {
  rows.push(
    { given: `pressure at ${h} m geopotential, hPa`, got: () => standardPressure(h), expected: geopotential, tolerance: { absolute: 5.1e-4 }, why: "printed digits", source: constants },
    { given: `pressure at ${h} m geometric, hPa`, got: () => standardPressure(h, { heightIs: "geometric" }), expected: geometric, tolerance: { absolute: 5.1e-4 }, why: "printed digits", source: constants },
  );
}
rows.push(
  { given: "exponent", got: () => standardAtmosphere.exponent, expected: 5.255876, tolerance: { absolute: 5e-7 }, why: "printed digits", source: "read: US Standard Atmosphere page, scipp.ucsc.edu" },
  { given: "pressure at 1380 m, hPa", got: () => standardPressure(1380), expected: 858.086, tolerance: { absolute: 5.1e-4 }, why: "printed digits", source: constants },
  { given: "one hPa at sea level, m", got: () => standardHeight(1012.75) - standardHeight(1013.75), expected: 8.3, tolerance: { absolute: 0.05 }, why: "printed digits", source: constants },
  { given: "5000 m geometric, geopotential m", got: () => geopotentialHeight(5000), expected: 5000 / (1 + 5000 / 6356766), tolerance: { absolute: 1e-9 }, why: "definition", source: constants },
  { given: "a barometer at about 1830 m on an ordinary day, mmHg", got: () => millimeters(standardPressure(1830)), expected: 610, tolerance: { absolute: 8 }, why: "one ordinary day's weather", source: "common practice, no source" },
);

describe("standard atmosphere, published values", () => checkRows(rows));

describe("standard atmosphere, table computed apart", () => {
  const table = csvTable("standard-atmosphere.csv");
  it("agrees in every printed digit, both kinds of height, and back", () => {
    expect(table.length).toBe(56);
    for (const row of table) {
      const h = Number(row.height_m);
      const { temperature_K_at_geopotential_height: t, pressure_hPa_if_height_is_geopotential: p, pressure_hPa_if_height_is_geometric: g } = row;
      expect(Math.abs(standardTemperature(h) + 273.15 - Number(t)), `temperature at ${h} m`).toBeLessThan(5.1e-4);
      expect(Math.abs(standardPressure(h) - Number(p)), `pressure at ${h} m`).toBeLessThan(5.1e-5);
      expect(Math.abs(standardPressure(h, { heightIs: "geometric" }) - Number(g)), `pressure at ${h} m geometric`).toBeLessThan(5.1e-5);
      // Half a digit of pressure is 0.0008 m at 5000 m.
      expect(Math.abs(standardHeight(Number(p)) - h), `height of ${p} hPa`).toBeLessThan(1e-3);
      expect(Math.abs(standardHeight(Number(g), { heightIs: "geometric" }) - h), `geometric height of ${g} hPa`).toBeLessThan(1e-3);
    }
  });
});
