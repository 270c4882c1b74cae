import { describe, expect, it } from "vitest";
import { risingRoot } from "../../../lib/air/risingRoot.js";

const cube = (x: number): number => x ** 3 - 2;

describe("rising root", () => {
  it("finds a root with a good, a rough and a useless slope", () => {
    for (const slope of [(x: number): number => 3 * x * x, () => 1, () => 1e9, () => 0, () => Number.NaN]) {
      expect(Math.abs(risingRoot(cube, slope, -10, 10, 9) - Math.cbrt(2))).toBeLessThan(1e-9);
    }
  });

  it("moves a wild start into the bracket and finds roots at its ends", () => {
    expect(risingRoot((x) => x - 3, () => 1, 0, 3, 100)).toBe(3);
    expect(risingRoot((x) => x, () => 1, 0, 3, -100)).toBe(0);
    expect(Math.abs(risingRoot(cube, (x) => 3 * x * x, -10, 10, Number.NaN) - Math.cbrt(2))).toBeLessThan(1e-9);
  });

  it("says NaN when the function does", () => {
    expect(risingRoot(() => Number.NaN, () => 1, 0, 1, 0.5)).toBeNaN();
  });
});
