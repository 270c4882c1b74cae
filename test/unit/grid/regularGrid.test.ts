import { describe, expect, it } from "vitest";
import { regularGrid } from "../../../lib/grid/regularGrid.js";
import { medianStep, niceStep } from "../../../lib/grid/step.js";
import { flagBit } from "../../../lib/record/flag.js";
import { series } from "../../../lib/record/series.js";

const minute = 60_000;
const start = Date.UTC(2024, 2, 1);
const pressure = (minutes: number[], values: (number | null)[], flags?: number[]) =>
  series({ times: minutes.map((m) => start + m * minute), values, quantity: "surface_air_pressure", ...(flags ? { flags } : {}) });

describe("regularGrid", () => {
  it("a step is the mean of what fell into it, at the mean instant of the readings", () => {
    const grid = regularGrid(pressure([0, 2, 5, 11], [1, 3, 5, 7]), { step: 300 });
    expect(grid.start).toBe(start);
    expect(grid.length).toBe(3);
    expect([...grid.columns[0].values]).toEqual([2, 5, 7]);
    expect([...grid.columns[0].counts]).toEqual([2, 1, 1]);
    expect([...grid.columns[0].instants]).toEqual([60, 300, 660]);
    expect(grid.columns[0].coverage).toBe(1);
  });
  it("bridges short gaps, marks them, leaves long ones", () => {
    const grid = regularGrid(pressure([0, 10, 100], [1, 3, 9]), { step: 300, fillUpTo: 600 });
    expect([...grid.columns[0].values].slice(0, 4)).toEqual([1, 2, 3, Number.NaN]);
    expect([...grid.columns[0].filled].slice(0, 4)).toEqual([0, 1, 0, 0]);
    expect(grid.columns[0].coverage).toBe(3 / 21);
  });
  it("method none bridges nothing", () => {
    expect([...regularGrid(pressure([0, 10], [1, 3]), { step: 300, method: "none" }).columns[0].values]).toEqual([1, Number.NaN, 3]);
  });
  it("leaves out range, spike, stuck, swapped; keeps warmed and saturated", () => {
    const grid = regularGrid(pressure([0, 5, 10, 15, 20], [1, 2, 3, 4, 5], [flagBit.range, flagBit.spike, flagBit.warmed, flagBit.saturated, flagBit.swapped]), { step: 300, method: "none" });
    expect([...grid.columns[0].values]).toEqual([Number.NaN, Number.NaN, 3, 4, Number.NaN]);
  });
  it("tells the flags of all readings of a step, those left out and those without a value too", () => {
    const grid = regularGrid(pressure([0, 2, 5, 11], [1, 2, null, 4], [flagBit.spike, flagBit.warmed, flagBit.range, 0]), { step: 300 });
    expect([...grid.columns[0].flags]).toEqual([flagBit.spike | flagBit.warmed, flagBit.range, 0]);
    expect([...grid.columns[0].values]).toEqual([2, 3, 4]);
  });
  it("several series share one grid", () => {
    const grid = regularGrid([pressure([0, 5], [1, 2]), pressure([10, 15], [3, 4])], { step: 300, method: "none" });
    expect(grid.length).toBe(4);
    expect([...grid.columns[1].values]).toEqual([Number.NaN, Number.NaN, 3, 4]);
  });
  it("steps begin at 00 UTC whatever the first reading, and can be aligned elsewhere", () => {
    expect(regularGrid(pressure([7, 67], [1, 2]), { step: 3600 }).start).toBe(start);
    expect(regularGrid(pressure([7, 67], [1, 2]), { step: 86400, alignTo: 17 * 3600_000 }).start).toBe(start - 7 * 3600_000);
  });
  it("works before 1970 and does not change its arguments", () => {
    const s = Object.freeze(series({ times: [-2 * minute, -minute], values: [1, 2], quantity: "air_temperature" }));
    expect(regularGrid(s, { step: 60 }).start).toBe(-2 * minute);
  });
  it("refuses what it cannot lay", () => {
    expect(() => regularGrid(pressure([0], [1]), { step: -60 })).toThrow("regularGrid: step must be positive (got -60 s)");
    expect(() => regularGrid(pressure([], []))).toThrow("regularGrid: series must hold at least one reading (got none)");
    expect(() => regularGrid(pressure([0, 1e9], [1, 2]), { step: 1 })).toThrow("regularGrid: step must leave at most 32000000 steps");
    expect(() => regularGrid(pressure([0, 1], [1, 2]), { fillUpTo: -1 })).toThrow("regularGrid: fillUpTo must be from 0");
    expect(() => regularGrid(pressure([0, 1], [1, 2]), { method: "spline" as "line" })).toThrow('regularGrid: method must be "line" or "none" (got "spline")');
  });
});

describe("steps", () => {
  it("the usual step ignores gaps and repeats", () => {
    expect(medianStep(Float64Array.of(0, 300, 300, 600, 90000))).toBe(300);
    expect(medianStep(Float64Array.of(5))).toBe(0);
    // No step in the majority; an even number of steps takes the upper middle one; more distinct steps than are counted.
    expect(medianStep(Float64Array.of(0, 1, 3, 6, 6, 10))).toBe(3);
    expect(medianStep(Float64Array.of(0, 7, 7, 9, 16, 18))).toBe(7);
    for (const distinct of [3, 50, 20_000]) {
      let state = distinct;
      const steps = Float64Array.from({ length: 10_001 }, () => {
        state = (state * 48_271) % 2_147_483_647;
        return 1 + (state % distinct);
      });
      let at = 0;
      const instants = steps.map((d) => {
        at += d;
        return at;
      });
      expect(medianStep(Float64Array.of(0, ...instants))).toBe(steps.slice().sort()[5000]);
    }
  });
  it("a wandering clock is still a 5-minute logger; 7 minutes go on 10", () => {
    expect(niceStep(Float64Array.of(0, 301, 602))).toBe(300);
    expect(niceStep(Float64Array.of(0, 420, 840))).toBe(600);
    expect(niceStep(Float64Array.of(0, 3600, 7200))).toBe(3600);
  });
});
