import { describe, expect, it } from "vitest";
import { leastSquares } from "../../../lib/ground/leastSquares.js";
import { expectClose } from "../../close.js";

const ones = [1, 1, 1, 1, 1];
const x = [0, 1, 2, 3, 5];
const y = [1.1, 2.9, 5.2, 6.8, 11.1];

describe("leastSquares", () => {
  it("agrees with the line's textbook sums", () => {
    const mean = (v: number[]): number => v.reduce((a, b) => a + b, 0) / v.length;
    const sxx = x.reduce((s, v) => s + (v - mean(x)) ** 2, 0);
    const slope = x.reduce((s, v, i) => s + (v - mean(x)) * (y[i] - mean(y)), 0) / sxx;
    const level = mean(y) - slope * mean(x);
    const variance = x.reduce((s, v, i) => s + (y[i] - level - slope * v) ** 2, 0) / 3;
    const fit = leastSquares([ones, x], y);
    const bounds = { relative: 1e-12 };
    expectClose(fit.coefficients[0], level, bounds);
    expectClose(fit.coefficients[1], slope, bounds);
    expectClose(fit.residualVariance, variance, bounds);
    expectClose(fit.standardErrors[1], Math.sqrt(variance / sxx), bounds);
    expectClose(fit.standardErrors[0], Math.sqrt(variance * (1 / 5 + mean(x) ** 2 / sxx)), bounds);
    expectClose(fit.covariance[0][1], (-variance * mean(x)) / sxx, bounds);
    expectClose(fit.unitCovariance[1][1], 1 / sxx, bounds);
    expect(fit.degreesOfFreedom).toBe(3);
    for (let i = 0; i < 5; i++) expectClose(fit.residuals[i], y[i] - level - slope * x[i], { absolute: 1e-13 });
  });

  it("does not care how large a column is", () => {
    const plain = leastSquares([ones, x], y);
    const huge = leastSquares([ones, x.map((v) => v * 1e150)], y);
    const tiny = leastSquares([ones.map((v) => v * 1e-150), x], y);
    expectClose(huge.coefficients[1] * 1e150, plain.coefficients[1], { relative: 1e-12 });
    expectClose(huge.standardErrors[1] * 1e150, plain.standardErrors[1], { relative: 1e-12 });
    expectClose(tiny.coefficients[0] * 1e-150, plain.coefficients[0], { relative: 1e-12 });
  });

  it("takes frozen lists and typed arrays alike and changes neither", () => {
    const columns = Object.freeze([Object.freeze([...ones]), Float64Array.from(x)]);
    const fit = leastSquares(columns, Object.freeze([...y]));
    expect([...(columns[1] as Float64Array)]).toEqual(x);
    expect([...fit.coefficients]).toEqual([...leastSquares([ones, x], y).coefficients]);
    expect(Object.isFrozen(fit)).toBe(true);
  });

  it("refuses with a sentence", () => {
    expect(() => leastSquares([], y)).toThrow(new RangeError("leastSquares: columns must hold at least one column (got none)"));
    expect(() => leastSquares([ones, x], [1, 2])).toThrow("leastSquares: y must have more rows than the 2 columns (got 2)");
    expect(() => leastSquares([[1, 1]], y)).toThrow("leastSquares: column 0 must have the length of y, 5 (got 2)");
    expect(() => leastSquares([ones], [1, 2, Number.NaN, 4, 5])).toThrow("leastSquares: y must be finite (got NaN at index 2); drop such rows first");
    expect(() => leastSquares([ones, [0, 1, 2, Infinity, 4]], y)).toThrow("leastSquares: column 1 must be finite (got Infinity at index 3); drop such rows first");
    expect(() => leastSquares([ones, [0, 0, 0, 0, 0]], y)).toThrow("leastSquares: column 1 must hold something other than 0 (got all zeros); drop it");
  });

  it("refuses columns that are combinations of others, where the package would answer", () => {
    const refused = /leastSquares: columns must be independent \(got column 2, of which earlier columns leave \d/;
    expect(() => leastSquares([ones, x, x.map((v) => 3.3 * v)], y)).toThrow(refused);
    expect(() => leastSquares([ones, x, x.map((v) => 0.1 * v - 7)], y)).toThrow(refused);
    expect(() => leastSquares([ones, x, x.map((v, i) => v + 1e-6 * (i % 2))], y)).not.toThrow();
  });
});
