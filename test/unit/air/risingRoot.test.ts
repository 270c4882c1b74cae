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

  /** The places at which the function was asked. */
  const asked = (slope: (x: number) => number, low: number, high: number, start: number): number[] => {
    const places: number[] = [];
    risingRoot((x) => { places.push(x); return cube(x); }, slope, low, high, start);
    return places;
  };

  it("begins at its start, moved into the bracket, or in the middle", () => {
    expect(asked((x) => 3 * x * x, -1, 5, 3)[0]).toBe(3);
    expect(asked((x) => 3 * x * x, -1, 5, 8)[0]).toBe(5);
    expect(asked((x) => 3 * x * x, -2, 5, -8)[0]).toBe(-2);
    expect(asked((x) => 3 * x * x, -1, 5, Number.NaN)[0]).toBe(2);
  });

  it("with a good slope is there in a few steps, without one by halving, and with one that creeps after 50 steps of it", () => {
    expect(asked((x) => 3 * x * x, 0, 10, 2).length).toBeLessThan(8);
    // Halving 16 to 1e-10 takes 37 steps.
    expect(asked(() => Number.NaN, 0, 16, 8).length).toBeLessThanOrEqual(38);
    expect(asked(() => 0, 0, 16, 8).length).toBeLessThanOrEqual(38);
    const crept = asked(() => 1e9, 0, 16, 8);
    expect(crept.slice(0, 51).every((x) => x > 7.9)).toBe(true);
    expect(crept.length).toBeGreaterThan(51 + 30);
    expect(crept.length).toBeLessThanOrEqual(51 + 40);
  });

  it("takes a step that ends on the bracket", () => {
    // From 2 the slope 1 leads straight to 0, the lower end and the root; from 1 to 3, the upper.
    expect(risingRoot((x) => x, () => 1, 0, 3, 2)).toBe(0);
    const places: number[] = [];
    risingRoot((x) => { places.push(x); return x - 3; }, () => 1, 0, 3, 1);
    expect(places).toEqual([1, 3]);
  });
});
