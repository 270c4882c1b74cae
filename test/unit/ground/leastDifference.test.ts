import { describe, expect, it } from "vitest";
import { leastDifference } from "../../../lib/ground/leastDifference.js";

describe("leastDifference", () => {
  it("is the step in which values are written; equal neighbors tell nothing", () => {
    expect(leastDifference(Float64Array.of(3, 3, 3.5, 5, 4.25), 1e-9)).toBe(0.5);
    expect(leastDifference(Float64Array.of(1, 2, 2 + 1e-7, 4), 1e-9)).toBe(2 + 1e-7 - 2);
    expect(leastDifference(Float64Array.of(1, 2, 2 + 1e-7, 4), 1e-6)).toBe(1);
  });

  it("is 0 where nothing differs, and passes over NaN", () => {
    expect([[], [7], [7, 7], [7, Number.NaN, 9]].map((v) => leastDifference(Float64Array.from(v), 1e-9))).toEqual([0, 0, 0, 0]);
    expect(leastDifference(Float64Array.of(1, Number.NaN, 4, 6), 1e-9)).toBe(2);
  });
});
