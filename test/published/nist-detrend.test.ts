import { describe } from "vitest";
import { detrend } from "../../lib/grid/detrend.js";
import { csvTable } from "./csvTable.js";
import { checkRows, type PublishedRow } from "./publishedRow.js";

const source = "read in NIST Statistical Reference Datasets (StRD), linear regression, as copied in data/nist-regression-*.csv";
const certified = csvTable("nist-regression-certified.csv");

const rows: PublishedRow[] = [];
for (const [name, degree] of [["Norris", 1], ["Wampler1", 5], ["Wampler2", 5], ["Wampler3", 5], ["Wampler4", 5], ["Wampler5", 5]] as const) {
  const table = csvTable(`nist-regression-${name.toLowerCase()}.csv`);
  const [x, y] = [table.map((row) => Number(row.x)), table.map((row) => Number(row.y))];
  const of = (parameter: string): number => Number(certified.find((row) => row.dataset === name && row.parameter === parameter)?.estimate);
  const { trend, values } = detrend(y, x, { degree });
  const largest = Math.max(...y.map(Math.abs));
  // The certified polynomial at every x: what is taken out, whatever the coefficients are called inside.
  x.forEach((t, i) => {
    const expected = Array.from({ length: degree + 1 }, (_, k) => of(`B${k}`)).reduceRight((sum, b) => sum * t + b, 0);
    rows.push({ given: `${name} at ${t}`, got: () => trend[i], expected, tolerance: { absolute: 1e-9 * largest }, why: "nine digits of the largest value (common practice for these sets: 6 to 10 of the coefficients)", source });
  });
  const deviation = of("residual standard deviation");
  rows.push({
    given: `${name} residual standard deviation`,
    got: () => Math.sqrt(values.reduce((sum, v) => sum + v * v, 0) / (x.length - degree - 1)),
    expected: deviation,
    tolerance: { relative: 1e-8, absolute: 1e-9 * largest },
    why: "eight digits; 0 means exact data, so rounding of the largest value is left",
    source,
  });
}

describe("detrend on NIST's regression sets", () => checkRows(rows));
