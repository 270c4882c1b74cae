import { describe, expect, it } from "vitest";
import { evenMinMax, minMaxThinned } from "../../../lib/figure/minMaxThinned.js";
import { random } from "../../../lib/ground/random.js";

const seconds = (n: number, step = 60): Float64Array => Float64Array.from({ length: n }, (_, i) => step * i);

describe("minMaxThinned", () => {
  it("returns a short series whole", () => {
    const thin = minMaxThinned({ seconds: seconds(4), values: Float64Array.of(1, 3, 2, 5) }, { bins: 10 });
    expect(thin).toEqual({ seconds: [0, 60, 120, 180], values: [1, 3, 2, 5] });
  });

  it("keeps lowest and highest of each bin, at their own instants and in their own order", () => {
    const values = Float64Array.of(5, 1, 2, 9, 4, 4, 0, 7, 3, 3, 8, 2);
    const thin = minMaxThinned({ seconds: seconds(12), values }, { bins: 2, longestHole: 1e9 });
    // First half 0…5: lowest 1 at index 1, highest 9 at 3; second half: lowest 0 at 6, highest 8 at 10.
    expect(thin).toEqual({ seconds: [60, 180, 360, 600], values: [1, 9, 0, 8] });
  });

  it("loses no extreme of any day, whatever the series", () => {
    const { normal, uniform } = random(11);
    for (let turn = 0; turn < 30; turn++) {
      const n = 2000 + Math.floor(uniform() * 20_000);
      const values = Float64Array.from({ length: n }, () => (uniform() < 0.02 ? Number.NaN : normal() + (uniform() < 0.001 ? 40 : 0)));
      const thin = minMaxThinned({ seconds: seconds(n), values }, { bins: 300 });
      const kept = thin.values.filter((v) => !Number.isNaN(v));
      const there = values.filter((v) => !Number.isNaN(v));
      expect(Math.max(...kept)).toBe(there.reduce((a, b) => Math.max(a, b)));
      expect(Math.min(...kept)).toBe(there.reduce((a, b) => Math.min(a, b)));
      // Every spike above all noise is still there, and every kept point is a reading at its own instant.
      expect(kept.filter((v) => v > 20).length).toBeGreaterThanOrEqual(Math.min(1, there.filter((v) => v > 20).length));
      thin.values.forEach((v, i) => {
        if (!Number.isNaN(v)) expect(values[thin.seconds[i] / 60]).toBe(v);
      });
      expect(kept.length).toBeLessThanOrEqual(600);
      expect([...thin.seconds].sort((a, b) => a - b)).toEqual(thin.seconds);
    }
  });

  it("breaks the line at a hole and not at a missing reading", () => {
    const at = Float64Array.of(0, 60, 120, 180, 4000, 4060, 4120);
    const values = Float64Array.of(1, 1, Number.NaN, 1, 2, 2, 2);
    expect(minMaxThinned({ seconds: at, values }).values).toEqual([1, 1, 1, Number.NaN, 2, 2, 2]);
    expect(minMaxThinned({ seconds: at, values }, { longestHole: 100 }).values).toEqual([1, 1, Number.NaN, 1, Number.NaN, 2, 2, 2]);
    expect(minMaxThinned({ seconds: at, values }, { longestHole: 1e6 }).values).toEqual([1, 1, 1, 2, 2, 2]);
  });

  it("leaves out flagged readings, and an empty series is empty", () => {
    const flags = Uint16Array.of(0, 2, 0);
    expect(minMaxThinned({ seconds: seconds(3), values: Float64Array.of(1, 99, 2), flags }, { leftOut: 2 }).values).toEqual([1, 2]);
    expect(minMaxThinned({ seconds: new Float64Array(0), values: new Float64Array(0) })).toEqual({ seconds: [], values: [] });
    expect(minMaxThinned({ seconds: seconds(2), values: Float64Array.of(Number.NaN, Number.NaN) }).values).toEqual([]);
    expect(minMaxThinned({ seconds: seconds(1), values: Float64Array.of(7) })).toEqual({ seconds: [0], values: [7] });
  });
});

describe("evenMinMax", () => {
  it("gives two even points a bin, in the order in which they came", () => {
    const thin = evenMinMax(Float64Array.of(1, 5, 2, 3, 0, 4, 4, 9), 2);
    expect([...thin.values]).toEqual([1, 5, 0, 9]);
    expect([thin.step, thin.first]).toEqual([2, 0.5]);
  });

  it("moves no value by more than three quarters of a bin", () => {
    const { normal } = random(3);
    const values = Float64Array.from({ length: 10_000 }, normal);
    const thin = evenMinMax(values, 130);
    thin.values.forEach((v, k) => {
      expect(Math.abs(thin.first + thin.step * k - values.indexOf(v))).toBeLessThanOrEqual(1.5 * thin.step);
    });
    expect(Math.max(...thin.values)).toBe(Math.max(...values));
    expect(Math.min(...thin.values)).toBe(Math.min(...values));
  });

  it("leaves short series and empty bins alone", () => {
    const short = Float64Array.of(1, 2, 3);
    expect(evenMinMax(short, 2)).toEqual({ values: short, step: 1, first: 0 });
    const holed = Float64Array.from({ length: 100 }, (_, i) => (i < 50 ? Number.NaN : i));
    expect([...evenMinMax(holed, 2).values]).toEqual([Number.NaN, Number.NaN, 50, 99]);
  });
});
