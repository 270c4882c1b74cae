import { describe, expect, it } from "vitest";
import { type TideRows, tideRows } from "../../../../lib/cycles/tide/tideRows.js";
import { type TideSteps, tideSteps } from "../../../../lib/cycles/tide/tideSteps.js";
import { usableReadings } from "../../../../lib/cycles/tide/usableReadings.js";
import { series } from "../../../../lib/record/series.js";
import { expectClose } from "../../../close.js";

/** Readings every so many minutes from 03:00; null is missing. */
const stepsOf = (values: readonly (number | null)[], minutes = 60): TideSteps =>
  tideSteps(usableReadings(series({ times: values.map((_, i) => Date.UTC(2024, 4, 6, 3) + i * minutes * 60_000), values, quantity: "surface_air_pressure" })));
const column = (rows: TideRows, of: "table" | "smoothFull" | "smoothFirst" | "smoothSecond", k: number): number[] => Array.from(rows[of].subarray(k * rows.hours, (k + 1) * rows.hours));
function expectColumn(got: readonly number[], wanted: readonly number[], what: string): void {
  expect(got.length).toBe(wanted.length);
  for (const [i, v] of got.entries()) expectClose(v, wanted[i], { absolute: 1e-12 }, `${what}, hour ${i}`);
}
const pair = { cyclesPerDay: 2, turn: 0.125, damping: 0.5 };

