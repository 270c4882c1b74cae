import { describe, expect, it } from "vitest";
import { blockProducts, blockRows } from "../../../../lib/cycles/tide/blockProducts.js";
import { random } from "../../../../lib/ground/random.js";
import { expectClose } from "../../../close.js";

/** Columns of `n` rows, filled block by block from 40 on; and the same carried through in one go. */
function bothWays(columns: number, n: number) {
  const chance = random(columns);
  const x = Array.from({ length: columns }, () => Float64Array.from({ length: n }, () => chance.normal()));
  const [below1, below2, inverseD] = [0.6, 0.3, 0].map((size) => Float64Array.from({ length: 40 + n }, () => (size === 0 ? 0.5 + chance.uniform() : size * chance.uniform())));
  const z = x.map((column) => {
    const out = column.slice();
    for (let i = 0; i < n; i++) out[i] -= (i > 0 ? below1[40 + i] * out[i - 1] : 0) + (i > 1 ? below2[40 + i] * out[i - 2] : 0);
    return out;
  });
  const products = blockProducts(columns);
  const run = (): void => {
    for (let from = 0; from < n; from += blockRows) {
      const count = Math.min(blockRows, n - from);
      products.block.fill(0);
      x.forEach((column, k) => {
        products.block.set(column.subarray(from, from + count), k * blockRows);
      });
      products.add(below1, below2, inverseD, 40 + from, count);
    }
  };
  const sum = (a: number, b: number): number => z[a].reduce((s, v, i) => s + v * z[b][i] * inverseD[40 + i], 0);
  return { products, run, sum };
}

describe("blockProducts", () => {
  it.each([[1, 5], [2, 128], [3, 129], [4, 300], [5, 257]])("%d columns of %d rows: sums of products of the substituted columns", (columns, n) => {
    const { products, run, sum } = bothWays(columns, n);
    expect([products.size, products.block.length, products.sums.length]).toEqual([columns + (columns % 2), products.size * 128, products.size ** 2]);
    run();
    const check = (): void => {
      for (let a = 0; a < columns; a++) for (let b = 0; b <= a; b++) expectClose(products.sums[a * products.size + b], sum(a, b), { relative: 1e-12, absolute: 1e-11 }, `${a} against ${b}`);
      if (columns % 2 === 1) for (let b = 0; b < columns; b++) expect(products.sums[columns * products.size + b]).toBe(0);
    };
    check();
    products.clear();
    expect(products.sums.every((v) => v === 0)).toBe(true);
    run();
    check();
  });
});
