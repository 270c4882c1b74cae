import { describe, expect, it } from "vitest";
import { civilText, standardTime } from "../../../lib/figure/axisTime.js";
import { decades, fixedScale, hourScale, logScale, numberScale, roundTicks, timeScale, timeTitle } from "../../../lib/figure/tickScale.js";
import { random } from "../../../lib/ground/random.js";

describe("roundTicks", () => {
  it("finds round steps", () => {
    expect(roundTicks(0, 10, 6)).toEqual({ values: [0, 2, 4, 6, 8, 10], step: 2, decimals: 0 });
    expect(roundTicks(856.2, 863.9, 5).values).toEqual([858, 860, 862]);
    expect(roundTicks(-0.31, 0.42, 5).values).toEqual([-0.2, 0, 0.2, 0.4]);
  });

  it("keeps between two ticks and a few more than asked, all inside, evenly apart", () => {
    const { uniform } = random(5);
    for (let turn = 0; turn < 2000; turn++) {
      const low = (uniform() - 0.5) * 10 ** Math.floor(uniform() * 7 - 2);
      const high = low + 10 ** (uniform() * 8 - 4);
      const most = 3 + Math.floor(uniform() * 6);
      const { values, step } = roundTicks(low, high, most);
      expect(values.length).toBeGreaterThanOrEqual(2);
      expect(values.length).toBeLessThanOrEqual(most + 2);
      for (const v of values) expect(v >= low - 1e-6 * step && v <= high + 1e-6 * step).toBe(true);
      for (let i = 1; i < values.length; i++) expect(Math.abs(values[i] - values[i - 1] - step)).toBeLessThan(1e-3 * step);
    }
  });
});

describe("numberScale", () => {
  it("holds its values with a little space, and true minus signs", () => {
    const scale = numberScale([-4, 3, Number.NaN, null]);
    expect(scale.range).toEqual([-4.28, 3.28]);
    expect(scale.ticktext).toContain("−2");
  });

  it("stands on zero where it must, and does not fall in on one value or none", () => {
    expect(numberScale([0.2, 1], { zero: true }).range[0]).toBe(0);
    expect(numberScale([-2, -1], { zero: true }).range[1]).toBe(0);
    for (const values of [[5], [], [Number.NaN], [0]]) {
      const { range, tickvals } = numberScale(values);
      expect(Number(range[0])).toBeLessThan(Number(range[1]));
      expect(tickvals.length).toBeGreaterThan(0);
    }
    expect(numberScale([5]).range).toEqual([4.46, 5.54]);
    expect(numberScale([5], { least: 2 }).range).toEqual([3.92, 6.08]);
  });
});

describe("logScale and decades", () => {
  it("counts its ends in powers of ten and keeps the ticks inside", () => {
    const scale = logScale(0.1, 100, decades(0.1, 100));
    expect(scale.range).toEqual([-1, 2]);
    expect(scale.tickvals).toEqual([0.1, 1, 10, 100]);
    expect(decades(1, 50).map(([v]) => v)).toEqual([1, 2, 5, 10, 20, 50]);
  });
});

describe("timeScale", () => {
  const utc = (text: string): number => Date.parse(`${text}Z`);

  it("names months in the record's standard time, the year once", () => {
    const scale = timeScale(utc("2024-04-11T17:00:00"), utc("2024-07-21T16:53:00"), 7);
    expect(scale.range).toEqual(["2024-04-12", "2024-07-21 23:53"]);
    expect(scale.ticktext.filter((t) => t !== "")).toEqual(["May<br>2024", "Jun", "Jul"]);
    expect(scale.tickvals).toContain("2024-05-01");
  });

  it("names hours, days, months and years as the span asks, six at most", () => {
    const from = utc("2023-11-28T22:10:00");
    const days = [0.05, 0.2, 0.9, 2, 5, 10, 20, 45, 100, 300, 700, 2000, 6000];
    for (const span of days) {
      const { tickvals, ticktext, range } = timeScale(from, from + span * 86_400_000, -3.5);
      const named = ticktext.filter((t) => t !== "");
      expect(named.length, `${span} d`).toBeGreaterThan(0);
      expect(named.length, `${span} d`).toBeLessThanOrEqual(6);
      for (const at of tickvals) expect(String(at) >= String(range[0]) && String(at) <= String(range[1]), `${span} d`).toBe(true);
    }
    expect(timeScale(from, from + 6000 * 86_400_000, 0).ticktext[0]).toMatch(/^20\d\d$/);
    expect(timeScale(from, from, 0).ticktext).toEqual(["23 h<br>2023", "29 Nov"]);
  });

  it("names its clock", () => {
    expect(timeTitle(7)).toBe("Date (standard time, UTC+07:00)");
    expect(timeTitle(-3.5)).toBe("Date (standard time, UTC−03:30)");
  });
});

describe("civil text", () => {
  it("writes midnights as dates and rounds to the minute", () => {
    expect(civilText(Date.UTC(2024, 4, 3))).toBe("2024-05-03");
    expect(civilText(Date.UTC(2024, 4, 3, 9, 5, 29))).toBe("2024-05-03 09:05");
    expect(standardTime(7)(Date.UTC(2024, 4, 3, 17))).toBe("2024-05-04");
    expect(hourScale().ticktext[2]).toBe("06 h");
    expect(fixedScale([10, 0]).range).toEqual([10, 0]);
  });
});
