import { describe, expect, it } from "vitest";
import { civilMonth, monthStart } from "../../../../lib/cycles/climate/civilDay.js";
import type { DaySummary } from "../../../../lib/cycles/climate/dailySummary.js";
import { dayMemory, monthMean } from "../../../../lib/cycles/climate/monthMean.js";
import { monthlySummaries } from "../../../../lib/cycles/climate/monthlySummary.js";
import { sameMonths } from "../../../../lib/cycles/climate/sameMonths.js";
import { yearlySummaries } from "../../../../lib/cycles/climate/yearlySummary.js";
import { random } from "../../../../lib/ground/random.js";
import { expectClose } from "../../../close.js";

const firstDay = Date.UTC(2023, 0, 1) / 86_400_000;
const day = (k: number, mean: number | null): DaySummary => ({
  day: firstDay + k,
  date: "",
  mean,
  min: mean === null ? null : mean - 5,
  max: mean === null ? null : mean + 5,
  minAt: mean === null ? null : (firstDay + k) * 86_400_000,
  maxAt: mean === null ? null : (firstDay + k) * 86_400_000 + 1,
  coverage: mean === null ? 0 : 1,
});
const days = (n: number, mean: (k: number) => number | null): DaySummary[] => Array.from({ length: n }, (_, k) => day(k, mean(k)));

describe("monthMean", () => {
  it("a complete month has an interval without width", () => {
    const got = monthMean([1, 2, 3, 4, 5, 6], "K");
    expect(got?.mean).toEqual({ value: 3.5, standardError: 0, low: 3.5, high: 3.5, level: 0.95, unit: "K" });
  });

  it("independent days missing at random: near the plain finite formula", () => {
    const { normal } = random(5);
    const daily = Float64Array.from({ length: 30 }, (_, k) => (k % 3 === 0 ? Number.NaN : normal()));
    const got = monthMean(daily, "K", { phi: 0 });
    const present = daily.filter((v) => !Number.isNaN(v));
    const mean = present.reduce((a, b) => a + b, 0) / 20;
    const variance = present.reduce((s, v) => s + (v - mean) ** 2, 0) / 19;
    expectClose(got?.mean.standardError ?? Number.NaN, Math.sqrt(variance * (1 / 20 - 1 / 30)), { relative: 1e-12 });
  });

  it("a block costs more than scattered days", () => {
    const { normal } = random(6);
    const daily = Float64Array.from({ length: 30 }, () => normal());
    const scattered = monthMean(daily.map((v, k) => (k % 3 === 0 ? Number.NaN : v)), "K", { phi: 0.7 });
    const block = monthMean(daily.map((v, k) => (k >= 10 && k < 20 ? Number.NaN : v)), "K", { phi: 0.7 });
    expect(block?.mean.standardError ?? 0).toBeGreaterThan(1.5 * (scattered?.mean.standardError ?? 9));
  });

  it("under 5 days there is none", () => {
    expect(monthMean([1, 2, 3, 4, Number.NaN], "K")).toBeNull();
    expect(monthMean([1, 2, 3, 4, 5], "K")).not.toBeNull();
  });

  it("memory: 0 without neighbors, at most 0.9", () => {
    expect(dayMemory([[1, Number.NaN, -1, Number.NaN, 1, Number.NaN, -1]])).toBe(0);
    expect(dayMemory([Array.from({ length: 30 }, (_, k) => (k < 15 ? -1 : 1))])).toBe(0.9);
    expect(dayMemory([Array.from({ length: 30 }, (_, k) => (k % 2 === 0 ? -1 : 1))])).toBe(0);
  });
});

