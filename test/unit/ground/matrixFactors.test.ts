import { describe, expect, it } from "vitest";
import { choleskyFactor, orthogonalFactor } from "../../../lib/ground/matrixFactors.js";
import { expectClose } from "../../close.js";

const A = [
  [4, 2, -1],
  [2, 3, 0.5],
  [-1, 0.5, 6],
];
const determinant = 4 * (3 * 6 - 0.25) - 2 * (2 * 6 + 0.5) - (1 + 3);

describe("choleskyFactor", () => {
  it("solves, inverts and knows the determinant", () => {
    const factor = choleskyFactor(A);
    const x = factor.solve([1, -2, 3]);
    for (let i = 0; i < 3; i++) expectClose(A[i].reduce((s, v, j) => s + v * x[j], 0), [1, -2, 3][i], { absolute: 1e-14 });
    const inverse = factor.inverse();
    for (let i = 0; i < 3; i++) {
      for (let j = 0; j < 3; j++) expectClose(A[i].reduce((s, v, k) => s + v * inverse[k][j], 0), i === j ? 1 : 0, { absolute: 1e-14 });
    }
    expectClose(factor.logDeterminant, Math.log(determinant), { relative: 1e-13 });
    expect(inverse[0][2]).toBe(inverse[2][0]);
  });

  it("reads the lower half only, and does not care about the rows' units", () => {
    const lower = A.map((row, i) => row.map((v, j) => (j > i ? Number.NaN : v)));
    expect([...choleskyFactor(lower).solve([1, 0, 0])]).toEqual([...choleskyFactor(A).solve([1, 0, 0])]);
    const unit = [1e-9, 1, 1e12];
    const scaled = A.map((row, i) => row.map((v, j) => v * unit[i] * unit[j]));
    const x = choleskyFactor(scaled).solve([1, -2, 3].map((v, i) => v * unit[i]));
    const plain = choleskyFactor(A).solve([1, -2, 3]);
    for (let i = 0; i < 3; i++) expectClose(x[i] * unit[i], plain[i], { relative: 1e-12 });
    expectClose(choleskyFactor(scaled).logDeterminant, Math.log(determinant) + 2 * Math.log(1e3), { relative: 1e-12 });
  });

  it("takes one number and frozen rows", () => {
    const one = Object.freeze([Object.freeze([4])]);
    expect([...choleskyFactor(one).solve([8])]).toEqual([2]);
    expect(choleskyFactor(one).inverse()[0][0]).toBe(0.25);
  });

  it("refuses what the package would answer", () => {
    expect(() => choleskyFactor([[1, 2], [2, 1]])).toThrow(new RangeError("choleskyFactor: matrix must be positive definite (got row 1 leaves 0.0e+0 of its diagonal)"));
    expect(() => choleskyFactor([[1, 1], [1, 1]])).toThrow("choleskyFactor: matrix must be positive definite");
    expect(() => choleskyFactor([[0, 0], [0, 1]])).toThrow("choleskyFactor: matrix must have a positive diagonal (got 0 in row 0)");
    expect(() => choleskyFactor([[1, 0], [Number.NaN, 1]])).toThrow("choleskyFactor: matrix must be finite (got NaN in row 1, column 0)");
    expect(() => choleskyFactor(A).solve([1, 2])).toThrow("choleskyFactor: right side must have the matrix's length, 3 (got 2)");
  });
});

describe("orthogonalFactor", () => {
  it("gives a triangle with the columns' own products", () => {
    const columns = [[1, 1, 1, 1], [0, 1, 2, 4], [1, -1, 2, 0]];
    const { triangle, coefficients } = orthogonalFactor(columns, columns[0].map((_, i) => 2 * columns[0][i] - columns[1][i] + 3 * columns[2][i]));
    for (let i = 0; i < 3; i++) {
      for (let j = 0; j < 3; j++) {
        const product = columns[i].reduce((s, v, k) => s + v * columns[j][k], 0);
        expectClose(triangle.reduce((s, row) => s + row[i] * row[j], 0), product, { absolute: 1e-13 });
        if (i > j) expect(triangle[i][j]).toBe(0);
      }
    }
    for (let i = 0; i < 3; i++) expectClose(coefficients[i], [2, -1, 3][i], { absolute: 1e-13 });
  });
});
