import { describe, expect, it } from "vitest";
import { lag1Autocorrelation } from "../../lib/ground/lag1Autocorrelation.js";
import { mean, standardDeviation } from "../../lib/ground/summary.js";
import { csvTable } from "./csvTable.js";
import { checkRows, type PublishedRow } from "./publishedRow.js";

const source = "read in NIST Statistical Reference Datasets (StRD), univariate summary, as copied in data/nist-univariate-*.csv";
const why = "13 digits of the mean; 12 of the others, whose last digits go in the mean's own rounding (8 where the data differ in the fifth digit or later)";

const certified = [
  { name: "Lew", n: 200, mean: -177.435, deviation: 277.332168044316, lag1: -0.307304800605679, digits: 12 },
  { name: "Lottery", n: 218, mean: 518.95871559633, deviation: 291.699727470969, lag1: -0.120948622967393, digits: 12 },
  { name: "Mavro", n: 50, mean: 2.001856, deviation: 0.000429123454003053, lag1: 0.937989183438248, digits: 10 },
  { name: "Michelso", n: 100, mean: 299.8524, deviation: 0.0790105478190518, lag1: 0.535199668621283, digits: 11 },
];

const rows: PublishedRow[] = [];
for (const row of certified) {
  const y = csvTable(`nist-univariate-${row.name.toLowerCase()}.csv`).map((r) => Number(r.y));
  const tolerance = { relative: 10 ** -row.digits };
  rows.push({ given: `${row.name} mean`, got: () => mean(y), expected: row.mean, tolerance: { relative: 1e-13 }, why, source });
  rows.push({ given: `${row.name} standard deviation`, got: () => standardDeviation(y), expected: row.deviation, tolerance, why, source });
  rows.push({ given: `${row.name} lag-1 autocorrelation`, got: () => lag1Autocorrelation(y), expected: row.lag1, tolerance, why, source });
  rows.push({ given: `${row.name} count`, got: () => y.length, expected: row.n, tolerance: { absolute: 0 }, why: "every row was read", source });
}

/** NumAcc4 as NIST describes it: 10000000.2, then 500 times 10000000.1 and 10000000.3. */
const numAcc4 = [10000000.2, ...Array.from({ length: 1000 }, (_, i) => (i % 2 === 0 ? 10000000.1 : 10000000.3))];
const fromMemory = "from memory: how the NIST StRD set NumAcc4 is made; certified values read";
const hard = "the data themselves are rounded to 2e-9 by the machine, 2e-8 of their deviation";
rows.push({ given: "NumAcc4 mean", got: () => mean(numAcc4), expected: 10000000.2, tolerance: { relative: 1e-14 }, why: hard, source: fromMemory });
rows.push({ given: "NumAcc4 standard deviation", got: () => standardDeviation(numAcc4), expected: 0.1, tolerance: { relative: 3e-8 }, why: hard, source: fromMemory });
rows.push({ given: "NumAcc4 lag-1 autocorrelation", got: () => lag1Autocorrelation(numAcc4), expected: -0.999, tolerance: { relative: 3e-8 }, why: hard, source: fromMemory });

describe("NIST univariate summary statistics", () => {
  it("has all sets", () => expect(rows.length).toBe(19));
  checkRows(rows);
});
