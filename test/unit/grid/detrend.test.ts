import { describe, expect, it } from "vitest";
import { detrend } from "../../../lib/grid/detrend.js";
import { expectClose } from "../../close.js";

describe("detrend", () => {
  const days = Array.from({ length: 240 }, (_, i) => i / 24);
  it("takes a level, a slope, a cubic out exactly and leaves the rest", () => {
    for (const degree of [0, 1, 2, 3]) {
      const values = days.map((t) => 860 + (degree > 0 ? 0.5 * t : 0) + (degree > 1 ? -0.02 * t * t : 0) + (degree > 2 ? 0.001 * t ** 3 : 0));
      const left = detrend(values, days, { degree }).values;
      expect(Math.max(...left.map(Math.abs))).toBeLessThan(1e-9);
    }
  });
  it("is right on epoch days too, where plain normal equations lose the fit", () => {
    const epoch = days.map((t) => t + 19800);
    const left = detrend(epoch.map((t) => 3 + 2 * (t - 19800)), epoch).values;
    expect(Math.max(...left.map(Math.abs))).toBeLessThan(1e-9);
  });
  it("gives the trend also in gaps, NaN stays NaN", () => {
    const { values, trend } = detrend([1, Number.NaN, 3], [0, 1, 2]);
    expectClose(trend[1], 2, { absolute: 1e-12 });
    expect(values[1]).toBeNaN();
  });
  it("refuses", () => {
    expect(() => detrend([1], [0, 1])).toThrow("detrend: days must have the length of values, 1 (got 2)");
    expect(() => detrend([1, Number.NaN], [0, 1])).toThrow("detrend: values must hold at least 2 present for degree 1 (got 1)");
    expect(() => detrend([1, 2], [0, 1], { degree: 7 })).toThrow("detrend: degree must be from 0 to 6 (got 7)");
    expect(() => detrend([1, 2], [0, Infinity])).toThrow("detrend: days must be finite (got Infinity d at index 1)");
  });
});