describe("monthlySummaries", () => {
  it("names months, means, extremes, coverage", () => {
    const got = monthlySummaries(days(59, (k) => k), "degC");
    expect(got.map((m) => m.date)).toEqual(["2023-01", "2023-02"]);
    expectClose(got[0].mean?.value ?? Number.NaN, 15, { absolute: 1e-12 });
    expect([got[1].min, got[1].max, got[1].coverage]).toEqual([26, 63, 1]);
    expect(got[1].maxAt).toBe((firstDay + 58) * 86_400_000 + 1);
  });

  it("needs 20 days and no gap over 7", () => {
    const mean = (missing: (k: number) => boolean): number | null => monthlySummaries(days(31, (k) => (missing(k) ? null : 3 + (k % 3))), "degC")[0].mean?.value ?? null;
    expect(mean((k) => k % 3 === 0)).not.toBeNull();
    expect(mean((k) => k % 3 === 0 || k === 1)).toBeNull();
    expect(mean((k) => k >= 5 && k < 12)).not.toBeNull();
    expect(mean((k) => k >= 5 && k < 13)).toBeNull();
  });

  it("takes the memory from the whole record from three months on", () => {
    const { normal } = random(9);
    let x = 0;
    const means = Array.from({ length: 90 }, (_, k) => {
      x = 0.6 * x + normal();
      return k % 30 === 11 ? null : x;
    });
    const one = (n: number): number => monthlySummaries(days(n, (k) => means[k]), "degC")[0].mean?.standardError ?? Number.NaN;
    const own = monthMean(means.slice(0, 31).map((v) => v ?? Number.NaN), "degC")?.mean.standardError ?? Number.NaN;
    expect(one(59)).toBe(own);
    expect(Math.abs(one(90) / own - 1)).toBeGreaterThan(1e-6);
  });

  it("a broken first month tells its coverage; nothing of nothing", () => {
    const got = monthlySummaries(days(40, (k) => k).slice(10), "degC");
    expectClose(got[0].coverage, 21 / 31, { absolute: 1e-12 });
    expect(got[0].mean).toBeNull();
    expect(monthlySummaries([], "degC")).toEqual([]);
  });
});

describe("yearlySummaries", () => {
  it("weighs months by their days, and is null with one missing", () => {
    const whole = yearlySummaries(monthlySummaries(days(365, (k) => k), "degC"), "degC");
    expectClose(whole[0].mean?.value ?? Number.NaN, 182, { absolute: 1e-9 });
    expect([whole[0].date, whole[0].min, whole[0].max, whole[0].coverage]).toEqual(["2023", -5, 369, 1]);
    expect(whole[0].mean?.standardError).toBe(0);
    const broken = yearlySummaries(monthlySummaries(days(365, (k) => (k >= 40 && k < 52 ? null : k)), "degC"), "degC");
    expect(broken[0].mean).toBeNull();
    expectClose(broken[0].coverage, 353 / 365, { absolute: 1e-12 });
    expect(yearlySummaries([], "degC")).toEqual([]);
  });

  it("carries the months' errors", () => {
    const monthly = monthlySummaries(days(365, (k) => (k % 31 === 7 ? null : Math.sin(k))), "degC");
    const got = yearlySummaries(monthly, "degC")[0].mean;
    const expected = Math.sqrt(monthly.reduce((s, m) => s + (((monthStart(m.month + 1) - monthStart(m.month)) / 365) * (m.mean?.standardError ?? 0)) ** 2, 0));
    expectClose(got?.standardError ?? Number.NaN, expected, { relative: 1e-12 });
    expect(expected).toBeGreaterThan(0);
  });
});

describe("sameMonths", () => {
  it("compares only the months that both years have", () => {
    // 2023 from March on, 2024 to June: March to June are in both.
    const late = days(365 + 182, (k) => (k < 365 ? 10 : 12)).slice(59);
    const got = sameMonths(monthlySummaries(late, "degC"), "K");
    expect(got.length).toBe(1);
    expect([got[0].year, got[0].against]).toEqual([2024, 2023]);
    expect(got[0].months).toEqual(["2024-03", "2024-04", "2024-05", "2024-06"]);
    expectClose(got[0].difference.value, 2, { absolute: 1e-12 });
    expect(got[0].byMonth.length).toBe(4);
    expect(got[0].difference.unit).toBe("K");
  });

  it("has nothing to say of one year", () => expect(sameMonths(monthlySummaries(days(300, () => 1), "degC"), "K")).toEqual([]));

  it("civilMonth of the first day is January 2023", () => expect(civilMonth(firstDay)).toBe(12 * 2023));
});
