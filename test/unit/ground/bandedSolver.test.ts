import { describe, expect, it } from "vitest";
import { pentadiagonalFactor } from "../../../lib/ground/bandedSolver.js";
import { random } from "../../../lib/ground/random.js";
import { expectClose } from "../../close.js";

/** Gauss on the whole matrix, with pivoting: x and ln of the determinant. */
function denseTwin(matrix: number[][], b: number[]): { x: number[]; logDeterminant: number } {
  const n = b.length;
  const a = matrix.map((row, i) => [...row, b[i]]);
  let logDeterminant = 0;
  for (let k = 0; k < n; k++) {
    let best = k;
    for (let i = k + 1; i < n; i++) if (Math.abs(a[i][k]) > Math.abs(a[best][k])) best = i;
    [a[k], a[best]] = [a[best], a[k]];
    logDeterminant += Math.log(Math.abs(a[k][k]));
    for (let i = k + 1; i < n; i++) {
      const factor = a[i][k] / a[k][k];
      for (let j = k; j <= n; j++) a[i][j] -= factor * a[k][j];
    }
  }
  const x = new Array<number>(n).fill(0);
  for (let i = n - 1; i >= 0; i--) x[i] = (a[i][n] - x.reduce((s, v, j) => (j > i ? s + a[i][j] * v : s), 0)) / a[i][i];
  return { x, logDeterminant };
}

function dense(d: number[], e: number[], f: number[]): number[][] {
  return d.map((_, i) => d.map((__, j) => (i === j ? d[i] : Math.abs(i - j) === 1 ? e[Math.min(i, j)] : Math.abs(i - j) === 2 ? f[Math.min(i, j)] : 0)));
}

describe("pentadiagonalFactor", () => {
  it("agrees with the whole matrix over seeded cases of 1 to 40 rows", () => {
    const { uniform, normal } = random(20240501);
    for (let n = 1; n <= 40; n++) {
      const e = Array.from({ length: Math.max(0, n - 1) }, normal);
      const f = Array.from({ length: Math.max(0, n - 2) }, normal);
      const d = Array.from({ length: n }, (_, i) => Math.abs(e[i] ?? 0) + Math.abs(e[i - 1] ?? 0) + Math.abs(f[i] ?? 0) + Math.abs(f[i - 2] ?? 0) + 0.1 + uniform());
      const b = Array.from({ length: n }, normal);
      const factor = pentadiagonalFactor(Object.freeze(d), e, f);
      const twin = denseTwin(dense(d, e, f), b);
      const x = factor.solve(Object.freeze(b));
      for (let i = 0; i < n; i++) expectClose(x[i], twin.x[i], { absolute: 1e-12, relative: 1e-11 }, `n ${n}, row ${i}`);
      expectClose(factor.logDeterminant, twin.logDeterminant, { absolute: 1e-11 }, `n ${n}`);
      const form = factor.forward(b).reduce((s, z, i) => s + (z * z) / factor.pivots[i], 0);
      expectClose(form, b.reduce((s, v, i) => s + v * x[i], 0), { relative: 1e-11 }, "bᵀA⁻¹b by the forward half");
    }
  });

  it("knows the determinant of the second-difference matrix, n + 1", () => {
    const n = 5000;
    const factor = pentadiagonalFactor(new Float64Array(n).fill(2), new Float64Array(n).fill(-1), new Float64Array(n));
    expectClose(factor.logDeterminant, Math.log(n + 1), { relative: 1e-10 });
    expectClose(factor.solve(Float64Array.from({ length: n }, () => 1))[0], n / 2, { relative: 1e-9 });
  });

  it("refuses what is not positive, not finite or too short", () => {
    expect(() => pentadiagonalFactor([1, 1], [2], [])).toThrow(new RangeError("pentadiagonalFactor: matrix must be positive definite and finite (got pivot -3 in row 1)"));
    expect(() => pentadiagonalFactor([1, Number.NaN], [0], [])).toThrow("pivot NaN in row 1");
    expect(() => pentadiagonalFactor([1, 1, 1], [0, 0], [Number.NaN])).toThrow("pivot NaN in row 2");
    expect(() => pentadiagonalFactor([], [], [])).toThrow("pentadiagonalFactor: diagonal must hold at least one number (got none)");
    expect(() => pentadiagonalFactor([1, 1], [], [])).toThrow("pentadiagonalFactor: first must hold 1 numbers (got 0)");
    expect(() => pentadiagonalFactor([1, 1, 1], [0, 0], [])).toThrow("pentadiagonalFactor: second must hold 1 numbers (got 0)");
    expect(() => pentadiagonalFactor([1], [], []).solve([1, 2])).toThrow("pentadiagonalFactor: right side must have the matrix's length, 1 (got 2)");
  });
});