describe("tideRows by hand", () => {
  // Five hours from 03:00, the third missing.
  const values = [4, 8, null, 6, 2];

  it("level, mean and slope; what is missing is 0 in the table, not in the smooth columns", () => {
    const rows = tideRows(stepsOf(values), [pair], "bridged");
    expect(rows).toMatchObject({ hours: 5, kept: 4, columns: 4, smooth: 2, level: 5, days: 5 / 24, firstInstant: 3 / 24 });
    expect(Array.from(rows.weights)).toEqual([1, 1, 0, 1, 1]);
    expectColumn(column(rows, "table", 0), [1, 1, 0, 1, 1], "mean");
    // Hours from the middle over the length of the grid.
    expectColumn(column(rows, "table", 1), [-0.4, -0.2, 0, 0.2, 0.4], "slope");
    expectColumn(column(rows, "smoothFull", 0), [1, 1, 1, 1, 1], "whole mean");
    const late = tideRows(stepsOf([4, 8, 5, null, 3]), [], "bridged");
    expectColumn(column(late, "smoothFull", 1), [-0.4, -0.2, 0, 0.2, 0.4], "whole slope");
    expectColumn(column(late, "table", 2), [-1, 3, 0, 0, -2], "y after the smooth columns");
    expectColumn(column(rows, "table", 4), [-1, 3, 0, 1, -3], "y less its level");
    const angle = (i: number): number => 2 * Math.PI * (2 * ((3 + i) / 24) + 0.125);
    expectColumn(column(rows, "table", 2), [0, 1, 2, 3, 4].map((i) => (i === 2 ? 0 : 0.5 * Math.cos(angle(i)))), "cosine");
    expectColumn(column(rows, "table", 3), [0, 1, 2, 3, 4].map((i) => (i === 2 ? 0 : 0.5 * Math.sin(angle(i)))), "sine");
  });

  it("first and second differences of the smooth columns, at the ends too", () => {
    const rows = tideRows(stepsOf(values), [], "bridged");
    expectColumn(column(rows, "smoothFirst", 0), [0, 0, 0, 0, 0], "mean");
    expectColumn(column(rows, "smoothFirst", 1), [-0.2, 0, 0, 0, 0.2], "slope");
    for (const k of [0, 1]) expectColumn(column(rows, "smoothSecond", k), [0, 0, 0, 0, 0], `second ${k}`);
  });

  it("parts on either side of a jump: their own mean, and a slope about their own middle over a day at least", () => {
    const rows = tideRows(stepsOf([4, 8, 7, 6, 2]), [], "bridged", [(3 + 1.5) * 3600]);
    expect([rows.columns, rows.smooth]).toEqual([4, 4]);
    expectColumn(column(rows, "table", 0), [1, 1, 0, 0, 0], "first mean");
    expectColumn(column(rows, "table", 2), [0, 0, 1, 1, 1], "second mean");
    // The first part ends at the jump, 1.5 h in; the second runs from it to the last hour, 4 h in. Its length counts as a day.
    expectColumn(column(rows, "table", 1), [-0.75 / 24, 0.25 / 24, 0, 0, 0], "first slope");
    expectColumn(column(rows, "table", 3), [0, 0, -0.75 / 24, 0.25 / 24, 1.25 / 24], "second slope");
    // v = 1 1 0 0 0: D₁v = 0 −1 0 0 and D₂v = −1 1 0.
    expectColumn(column(rows, "smoothFirst", 0), [0, 1, -1, 0, 0], "D₁ᵀD₁");
    expectColumn(column(rows, "smoothSecond", 0), [-1, 3, -3, 1, 0], "D₂ᵀD₂");
    const long = tideRows(stepsOf(new Array(97).fill(0)), [], "bridged", [(3 + 48) * 3600]);
    expectColumn(column(long, "table", 1), Array.from({ length: 97 }, (_, i) => (i < 48 ? (i - 24) / 48 : 0)), "two days before");
    expectColumn(column(long, "table", 3), Array.from({ length: 97 }, (_, i) => (i < 48 ? 0 : (i - 72) / 48)), "two days after");
  });

  it("a bridged hour weighs by what was observed; the instant of an hour is the middle of its steps", () => {
    const half = tideRows(stepsOf([1, null, 2, 4, 5, 6], 30), [], "bridged");
    expect(Array.from(half.weights)).toEqual([0.5, 1, 1]);
    expectClose(half.level, (1.25 + 3 + 5.5) / 3, { absolute: 1e-12 });
    expect(half.firstInstant).toBe(3.25 / 24);
    // By plain means the first hour is its reading at 03:00 alone; its slope is that of 03:00, in both tables.
    const plain = tideRows(stepsOf([1, null, 2, 4, 5, 6], 30), [], "plain");
    for (const of of ["table", "smoothFull"] as const) expectColumn(column(plain, of, 1), [-1.25 / 3, 0, 1 / 3], of);
    // Hourly readings at half past.
    const late = tideSteps(usableReadings(series({ times: [0, 1, 2].map((h) => Date.UTC(2024, 4, 6, 3 + h, 30)), values: [1, 2, 4], quantity: "surface_air_pressure" })));
    expect(tideRows(late, [], "bridged").firstInstant).toBe(3.5 / 24);
  });

  it("a line that changes with the year: its column times cosine and sine of the days since midnight over 365.25", () => {
    const rows = tideRows(stepsOf(Array.from({ length: 30 }, (_, i) => (i % 2 === 0 ? 3 : 1))), [{ ...pair, cyclesPerDay: 1 }, { ...pair, cyclesPerDay: 3 }, pair, { ...pair, yearly: "cos" }, { ...pair, yearly: "sin" }], "bridged");
    for (const half of [0, 1]) {
      const line = column(rows, "table", 6 + half);
      const angle = (i: number): number => 2 * Math.PI * (2 * ((3 + i) / 24) + 0.125);
      expectColumn(line, line.map((_, i) => 0.5 * (half === 0 ? Math.cos(angle(i)) : Math.sin(angle(i)))), "line");
      const year = (i: number): number => (2 * Math.PI * (3 + i)) / 24 / 365.25;
      expectColumn(column(rows, "table", 8 + half), line.map((v, i) => v * Math.cos(year(i))), "cos");
      expectColumn(column(rows, "table", 10 + half), line.map((v, i) => v * Math.sin(year(i))), "sin");
    }
    expectColumn(column(rows, "table", 12), Array.from({ length: 30 }, (_, i) => (i % 2 === 0 ? 1 : -1)), "y");
  });
});
