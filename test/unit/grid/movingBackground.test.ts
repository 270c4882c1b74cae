import { describe, expect, it } from "vitest";
import { movingBackground } from "../../../lib/grid/movingBackground.js";
import { random } from "../../../lib/ground/random.js";

/** The mean of a window, step by step. */
function slow(values: readonly number[], width: number, isShifted: boolean): number[] {
  return values.map((_, i) => {
    let from = i - Math.floor(width / 2);
    if (isShifted) from = Math.max(0, Math.min(from, values.length - width));
    const to = Math.min(values.length, (isShifted ? from : i - Math.floor(width / 2)) + width);
    const present = values.slice(Math.max(0, from), to).filter((v) => !Number.isNaN(v));
    return present.length === 0 ? Number.NaN : present.reduce((a, b) => a + b, 0) / present.length;
  });
}

describe("movingBackground", () => {
  it("is the mean of what is present in the window", () => {
    expect([...movingBackground(Object.freeze([1, 2, Number.NaN, 6]), 3)]).toEqual([1.5, 1.5, 4, 6]);
    expect([...movingBackground([5], 1)]).toEqual([5]);
    expect([...movingBackground([], 3)]).toEqual([]);
    expect([...movingBackground([Number.NaN, Number.NaN], 2)]).toEqual([Number.NaN, Number.NaN]);
  });

  it("agrees with the slow way at any width, with gaps, both ends", () => {
    const { uniform } = random(8801);
    const values = Array.from({ length: 60 }, () => (uniform() < 0.2 ? Number.NaN : 860 + 4 * uniform()));
    for (const width of [1, 2, 7, 24, 59, 60, 61, 200]) {
      for (const ends of ["cut", "shift"] as const) {
        const got = movingBackground(values, width, { ends });
        slow(values, width, ends === "shift").forEach((wanted, i) => {
          if (Number.isNaN(wanted)) expect(got[i]).toBeNaN();
          // Sums of 60 numbers near 860: rounding of 1e-13 of them.
          else expect(Math.abs(got[i] - wanted)).toBeLessThan(1e-10);
        });
      }
    }
  });

  it("a window of whole days takes a daily cycle out whole, at the ends too when it is moved inside", () => {
    const hours = Array.from({ length: 240 }, (_, h) => 20 + 4 * Math.cos((2 * Math.PI * h) / 24));
    for (const v of movingBackground(hours, 72, { ends: "shift" })) expect(Math.abs(v - 20)).toBeLessThan(1e-12);
    expect(Math.abs(movingBackground(hours, 72)[0] - 20)).toBeGreaterThan(0.01);
  });

  it("gives nothing where too little is present", () => {
    const values = [1, Number.NaN, Number.NaN, Number.NaN, 5];
    expect([...movingBackground(values, 3, { least: 0.5, ends: "shift" })]).toEqual([Number.NaN, Number.NaN, Number.NaN, Number.NaN, Number.NaN]);
    expect([...movingBackground(values, 3, { least: 1 / 3, ends: "shift" })]).toEqual([1, 1, Number.NaN, 5, 5]);
  });

  it("refuses what cannot be", () => {
    expect(() => movingBackground([1], 0)).toThrow("movingBackground: width must be a whole number of steps above 0 (got 0)");
    expect(() => movingBackground([1], 1.5)).toThrow(RangeError);
    expect(() => movingBackground([1], 1, { ends: "mirror" as never })).toThrow('movingBackground: ends must be "cut" or "shift" (got mirror)');
    expect(() => movingBackground([1], 1, { least: 2 })).toThrow("movingBackground: least must be from 0 to 1 (got 2)");
  });
});
