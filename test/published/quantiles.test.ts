import { describe, it } from "vitest";
import { chiSquareQuantile, normalQuantile, tQuantile } from "../../lib/ground/distributions.js";
import { expectClose } from "../close.js";

interface Row {
  readonly given: string;
  readonly got: number;
  readonly expected: number;
  readonly tolerance: number;
  readonly why: string;
  readonly source: string;
}

const source = "values of the usual printed tables, recomputed with scipy 1.10.1";
const why = "half of the last digit written";

function table(name: string, of: (p: number, dof: number) => number, p: number, dofs: readonly number[], values: readonly number[]): Row[] {
  return values.map((expected, i) => ({ given: `${name} ${p}, ${dofs[i]} dof`, got: of(p, dofs[i]), expected, tolerance: 6e-7, why, source }));
}

const tDofs = [1, 2, 5, 10, 20, 30, 60, 120, Infinity];
const chiDofs = [1, 2, 5, 10, 20, 30, 50, 100];

const rows: Row[] = [
  ...table("t", tQuantile, 0.975, tDofs, [12.706205, 4.302653, 2.570582, 2.228139, 2.085963, 2.042272, 2.000298, 1.97993, 1.959964]),
  ...table("t", tQuantile, 0.995, tDofs, [63.656741, 9.924843, 4.032143, 3.169273, 2.84534, 2.749996, 2.660283, 2.617421, 2.575829]),
  ...table("chi-square", chiSquareQuantile, 0.95, chiDofs, [3.841459, 5.991465, 11.070498, 18.307038, 31.410433, 43.772972, 67.504807, 124.342113]),
  ...table("chi-square", chiSquareQuantile, 0.025, chiDofs, [0.000982, 0.050636, 0.831212, 3.246973, 9.590777, 16.790772, 32.357364, 74.221927]),
  ...table("chi-square", chiSquareQuantile, 0.975, chiDofs, [5.023886, 7.377759, 12.832502, 20.483177, 34.169607, 46.979242, 71.420195, 129.561197]),
  { given: "normal 0.975", got: normalQuantile(0.975), expected: 1.959964, tolerance: 5e-7, why, source },
];

describe("quantile tables", () => {
  for (const { given, got, expected, tolerance, why: reason, source: from } of rows) {
    it(`${given} (${reason}; ${from})`, () => expectClose(got, expected, { absolute: tolerance }));
  }
});
