import { describe } from "vitest";
import { toHouse, unitsRead } from "../../lib/ground/units.js";
import { checkRows, type PublishedRow } from "./publishedRow.js";

const udunits = "read: UDUNITS-2 unit definitions (conventional mercury 13595.10 kg/m3, standard gravity)";
const computed = "computed in Python from UDUNITS-2 definitions";
const exact = { relative: 1e-12 };
const digits = "printed digits";

const rows: PublishedRow[] = [];
function add(value: number, unit: string, expected: number, tolerance: PublishedRow["tolerance"], why: string, source: string): void {
  rows.push({ given: `${value} ${unit} in the house unit`, got: () => toHouse(value, unitsRead[unit]), expected, tolerance, why, source });
}

add(1, "mmHg", 1.33322387415, { absolute: 5e-12 }, digits, `${udunits}; also primidi.com`);
add(1, "inHg", 33.86388640341, { absolute: 5e-12 }, digits, computed);
add(29.92, "inHg", 1013.2075, { absolute: 5.1e-5 }, digits, computed);
add(29.92126, "inHg", 1013.25, { absolute: 2e-4 }, "half the last digit of 29.92126 inHg is 1.7e-4 hPa", computed);
add(759.99989, "mmHg", 1013.25, { absolute: 1e-5 }, "half the last digit of 759.99989 mmHg is 7e-6 hPa", computed);
add(30, "inHg", 1015.9166, { absolute: 5.1e-5 }, digits, computed);
add(101325, "Pa", 1013.25, exact, "exact but for the last bit", udunits);
add(101.325, "kPa", 1013.25, exact, "exact but for the last bit", udunits);
add(1013.25, "mbar", 1013.25, exact, "exact", udunits);
add(32, "degF", 0, { absolute: 1e-12 }, "exact", "read: UDUNITS-2, degree Fahrenheit is degree Rankine at 459.67");
add(212, "degF", 100, exact, "exact but for the last bit", "read: UDUNITS-2, degree Fahrenheit is degree Rankine at 459.67");
add(-40, "degF", -40, exact, "exact but for the last bit", "read: UDUNITS-2, degree Fahrenheit is degree Rankine at 459.67");
add(273.15, "K", 0, { absolute: 1e-12 }, "exact", "read: UDUNITS-2, degree Celsius is kelvin at 273.15");
add(0.5, "1", 50, exact, "exact", "read: UDUNITS-2, percent is 0.01");

describe("units: house values", () => checkRows(rows));
