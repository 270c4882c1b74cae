import { describe, expect, it } from "vitest";
import { daysForMean, daysForTrend, daysToGo, yearsForTrend } from "../../../../lib/cycles/climate/daysToGo.js";
import { monthlyTrend } from "../../../../lib/cycles/climate/monthlyTrend.js";
import type { MonthSummary } from "../../../../lib/cycles/climate/monthlySummary.js";
import { placeClimate, trendAnswer } from "../../../../lib/cycles/climate/placeClimate.js";
import { mannKendall, theilSen } from "../../../../lib/cycles/climate/robustTrend.js";
import { yearlyRound } from "../../../../lib/cycles/climate/yearlyRound.js";
import { RecordError } from "../../../../lib/ground/complaint.js";
import { estimate } from "../../../../lib/ground/estimate.js";
import { random } from "../../../../lib/ground/random.js";
import { series } from "../../../../lib/record/series.js";
import { expectClose } from "../../../close.js";

const firstDay = Date.UTC(2022, 3, 10) / 86_400_000;
const newYear = Date.UTC(2022, 0, 1) / 86_400_000;

/** Daily means: crest of `size` at a day of the year, memory 0.7 from day to day. */
function round(days: number, seed: number, noise = 3, size = 8, crest = 200): Float64Array {
  const { normal } = random(seed);
  let x = 0;
  return Float64Array.from({ length: days }, (_, k) => {
    x = 0.7 * x + Math.sqrt(1 - 0.49) * normal();
    return 10 + size * Math.cos((2 * Math.PI * (firstDay + k + 0.5 - newYear - (crest - 1))) / 365.2425) + noise * x;
  });
}

describe("yearlyRound", () => {
  it("gives back an exact round", () => {
    for (const [days, harmonics] of [[365, 1], [729, 1], [730, 2], [1500, 2]]) {
      const got = yearlyRound(round(days, 1, 1e-9), firstDay, "degC", "K");
      expect(got.harmonics).toBe(harmonics);
      expect(got.coefficients.length).toBe(1 + 2 * harmonics);
      expectClose(got.mean.value, 10, { absolute: 1e-6 });
      expectClose(got.amplitude.value, 8, { absolute: 1e-6 });
      expectClose(got.maximumOn?.value ?? Number.NaN, 200, { absolute: 1e-5 });
      expect([got.mean.unit, got.amplitude.unit, got.maximumOn?.unit]).toEqual(["degC", "K", "d"]);
    }
  });

  it("gaps do not move it: columns are averaged like the values", () => {
    const daily = round(800, 2, 1e-9).map((v, k) => (k % 5 < 2 && k % 35 < 20 ? Number.NaN : v));
    daily.fill(Number.NaN, 300, 340);
    daily.fill(Number.NaN, 0, 7);
    const got = yearlyRound(daily, firstDay, "degC", "K");
    expectClose(got.amplitude.value, 8, { absolute: 1e-6 });
    expectClose(got.maximumOn?.value ?? Number.NaN, 200, { absolute: 1e-5 });
    expect(got.days).toBe(793);
  });

  it("tells no day of a crest where no round stands out", () => {
    const got = yearlyRound(round(400, 4, 3, 0.05), firstDay, "degC", "K");
    expect([got.detected, got.maximumOn, got.amplitude.low]).toEqual([false, null, 0]);
    const clear = yearlyRound(round(400, 4, 3, 8), firstDay, "degC", "K");
    expect(clear.detected).toBe(true);
    expect(clear.amplitude.low).toBeGreaterThan(0);
  });

  it("finds a round in about 5 of 100 records without one", () => {
    let found = 0;
    for (let seed = 1; seed <= 200; seed++) if (yearlyRound(round(500, seed, 3, 0), firstDay, "degC").detected) found++;
    expect(found).toBeGreaterThanOrEqual(2);
    expect(found).toBeLessThanOrEqual(20);
  });

  it("crest near the turn of the year keeps low and high unwrapped", () => {
    const got = yearlyRound(round(1200, 5, 3, 8, 2), firstDay, "degC", "K").maximumOn;
    expect(got).not.toBeNull();
    if (got === null) return;
    expect(got.low).toBeLessThan(got.value);
    expect(got.value).toBeGreaterThanOrEqual(1);
    expect(got.value).toBeLessThan(366.2425);
  });

  it("says that few years are no climate, until three", () => {
    expect(yearlyRound(round(1094, 6), firstDay, "degC").warnings.length).toBe(1);
    expect(yearlyRound(round(1095, 6), firstDay, "degC").warnings).toEqual([]);
  });

  it("refuses under a year and half-empty records", () => {
    expect(() => yearlyRound(round(364, 7), firstDay, "degC")).toThrow(new RecordError("yearlyRound: daily must span at least 365 d (got 364 d); log 1 more day", "data"));
    const empty = round(400, 7).map((v, k) => (k > 20 && k < 380 ? Number.NaN : v));
    expect(() => yearlyRound(empty, firstDay, "degC")).toThrow("yearlyRound: daily must hold at least half of its days");
    expect(() => yearlyRound([Number.NaN], firstDay, "degC")).toThrow(RecordError);
  });
});

