import { describe, expect, it } from "vitest";
import { lag1Autocorrelation } from "../../../lib/ground/lag1Autocorrelation.js";
import { mean, median, medianAbsoluteDeviation, quantile, standardDeviation } from "../../../lib/ground/summary.js";
import { expectClose } from "../../close.js";

const values = Object.freeze([7, Number.NaN, 2, 4, 4, 9, 5, 4, 5]);

describe("summary", () => {
  it("leaves missing values out", () => {
    expect(mean(values)).toBe(5);
    expect(median(values)).toBe(4.5);
    expectClose(standardDeviation(values), Math.sqrt(32 / 7), { relative: 1e-14 });
    expect(quantile(values, 0.5)).toBe(4.5);
    expect(medianAbsoluteDeviation([1, 1, Number.NaN, 2, 2, 4, 6, 9])).toBe(1);
  });

  it("draws a straight line between order statistics", () => {
    const four = Float64Array.from([4, 1, 3, 2]);
    expect([0, 0.25, 1 / 3, 0.5, 0.9, 1].map((p) => quantile(four, p))).toEqual([1, 1.75, 2, 2.5, 3.7, 4]);
    expect([...four]).toEqual([4, 1, 3, 2]);
  });

  it("says NaN where nothing is present", () => {
    for (const none of [[], [Number.NaN, Number.NaN]]) {
      for (const f of [mean, median, standardDeviation, medianAbsoluteDeviation, lag1Autocorrelation]) expect(f(none)).toBeNaN();
      expect(quantile(none, 0.3)).toBeNaN();
    }
    expect(standardDeviation([3])).toBeNaN();
    expect([mean([3]), median([3]), quantile([3], 0.9), medianAbsoluteDeviation([3])]).toEqual([3, 3, 3, 0]);
  });

  it("keeps a mean that a plain sum loses", () => {
    expectClose(mean([1e16, 1, -1e16, 1]), 0.5, { absolute: 1e-12 });
  });

  it("refuses infinity and shares outside 0…1", () => {
    expect(() => mean([1, Infinity])).toThrow(new RangeError("mean: values must be finite or NaN (got Infinity at index 1)"));
    expect(() => median([-Infinity])).toThrow("median: values must be finite or NaN (got -Infinity at index 0)");
    expect(() => quantile([1], 1.1)).toThrow("quantile: p must be from 0 to 1 (got 1.1)");
    expect(() => quantile([1], Number.NaN)).toThrow("quantile: p must be from 0 to 1 (got NaN)");
  });
});

describe("lag1Autocorrelation", () => {
  it("is the sum of neighbors' products over the sum of squares", () => {
    expectClose(lag1Autocorrelation([1, 2, 3, 4]), (0.75 - 0.25 + 0.75) / 5, { relative: 1e-14 });
    expectClose(lag1Autocorrelation([1, -1, 1, -1]), -0.75, { relative: 1e-14 });
  });

  it("pairs across no gap and scales to a full set of pairs", () => {
    // Mean 3: deviations −2, −1, gap, 0, 3; two pairs stand for three, squares sum to 14.
    expectClose(lag1Autocorrelation([1, 2, Number.NaN, 3, 6]), ((-2 * -1 + 0 * 3) / 2) * (3 / 14), { relative: 1e-14 });
    expect(lag1Autocorrelation([1, Number.NaN, 3])).toBeNaN();
    expect(lag1Autocorrelation([5, 5, 5])).toBeNaN();
  });
});
