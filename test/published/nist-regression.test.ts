import { describe, expect, it } from "vitest";
import { leastSquares } from "../../lib/ground/leastSquares.js";
import { choleskyFactor } from "../../lib/ground/matrixFactors.js";
import { csvTable } from "./csvTable.js";
import { checkRows, type PublishedRow } from "./publishedRow.js";

const source = "read in NIST Statistical Reference Datasets (StRD), linear regression, as copied in data/nist-regression-*.csv";
const certified = csvTable("nist-regression-certified.csv");

/** Digits of agreement asked of coefficients, and of standard errors and residual deviation. */
const sets = [
  { name: "Norris", degree: 1, digits: 10, errorDigits: 10 },
  { name: "Longley", degree: 0, digits: 8, errorDigits: 8 },
  { name: "Filip", degree: 10, digits: 6, errorDigits: 6 },
  { name: "Wampler1", degree: 5, digits: 8, errorDigits: 8 },
  { name: "Wampler2", degree: 5, digits: 8, errorDigits: 8 },
  { name: "Wampler3", degree: 5, digits: 6, errorDigits: 8 },
  { name: "Wampler4", degree: 5, digits: 6, errorDigits: 8 },
  { name: "Wampler5", degree: 5, digits: 6, errorDigits: 8 },
] as const;

/** Raw powers of x, or Longley's six columns: nothing is centered, so that the routine carries the difficulty. */
function problem(name: string, degree: number): { y: number[]; columns: number[][] } {
  const table = csvTable(`nist-regression-${name.toLowerCase()}.csv`);
  const y = table.map((row) => Number(row.y));
  const columns =
    name === "Longley"
      ? [y.map(() => 1), ...[1, 2, 3, 4, 5, 6].map((k) => table.map((row) => Number(row[`x${k}`])))]
      : Array.from({ length: degree + 1 }, (_, k) => table.map((row) => Number(row.x) ** k));
  return { y, columns };
}

const normal = (columns: number[][]): number[][] => columns.map((a) => columns.map((b) => a.reduce((sum, v, i) => sum + v * b[i], 0)));

const rows: PublishedRow[] = [];
for (const { name, degree, digits, errorDigits } of sets) {
  const { y, columns } = problem(name, degree);
  const fit = leastSquares(columns, y);
  const all = certified.filter((row) => row.dataset === name);
  const why = `${digits} digits of coefficients, ${errorDigits} of errors (common practice for this set); 0 means exact data, so errors near the rounding of y`;
  const bound = (wanted: number, d: number): { relative: number; absolute: number } => ({ relative: 10 ** -d, absolute: wanted === 0 ? 10 ** -d : 0 });
  for (const row of all) {
    const wanted = Number(row.estimate);
    const k = Number(row.parameter.slice(1));
    if (/^B\d+$/.test(row.parameter)) {
      const error = Number(row.standard_deviation);
      rows.push({ given: `${name} ${row.parameter}`, got: () => fit.coefficients[k], expected: wanted, tolerance: bound(wanted, digits), why, source });
      rows.push({ given: `${name} ${row.parameter} standard error`, got: () => fit.standardErrors[k], expected: error, tolerance: bound(error, errorDigits), why, source });
    } else if (row.parameter === "residual standard deviation") {
      rows.push({ given: `${name} residual deviation`, got: () => Math.sqrt(fit.residualVariance), expected: wanted, tolerance: bound(wanted, errorDigits), why, source });
    } else {
      const mean = y.reduce((a, b) => a + b, 0) / y.length;
      const total = y.reduce((sum, v) => sum + (v - mean) ** 2, 0);
      const got = (): number => 1 - (fit.residualVariance * fit.degreesOfFreedom) / total;
      rows.push({ given: `${name} R squared`, got, expected: wanted, tolerance: { relative: 10 ** -errorDigits }, why, source });
    }
  }
}

describe("NIST linear regression, raw columns", () => {
  it("has every certified number", () => expect(rows.length).toBe(2 * certified.filter((r) => r.parameter.startsWith("B")).length + 2 * sets.length));
  checkRows(rows);
});

describe("NIST linear regression, normal equations", () => {
  it("are refused for Filip, whose answer they would lose", () => {
    expect(() => choleskyFactor(normal(problem("Filip", 10).columns))).toThrow("choleskyFactor: matrix must be positive definite");
  });

  it("are carried for Norris", () => {
    const { y, columns } = problem("Norris", 1);
    const right = columns.map((a) => a.reduce((sum, v, i) => sum + v * y[i], 0));
    const slope = choleskyFactor(normal(columns)).solve(right)[1];
    expect(Math.abs(slope / 1.00211681802045 - 1)).toBeLessThan(1e-10);
  });
});