describe("monthlyTrend", () => {
  const months = (years: number, perDecade: number, noise: number, seed = 3): Float64Array => {
    const { normal } = random(seed);
    return Float64Array.from({ length: 12 * years }, (_, k) => 10 + 8 * Math.cos((Math.PI * k) / 6) + (perDecade * k) / 120 + noise * normal());
  };

  it("takes the season out, whatever its form and the first month", () => {
    for (const first of [0, 7]) {
      const got = monthlyTrend(months(6, 1.5, 1e-9), first, "K");
      expectClose(got.slope.value, 1.5, { absolute: 1e-6 });
      expect(got.slope.unit).toBe("K");
    }
  });

  it("missing months do not move an exact one", () => {
    const values = months(6, -2, 1e-9);
    for (const k of [3, 4, 40, 70]) values[k] = Number.NaN;
    const got = monthlyTrend(values, 0, "K");
    expectClose(got.slope.value, -2, { absolute: 1e-6 });
    expect(got.monthsPresent).toBe(68);
  });

  it("its error is near the formula σ√((1 + φ)/(1 − φ))/Y^1.5", () => {
    const got = monthlyTrend(months(20, 0, 1.2, 9), 0, "K");
    expectClose(got.slope.standardError / 10, (got.sigma * Math.sqrt((1 + got.phi) / (1 - got.phi))) / 20 ** 1.5, { relative: 0.01 });
  });

  it("refuses too few months", () => {
    expect(() => monthlyTrend(months(1, 0, 1), 0, "K")).toThrow(new RangeError("monthlyTrend: monthly must hold at least 24 months and each month of the year (got 12 months, 12 of the year); log longer"));
    expect(() => monthlyTrend(months(6, 0, 1).map((v, k) => (k % 12 === 2 ? Number.NaN : v)), 0, "K")).toThrow("66 months, 11 of the year");
  });
});

describe("rank tests", () => {
  it("compare only within a group", () => {
    const values = [5, 1, 6, 2, 7, 3];
    const group = [0, 1, 0, 1, 0, 1];
    const got = mannKendall(values, { group });
    expect([got.s, got.tau]).toEqual([6, 1]);
    expectClose(got.variance, 2 * ((3 * 2 * 11) / 18), { absolute: 1e-12 });
    expect(theilSen([0, 0, 1, 1, 2, 2], values, "1", { group }).slope.value).toBe(1);
    expect(mannKendall(values).s).toBe(3);
  });

  it("leave missing values out, and turn their sign with the values", () => {
    expect(mannKendall([1, Number.NaN, 2, 3, Number.NaN, 4]).s).toBe(6);
    expect(mannKendall([4, 3, 2, 1])).toMatchObject({ s: -6, tau: -1 });
    expect(mannKendall([1, 1, 1])).toEqual({ s: 0, variance: 0, z: 0, pValue: 1, tau: 0 });
  });

  it("refuse what cannot be ranked", () => {
    expect(() => mannKendall([1, 2])).toThrow(new RangeError("mannKendall: values must hold at least 3 present (got 2)"));
    expect(() => mannKendall([1, 2, 3], { group: [1] })).toThrow("mannKendall: group must have the length of values, 3 (got 1)");
    expect(() => theilSen([1, 2], [1, 2, 3], "1")).toThrow("theilSen: x must have the length of values, 3 (got 2)");
    expect(() => theilSen([1, 1, 1], [1, 2, 3], "1")).toThrow("theilSen: x must differ in at least one pair (got none)");
  });
});

describe("days to go", () => {
  it("follow their formulas", () => {
    expect([daysToGo(365, 364.9), daysToGo(365, 365), daysToGo(365, 400), daysToGo(14.8, 0)]).toEqual([1, 0, 0, 15]);
    expect([daysForMean(30, 0.6, 0.3), daysForMean(30, 0.2, 0.3)]).toEqual([120, 30]);
    expectClose(yearsForTrend(0.03, 1.2, 0.3), 31.479, { absolute: 0.001 });
    expect(yearsForTrend(5, 1.2, 0.3)).toBe(5);
    expectClose(daysForTrend(-0.03, 1.2, 0.3), 31.479 * 365.25, { relative: 1e-4 });
    expect(() => yearsForTrend(0, 1, 0)).toThrow("yearsForTrend: perYear must be");
    expect(() => yearsForTrend(1, 1, 0.99)).toThrow("yearsForTrend: phi must be");
    expect(() => daysToGo(1, Number.NaN)).toThrow("daysToGo: have must be");
    expect(() => daysForMean(1, 1, 0)).toThrow("daysForMean: wanted must be");
  });

  it("a trend of σ 1.2, φ 0.3 over ten years has an error of 0.52 a decade", () => {
    expectClose((10 * 1.2 * Math.sqrt(1.3 / 0.7)) / 10 ** 1.5, 0.52, { absolute: 0.005 });
  });
});

