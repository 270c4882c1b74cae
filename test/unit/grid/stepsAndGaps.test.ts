import { describe, expect, it } from "vitest";
import { bridgeGaps, gaps } from "../../../lib/grid/gapRule.js";
import { medianStep, niceStep } from "../../../lib/grid/step.js";

const _ = Number.NaN;

describe("niceStep", () => {
  it("is each step that divides an hour or a day, for itself and for a clock up to a twentieth slow", () => {
    const steps = [1, 2, 5, 10, 15, 20, 30, 60, 120, 180, 240, 300, 360, 600, 720, 900, 1200, 1800, 3600, 7200, 10800, 14400, 21600, 28800, 43200, 86400];
    for (const [k, step] of steps.entries()) {
      expect(niceStep(Float64Array.of(0, step, 2 * step))).toBe(step);
      expect(niceStep(Float64Array.of(0, 1.05 * step))).toBe(step);
      if (k + 1 < steps.length) expect(niceStep(Float64Array.of(0, 1.0501 * step))).toBe(steps[k + 1]);
    }
  });

  it("ends at a day, and says 0 where there is no step", () => {
    expect(niceStep(Float64Array.of(0, 7 * 86400))).toBe(86400);
    expect(niceStep(Float64Array.of())).toBe(0);
    expect(niceStep(Float64Array.of(5))).toBe(0);
    expect(niceStep(Float64Array.of(5, 5, 5))).toBe(0);
  });
});

describe("medianStep", () => {
  it("counts no repeat and no step back", () => {
    expect(medianStep(Float64Array.of(0, 60, 60, 60, 60, 120, 420))).toBe(60);
    expect(medianStep(Float64Array.of(100, 0, 300, 600, 500))).toBe(300);
    expect(medianStep(Float64Array.of(9, 5, 1))).toBe(0);
  });

  it("refuses an infinite instant, wherever it stands", () => {
    const never = Infinity;
    for (const list of [[0, never], [-never, 0], [0, 300, 600, 900, never], [-never, 0, 300, 600], [0, 300, never, 600, 900]]) {
      expect(() => medianStep(Float64Array.of(...list))).toThrow(new RangeError("medianStep: seconds must be finite (got a step of Infinity s)"));
    }
    expect(() => niceStep(Float64Array.of(0, never))).toThrow(RangeError);
    expect(medianStep(Float64Array.of(never, never))).toBe(0);
  });

  it("half of the steps is no majority: the upper middle one is taken", () => {
    expect(medianStep(Float64Array.of(0, 300, 600, 1200, 1800))).toBe(600);
    expect(medianStep(Float64Array.of(0, 600, 1200, 1500, 1800))).toBe(600);
    expect(medianStep(Float64Array.of(0, 300, 600, 900, 1500))).toBe(300);
  });

  it("of two steps the longer, of three the middle one, in any order", () => {
    for (const [a, b, c] of [[1, 2, 4], [4, 2, 1], [2, 4, 1], [1, 4, 2]] as const) {
      expect(medianStep(Float64Array.of(0, a, a + b, a + b + c))).toBe(2);
      expect(medianStep(Float64Array.of(0, a, a + b))).toBe(Math.max(a, b));
    }
  });

  it("is the same for more distinct steps than are counted: 4 096 and 4 097", () => {
    for (const distinct of [4095, 4096, 4097, 4098]) {
      // Steps 1, 2, …, laid down from the longest to the shortest, between repeats that are no steps.
      const seconds = new Float64Array(distinct + 4);
      for (let k = 1; k <= distinct; k++) seconds[k + 2] = seconds[k + 1] + (distinct + 1 - k);
      seconds[distinct + 3] = seconds[distinct + 2];
      expect(medianStep(seconds)).toBe((distinct >> 1) + 1);
    }
  });
});

describe("gap rule at its edges", () => {
  it("bridges a single missing step and one of exactly the longest length, and marks nothing at the ends", () => {
    expect([...bridgeGaps([_, 1, _, 3, _], 1).values]).toEqual([_, 1, 2, 3, _]);
    expect([...bridgeGaps([_, 1, _, 3, _], 1).filled]).toEqual([0, 0, 1, 0, 0]);
    expect([...bridgeGaps([2, _, _, _, 10], 3).values]).toEqual([2, 4, 6, 8, 10]);
    expect([...bridgeGaps([2, _, _, _, 10], 2.9).filled]).toEqual([0, 0, 0, 0, 0]);
    expect([...bridgeGaps([_, _], 5).filled]).toEqual([0, 0]);
  });

  it("falls as it rises, and crosses a gap between the largest numbers there are", () => {
    expect([...bridgeGaps([4, _, _, _, 0], 3).values]).toEqual([4, 3, 2, 1, 0]);
    expect([...bridgeGaps([-1.5e308, _, _, _, 1.5e308], 3).values]).toEqual([-1.5e308, -0.75e308, 0, 0.75e308, 1.5e308]);
  });

  it("refuses infinity, and a length that is no number", () => {
    expect(() => bridgeGaps([1, Infinity], 1)).toThrow(new RangeError("bridgeGaps: values must be finite or NaN (got Infinity at index 1)"));
    expect(() => bridgeGaps([1], "2" as never)).toThrow(new TypeError('bridgeGaps: longest must be a number (got "2")'));
  });

  it("leaves what it was given as it was", () => {
    const given = Float64Array.of(1, _, 3);
    bridgeGaps(given, 5);
    expect([...given]).toEqual([1, _, 3]);
    expect(gaps(given)).toEqual([{ from: 1, to: 2 }]);
  });
});
