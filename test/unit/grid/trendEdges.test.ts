import { describe, expect, it } from "vitest";
import { detrend } from "../../../lib/grid/detrend.js";
import { expectClose } from "../../close.js";

describe("detrend at its edges", () => {
  it("takes a straight line unless told otherwise, and says which degree it took", () => {
    const line = detrend([1, 3, 5.5], [0, 1, 2]);
    expect(line.degree).toBe(1);
    expect(detrend([1, 3, 5.5], [0, 1, 2], {}).trend).toEqual(line.trend);
    // Least squares by hand: slope (5.5 − 1)/2, mean 19/6.
    for (const [i, wanted] of [19 / 6 - 2.25, 19 / 6, 19 / 6 + 2.25].entries()) expectClose(line.trend[i], wanted, { absolute: 1e-13 });
    for (const [i, v] of [1, 3, 5.5].entries()) expectClose(line.values[i] + line.trend[i], v, { absolute: 1e-15 });
    expect(Object.isFrozen(line)).toBe(true);
  });

  it("a level alone needs one value, and is its mean, days far apart or all one", () => {
    expect([...detrend([7], [3], { degree: 0 }).trend]).toEqual([7]);
    expect([...detrend([7, Number.NaN, 9], [3, 4, 3], { degree: 0 }).trend]).toEqual([8, 8, 8]);
  });

  it("just enough values for a degree pass, one fewer is refused", () => {
    for (const degree of [1, 2, 6]) {
      const days = Array.from({ length: degree + 1 }, (_, i) => i);
      const values = days.map((t) => t ** degree);
      const left = detrend(values, days, { degree }).values;
      for (const v of left) expect(Math.abs(v)).toBeLessThan(1e-6);
      expect(() => detrend(values.slice(1), days.slice(1), { degree })).toThrow(`detrend: values must hold at least ${degree + 1} present for degree ${degree} (got ${degree})`);
    }
  });

  it("refuses times that do not tell a trend", () => {
    expect(() => detrend([1, 2, 3], [4, 4, 4])).toThrow(new RangeError("detrend: days must differ at 2 values present or more for degree 1 (got 1 of 4 to 4 d)"));
    expect(() => detrend([1, 2, 3, 4], [0, 0, 1, 1], { degree: 2 })).toThrow("detrend: days must differ at 3 values present or more for degree 2 (got 2 of 0 to 1 d)");
    // One part in 10¹⁵ of the days since 1970 is no difference, one in 10¹² is.
    expect(() => detrend([1, 2], [20000, 20000 * (1 + 1e-15)])).toThrow("differ at 2 values present");
    expect(detrend([1, 2], [20000, 20000 * (1 + 1e-12)]).values.every((v) => Math.abs(v) < 1e-6)).toBe(true);
    expect(() => detrend([1, 2], [-20000, -20000 * (1 - 1e-15)])).toThrow("differ at 2 values present");
    // Times are apart from about a millionth of half the span on, wherever they stand.
    expect(detrend([1, 2, 3], [0, 1 - 1e-6, 1], { degree: 2 }).degree).toBe(2);
    expect(() => detrend([1, 2, 3], [0, 1 - 2.4e-7, 1], { degree: 2 })).toThrow("(got 2 of 0 to 1 d)");
    expect(() => detrend([1, 2, 3, 4], [-1, 1e-9, 2e-9, 1], { degree: 3 })).toThrow("(got 3 of -1 to 1 d)");
    // The missing value's time does not count.
    expect(() => detrend([1, Number.NaN, 2], [4, 5, 4])).toThrow("got 1 of 4 to 4 d");
  });

  it("refuses a degree that is not whole, and readings and times that cannot be", () => {
    expect(() => detrend([1, 2], [0, 1], { degree: 0.5 })).toThrow(new RangeError("detrend: degree must be a whole number (got 0.5)"));
    expect(() => detrend([1, 2], [0, 1], { degree: -1 })).toThrow("detrend: degree must be from 0 to 6 (got -1)");
    expect(() => detrend([1, Infinity], [0, 1])).toThrow("detrend: values must be finite or NaN (got Infinity at index 1)");
    expect(() => detrend([1, 2], [0, Number.NaN])).toThrow("detrend: days must be finite (got NaN d at index 1)");
    expect(() => detrend([1, 2], [0, 1e61])).toThrow("detrend: days must lie within ±1e+60 (got 1e+61 at index 1)");
  });
});
