import { describe, expect, it } from "vitest";
import { tQuantile } from "../../../lib/ground/distributions.js";
import { leastSquares } from "../../../lib/ground/leastSquares.js";
import { olsAr1 } from "../../../lib/ground/regressionAr1.js";
import { expectClose } from "../../close.js";

const day = [0, 1, 2, 3, 5, 6, 7, 11, 12, 13, 14, 15, 16, 17, 18];
const ones = day.map(() => 1);
const trend = day.map((d) => d / 10);
const y = [1, 1.4, 1.1, 0.9, 0.2, 0.4, 0.1, 1.3, 1.6, 1.9, 1.2, 1.8, 2.6, 2.2, 1.9];

/** The same by the whole matrix R, entry by entry. */
function slowTwin(columns: number[][], values: number[], days: number[]): { phi: number; gamma: number; errors: number[]; dof: number } {
  const n = values.length;
  const p = columns.length;
  const { residuals: e, unitCovariance: N } = leastSquares(columns, values);
  const square = e.reduce((s, v) => s + v * v, 0);
  let products = 0;
  let pairs = 0;
  for (let k = 1; k < n; k++) {
    if (days[k] !== days[k - 1] + 1) continue;
    products += e[k] * e[k - 1];
    pairs++;
  }
  const phi = Math.min(0.95, Math.max(0, (n * ((n * products) / ((pairs + 1) * square)) + p) / (n - 2 - 2 * p)));
  const S = columns.map((a) => columns.map((b) => a.reduce((s, v, j) => s + b.reduce((q, w, k) => q + v * w * phi ** Math.abs(days[j] - days[k]), 0), 0)));
  const NS = [...N].map((row) => columns.map((_, j) => row.reduce((s, v, k) => s + v * S[k][j], 0)));
  const gamma = square / Math.max(n - NS.reduce((s, row, j) => s + row[j], 0), 0.15 * n);
  const errors = NS.map((row, j) => Math.sqrt(gamma * row.reduce((s, v, k) => s + v * N[k][j], 0)));
  return { phi, gamma, errors, dof: Math.max(2, (n * (1 - phi)) / (1 + phi) - p) };
}

describe("olsAr1", () => {
  it("agrees with its slow twin, missing days included", () => {
    const got = olsAr1([ones, trend], Object.freeze(y), Object.freeze(day));
    const twin = slowTwin([ones, trend], y, day);
    expect(twin.phi).toBeGreaterThan(0.1);
    expectClose(got.phi, twin.phi, { relative: 1e-12 });
    expectClose(got.gamma, twin.gamma, { relative: 1e-12 });
    expectClose(got.degreesOfFreedom, twin.dof, { relative: 1e-12 });
    for (let j = 0; j < 2; j++) {
      expectClose(got.standardErrors[j], twin.errors[j], { relative: 1e-12 });
      expectClose(got.high[j], got.coefficients[j] + tQuantile(0.975, twin.dof) * twin.errors[j], { relative: 1e-12 });
      expectClose(got.low[j] + got.high[j], 2 * got.coefficients[j], { relative: 1e-12, absolute: 1e-12 });
    }
    expectClose(got.covariance[0][1], got.covariance[1][0], { relative: 1e-12 });
    expect(Object.isFrozen(got)).toBe(true);
  });

  it("does not care which day is called 0", () => {
    const moved = olsAr1([ones, trend], y, day.map((d) => d + 19000));
    expectClose(moved.standardErrors[1], olsAr1([ones, trend], y, day).standardErrors[1], { relative: 1e-12 });
  });

  it("is plain least squares' answer with wider errors when residuals remember", () => {
    const plain = leastSquares([ones, trend], y);
    const got = olsAr1([ones, trend], y, day);
    expect([...got.coefficients]).toEqual([...plain.coefficients]);
    expect(got.standardErrors[1]).toBeGreaterThan(1.2 * plain.standardErrors[1]);
  });

  it("takes a perfect fit", () => {
    const got = olsAr1([ones], ones, day);
    expect(got.gamma).toBeLessThan(1e-25);
    expectClose(got.coefficients[0], 1, { absolute: 1e-14 });
  });

  it("refuses with a sentence", () => {
    expect(() => olsAr1([ones, trend], y, [1, 2])).toThrow(new RangeError("olsAr1: day must have the length of y, 15 (got 2)"));
    expect(() => olsAr1([[1, 1, 1, 1, 1, 1], [0, 1, 2, 3, 4, 5]], [1, 2, 3, 4, 5, 7], [0, 1, 2, 3, 4, 5])).toThrow("olsAr1: y must have more than 6 rows for 2 columns (got 6)");
    expect(() => olsAr1([ones], y, day.map((d) => (d === 5 ? 3 : d)))).toThrow("olsAr1: day must be finite and increase (got 3 d at index 4)");
    expect(() => olsAr1([ones], y.map((v, i) => (i === 3 ? Number.NaN : v)), day)).toThrow("leastSquares: y must be finite (got NaN at index 3)");
  });
});
