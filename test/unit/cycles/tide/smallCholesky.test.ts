import { describe, expect, it } from "vitest";
import { factorInPlace, inverseOf, solveInPlace } from "../../../../lib/cycles/tide/smallCholesky.js";
import { expectClose } from "../../../close.js";

const _ = Number.NaN;
/** L = (2 0 0, 1 3 0, −1 2 1), so L Lᵀ = (4 2 −2, 2 10 5, −2 5 6) with determinant 36; the upper half is never read. */
const made = (): Float64Array => Float64Array.of(4, _, _, 2, 10, _, -2, 5, 6);

describe("smallCholesky", () => {
  it("the factor of a matrix made of it, and the logarithm of its determinant", () => {
    const matrix = made();
    expectClose(factorInPlace(matrix, 3), Math.log(36), { absolute: 1e-14 });
    expect(Array.from(matrix)).toEqual([2, _, _, 1, 3, _, -1, 2, 1]);
    expect(factorInPlace(Float64Array.of(9), 1)).toBe(Math.log(9));
  });

  it("solves for a right side made of 1, −2, 3", () => {
    const factor = made();
    factorInPlace(factor, 3);
    const b = Float64Array.of(4 - 4 - 6, 2 - 20 + 15, -2 - 10 + 18);
    solveInPlace(factor, 3, b);
    [1, -2, 3].forEach((v, i) => {
      expectClose(b[i], v, { absolute: 1e-13 }, `x ${i}`);
    });
  });

  it("the inverse, by minors over 36, exactly symmetric", () => {
    const factor = made();
    factorInPlace(factor, 3);
    const inverse = inverseOf(factor, 3);
    [35, -22, 30, -22, 20, -24, 30, -24, 36].forEach((v, i) => {
      expectClose(inverse[i], v / 36, { absolute: 1e-14 }, `entry ${i}`);
    });
    for (let i = 0; i < 3; i++) for (let j = 0; j < 3; j++) expect(inverse[3 * i + j]).toBe(inverse[3 * j + i]);
  });

  it("a factor of four columns comes back from its product", () => {
    const factor = [[2], [3, 5], [-4, 2, 1], [6, -1, 7, 3]];
    const at = (i: number, j: number): number => factor[i][j] ?? 0;
    const matrix = Float64Array.from({ length: 16 }, (_v, k) => (k % 4 > k >> 2 ? _ : [0, 1, 2, 3].reduce((sum, m) => sum + at(k >> 2, m) * at(k % 4, m), 0)));
    const x = [1, -2, 3, 0.5];
    const right = Float64Array.from({ length: 4 }, (_v, i) => x.reduce((sum, v, j) => sum + v * matrix[i >= j ? 4 * i + j : 4 * j + i], 0));
    expectClose(factorInPlace(matrix, 4), Math.log(900), { absolute: 1e-12 });
    for (let i = 0; i < 4; i++) for (let j = 0; j <= i; j++) expectClose(matrix[4 * i + j], at(i, j), { absolute: 1e-12 }, `${i} ${j}`);
    solveInPlace(matrix, 4, right);
    x.forEach((v, i) => {
      expectClose(right[i], v, { absolute: 1e-10 }, `x ${i}`);
    });
  });

  it("columns that cannot be told apart to eleven digits have no factor, and neither has what is not positive", () => {
    expect(factorInPlace(Float64Array.of(1, _, 1, 1 + 5e-12), 2)).toBeNaN();
    expectClose(factorInPlace(Float64Array.of(1, _, 1, 1 + 5e-11), 2), Math.log(5e-11), { relative: 1e-5 });
    // The share is of the column's own size.
    expectClose(factorInPlace(Float64Array.of(1, _, 1e-10, 1e-18), 2), Math.log(9.9e-19), { relative: 1e-3 });
    for (const bad of [[0], [-1], [_]]) expect(factorInPlace(Float64Array.from(bad), 1)).toBeNaN();
    expect(factorInPlace(Float64Array.of(1, _, 2, 1), 2)).toBeNaN();
  });
});
