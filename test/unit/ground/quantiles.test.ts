import { describe, expect, it } from "vitest";
import { quantile, quantiles } from "../../../lib/ground/summary.js";
import { expectClose } from "../../close.js";

/** Ten numbers in no order, one of them twice, and a missing one. */
const values = Object.freeze([7.5, -2, 4, 4, Number.NaN, 9.25, 0, 13, 1, 6, 3]);

describe("quantiles", () => {
  it("are those of numpy, in the order asked", () => {
    // numpy 1.24.2: np.quantile([7.5, -2, 4, 4, 9.25, 0, 13, 1, 6, 3], …), the default method "linear".
    const expected: readonly (readonly [number, number])[] = [[0.9, 9.625], [0, -2], [0.05, -1.1], [0.25, 1.5], [0.5, 4], [0.75, 7.125], [0.95, 11.3125], [1, 13], [0.1, -0.2]];
    const got = quantiles(values, expected.map(([p]) => p));
    for (const [i, [p, q]] of expected.entries()) expectClose(got[i], q, { absolute: 1e-12 }, `quantile ${p}`);
  });

  it("agree with quantile, one by one, and leave values and shares as they were", () => {
    const shares = Object.freeze([1, 0.37, 0.5, 0, 0.999, 0.5]);
    const own = Float64Array.from({ length: 101 }, (_, i) => Math.sin(37 * i) * 10);
    const before = Float64Array.from(own);
    expect(quantiles(own, shares)).toEqual(shares.map((p) => quantile(own, p)));
    expect(own).toEqual(before);
  });

  it("of one value are that value, of none NaN for every share, of no share nothing", () => {
    expect(quantiles([3], [0, 0.2, 1])).toEqual([3, 3, 3]);
    expect(quantiles([], [0, 1])).toEqual([Number.NaN, Number.NaN]);
    expect(quantiles([Number.NaN], [0.5])).toEqual([Number.NaN]);
    expect(quantiles([1, 2], [])).toEqual([]);
    expect(quantiles([], [])).toEqual([]);
  });

  it("refuse a share outside 0…1, wherever it stands, and infinity by its place", () => {
    expect(() => quantiles([1], [0.5, 1.01])).toThrow(new RangeError("quantiles: shares must be from 0 to 1 (got 1.01)"));
    expect(() => quantiles([1], [-0.01])).toThrow(new RangeError("quantiles: shares must be from 0 to 1 (got -0.01)"));
    expect(() => quantiles([], [Number.NaN])).toThrow(new RangeError("quantiles: shares must be from 0 to 1 (got NaN)"));
    expect(() => quantiles([Number.NaN, 2, Infinity], [0.5])).toThrow(new RangeError("quantiles: values must be finite or NaN (got Infinity at index 2)"));
  });
});
