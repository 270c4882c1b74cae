import { describe } from "vitest";
import { gravity } from "../../lib/air/gravity.js";
import { checkRows, type PublishedRow } from "./publishedRow.js";

const rows: PublishedRow[] = [];
for (const [latitude, expected] of [[0, 9.780325], [30, 9.793247], [45, 9.806198], [60, 9.819177], [90, 9.832185]] as const) {
  for (const sign of latitude === 0 ? [1] : [1, -1]) {
    rows.push(
      { given: `WGS 84 gravity at ${sign * latitude}°, m/s²`, got: () => gravity(sign * latitude), expected, tolerance: { absolute: 1e-6 }, why: "printed digits", source: "computed in Python, Somigliana (constants read in several public source files)" },
      { given: `WMO gravity at ${sign * latitude}°, m/s²`, got: () => gravity(sign * latitude, { form: "wmo" }), expected, tolerance: { absolute: 1e-5 }, why: "the older form lies within 3·10⁻⁶; a wrong sign of its last term is 1.1·10⁻⁴ off at the equator", source: "computed in Python, Somigliana (constants read in several public source files)" },
    );
  }
}
rows.push(
  { given: "WMO gravity at the equator, m/s²", got: () => gravity(0, { form: "wmo" }), expected: 9.780327, tolerance: { absolute: 5.1e-7 }, why: "printed digits: + before 0.0000058", source: "computed in Python; the + from memory, two public files print −" },
  { given: "WMO gravity at the pole, m/s²", got: () => gravity(90, { form: "wmo" }), expected: 9.832186, tolerance: { absolute: 5.1e-7 }, why: "printed digits", source: "computed in Python; the + from memory" },
  { given: "loss of gravity over 1000 m, m/s²", got: () => gravity(45) - gravity(45, { height: 1000 }), expected: 3.086e-3, tolerance: { absolute: 1e-9 }, why: "the free-air gradient itself", source: "from memory (WMO form)" },
);

describe("gravity, published values", () => checkRows(rows));