describe("trendAnswer", () => {
  const summary = (month: number, value: number | null): MonthSummary => ({
    month,
    date: "",
    mean: value === null ? null : estimate({ value, standardError: 0, low: value, high: value, unit: "degC" }),
    min: null,
    max: null,
    minAt: null,
    maxAt: null,
    coverage: 1,
  });
  const months = (n: number, value: (k: number) => number | null): MonthSummary[] => Array.from({ length: n }, (_, k) => summary(12 * 2010 + k, value(k)));
  const noisy = (k: number): number => Math.sin(k) + Math.cos(2.3 * k * k);

  it("under five years: no slope, the reason, the days", () => {
    expect(trendAnswer(months(59, noisy), 1826, "K")).toMatchObject({ slope: null, fit: null, robust: null, daysToGo: 1 });
    expect(trendAnswer(months(61, noisy), 1827, "K").slope).not.toBeNull();
    expect(trendAnswer(months(12, noisy), 365, "K").reason).toContain("at least 5 years");
  });

  it("slope with its caution, a companion by ranks, and the days for a slope one wants to see", () => {
    const got = trendAnswer(months(120, (k) => noisy(k) + k / 60), 3652, "K", 0.3);
    expect(got.reason).toBe("not counting sensor drift: 0.1 a year of drift is 1 a decade");
    expectClose(got.slope?.value ?? Number.NaN, 2, { absolute: 0.6 });
    expectClose(got.robust?.slope.value ?? Number.NaN, 2, { absolute: 0.6 });
    expect(got.daysToGo).toBeGreaterThan(365);
    expect(trendAnswer(months(120, (k) => noisy(k) + k / 60), 3652, "K").daysToGo).toBe(0);
  });

  it("too many missing months: why, and how long at least", () => {
    const got = trendAnswer(months(72, (k) => (k >= 20 && k < 45 ? null : noisy(k))), 2191, "K");
    expect(got.slope).toBeNull();
    expect(got.reason).toBe("too many months are missing: 47 of 72 have a mean");
    expect(got.daysToGo).toBe(Math.ceil(30.44 * 28));
  });
});

describe("placeClimate", () => {
  const start = Date.UTC(2020, 0, 1);
  const hourly = (days: number): Parameters<typeof placeClimate>[0] => {
    const times = Array.from({ length: 24 * days }, (_, i) => start + 3_600_000 * i);
    const { normal } = random(12);
    return series({ times, values: times.map((t) => 10 + 8 * Math.cos((2 * Math.PI * (t - start)) / 86_400_000 / 365.25) + 0.5 * normal()), quantity: "air_temperature" });
  };

  it("tells what a record carries and what is still to log", () => {
    const short = placeClimate(hourly(200), 0);
    expect([short.annualCycle, short.annualCycleToGo, short.trend.slope, short.trend.daysToGo]).toEqual([null, 165, null, 1827 - 200]);
    expect(short.warnings).toEqual(["readings every 60 minutes miss the true lowest and highest: those of the readings are told"]);
    const long = placeClimate(hourly(800), 0);
    expectClose(long.annualCycle?.amplitude.value ?? Number.NaN, 8, { absolute: 0.2 });
    expect(long.annualCycle?.amplitude.unit).toBe("K");
    expect(long.yearly.map((y) => y.mean === null)).toEqual([false, false, true]);
    expect(long.years.map((y) => y.months.length)).toEqual([12, 2]);
    expect(long.annualCycleToGo).toBe(0);
  });

  it("says that too few days have a mean for a round", () => {
    const s = hourly(400);
    s.values.fill(Number.NaN, 24 * 100, 24 * 300);
    expect(placeClimate(s, 0).warnings).toContain("no yearly round: only 50 % of the days have a mean");
  });

  it("an empty series is told as such, not thrown", () => {
    const got = placeClimate(series({ times: [], values: [], quantity: "air_temperature" }), 0);
    expect([got.daily.length, got.monthly.length, got.annualCycle, got.annualCycleToGo]).toEqual([0, 0, null, 365]);
  });
});
