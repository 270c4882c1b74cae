import { describe, expect, it } from "vitest";
import { hourMeans, hourWeights } from "../../../../lib/cycles/tide/hourMeans.js";
import { tideRows } from "../../../../lib/cycles/tide/tideRows.js";
import { tideSteps } from "../../../../lib/cycles/tide/tideSteps.js";
import { observedDays, usableReadings } from "../../../../lib/cycles/tide/usableReadings.js";
import { flagBit } from "../../../../lib/record/flag.js";
import { series, type Series } from "../../../../lib/record/series.js";
import { expectClose } from "../../../close.js";

const midnight = Date.UTC(2024, 4, 6);
const hour = 3_600_000;
const at = (times: readonly number[], values: readonly (number | null)[], flags?: number[]): Series =>
  series({ times: times.map((t) => midnight + t), values, quantity: "surface_air_pressure", flags });
const every = (minutes: number, n: number, from = 0): number[] => Array.from({ length: n }, (_, i) => from + i * minutes * 60_000);

describe("usableReadings", () => {
  it("leaves out NaN and range, spike, stuck, swapped; keeps step, saturated, warmed", () => {
    const flags = [0, flagBit.range, flagBit.spike, flagBit.stuck, flagBit.swapped, flagBit.step, flagBit.saturated, flagBit.warmed];
    const r = usableReadings(at(every(60, 8, 5 * hour), [1, 2, 3, 4, 5, 6, null, 8], flags));
    expect(Array.from(r.values)).toEqual([1, 6, 8]);
    expect(Array.from(r.seconds)).toEqual([5 * 3600, 10 * 3600, 12 * 3600]);
    expect([r.midnight, r.leftOut]).toEqual([midnight, 5]);
  });
  it("counts from the midnight of the first usable reading, and is empty without any", () => {
    expect(usableReadings(at([23 * hour, 25 * hour], [null, 1])).midnight).toBe(midnight + 24 * hour);
    expect(usableReadings(at([hour], [null])).seconds.length).toBe(0);
    expect(observedDays(usableReadings(at([], [])))).toBe(0);
  });
  it("covered days: number times spacing, at most the span", () => {
    expectClose(observedDays(usableReadings(at(every(60, 48), new Array(48).fill(1)))), 2, { absolute: 1e-12 });
    expectClose(observedDays(usableReadings(at([0, hour, 2 * hour, 10 * hour], [1, 1, 1, 1]))), 4 / 24, { absolute: 1e-12 });
  });
});

describe("tideSteps", () => {
  it.each([[1, 60], [5, 12], [7, 6], [10, 6], [15, 4], [20, 3], [25, 2], [30, 2], [60, 1], [180, 1]])("readings every %d min: %d steps an hour", (minutes, perHour) => {
    const r = tideSteps(usableReadings(at(every(minutes, 100), new Array(100).fill(1))));
    expect(r.perHour).toBe(perHour);
  });

  it("regular readings keep their exact phase; the hours are whole UTC hours", () => {
    const r = tideSteps(usableReadings(at(every(10, 100, 7 * hour + 20 * 60_000), Array.from({ length: 100 }, (_, i) => i))));
    expect([r.regular, r.phase, r.firstHour, r.hours]).toEqual([true, 0, 7, 17]);
    expect(Array.from(r.values.subarray(0, 4))).toEqual([Number.NaN, Number.NaN, 0, 1]);
    const middle = tideSteps(usableReadings(at(every(60, 30, hour / 2), new Array(30).fill(1))));
    expect([middle.regular, middle.phase, middle.firstHour]).toEqual([true, 1800, 0]);
  });

  it("jitter about the hour throws no reading into the wrong hour", () => {
    const times = every(5, 400).map((t, i) => t + ((i * 7919) % 5) * 1000 - 2000);
    const r = tideSteps(usableReadings(at(times.map((t) => t + 86_400_000), Array.from({ length: 400 }, (_, i) => i))));
    expect(r.regular).toBe(false);
    const filled = Array.from(r.values).filter((v) => !Number.isNaN(v));
    expect(filled).toEqual(Array.from({ length: 400 }, (_, i) => i)); // one reading a step, in order
  });

  it("a step is the mean of what fell into it, at the mean of its instants", () => {
    const r = tideSteps(usableReadings(at([0, 60_000, 120_000, 300_000, 360_000, 601_000, 900_000, 1_200_000, 1_500_000].sort((a, b) => a - b), [1, 2, 3, 10, 20, 5, 6, 7, 8])));
    expect(r.values.reduce((n, v) => n + (Number.isNaN(v) ? 0 : 1), 0)).toBeLessThan(9);
    const means = Array.from(r.values).filter((v) => !Number.isNaN(v));
    expect(Math.min(...means)).toBeGreaterThanOrEqual(1);
    expect(Math.max(...means)).toBeLessThanOrEqual(20);
  });
});

describe("hourMeans", () => {
  const N = Number.NaN;
  it("bridges inner gaps of an hour, not longer ones, and weighs what was observed", () => {
    const steps = Float64Array.of(1, 2, N, N, 5, 6, N, N, N, 10, 11, 12);
    const means = hourMeans(steps, 2, "bridged");
    expect(Array.from(means)).toEqual([1.5, 3.5, 5.5, N, N, 11.5]);
    expect(Array.from(hourWeights(steps, means))).toEqual([1, 0, 1, 0, 0, 1]);
  });
  it("plain means take what is there", () => {
    const steps = Float64Array.of(1, N, N, N, 4, 6);
    const means = hourMeans(steps, 2, "plain");
    expect(Array.from(means)).toEqual([1, N, 5]);
    expect(Array.from(hourWeights(steps, means))).toEqual([0.5, 0, 1]);
  });
  it("hourly steps pass through; the ends are never bridged", () => {
    const steps = Float64Array.of(1, N, 3);
    expect(hourMeans(steps, 1, "bridged")).toBe(steps);
    expect(Array.from(hourMeans(Float64Array.of(N, 1, 2, N), 2, "bridged"))).toEqual([N, N]);
    expect(Array.from(steps)).toEqual([1, N, 3]);
  });
});

describe("tideRows", () => {
  it("regressors go through the same means as the data: a bridged wave is fitted without bias", () => {
    const wave = (t: number): number => Math.cos((2 * Math.PI * 3 * t) / 24);
    const times = every(20, 72);
    const values = times.map((t, i) => (i % 7 === 3 ? null : wave(t / hour)));
    const steps = tideSteps(usableReadings(at(times, values)));
    for (const kind of ["bridged", "plain"] as const) {
      const rows = tideRows(steps, [{ cyclesPerDay: 3, turn: 0, damping: 1 }], kind);
      for (let i = 0; i < rows.hours; i++) {
        if (rows.weights[i] > 0) expectClose(rows.table[4 * rows.hours + i] + rows.level, rows.table[2 * rows.hours + i], { absolute: 1e-12 }, `hour ${i}`);
      }
    }
  });
  it("the table of one day and the instants one by one agree", () => {
    const steps = tideSteps(usableReadings(at(every(10, 600, 3 * hour + 120_000), new Array(600).fill(0).map((_, i) => i % 13))));
    expect(steps.regular).toBe(true);
    const pair = { cyclesPerDay: 2, turn: 0.25, damping: 0.9 };
    const a = tideRows(steps, [pair], "bridged");
    const b = tideRows({ ...steps, regular: false }, [pair], "bridged");
    for (const [k, v] of a.table.entries()) expectClose(v, b.table[k], { absolute: 1e-12 });
  });
});
