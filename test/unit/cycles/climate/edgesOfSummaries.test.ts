import { describe, expect, it } from "vitest";
import { type DaySummary, dailySummaries, isOneADay } from "../../../../lib/cycles/climate/dailySummary.js";
import { type MonthSummary, monthlySummaries } from "../../../../lib/cycles/climate/monthlySummary.js";
import { placeClimate, trendAnswer } from "../../../../lib/cycles/climate/placeClimate.js";
import { yearlySummaries } from "../../../../lib/cycles/climate/yearlySummary.js";
import { tQuantile } from "../../../../lib/ground/distributions.js";
import { estimate } from "../../../../lib/ground/estimate.js";
import { flagBit } from "../../../../lib/record/flag.js";
import { type Series, series } from "../../../../lib/record/series.js";
import { expectClose } from "../../../close.js";

const start = Date.UTC(2020, 0, 1);
const dayMs = 86_400_000;
const every = (stepSeconds: number, count: number, value: (i: number) => number, quantity: "air_temperature" | "surface_air_pressure" = "air_temperature"): Series =>
  series({ times: Array.from({ length: count }, (_, i) => start + 1000 * stepSeconds * i), values: Array.from({ length: count }, (_, i) => value(i)), quantity });

describe("placeClimate, its words and units", () => {
  const wordsOf = (stepSeconds: number): readonly string[] => placeClimate(every(stepSeconds, 30, (i) => i), 0).warnings;
  const missed = (what: string): string => `readings every ${what} miss the true lowest and highest: those of the readings are told`;

  it("tells steps over a quarter of an hour, in minutes or hours, and one value a day", () => {
    expect(wordsOf(900)).toEqual([]);
    expect(wordsOf(901)).toEqual([missed("15 minutes")]);
    expect(wordsOf(1800)).toEqual([missed("30 minutes")]);
    expect(wordsOf(5399)).toEqual([missed("90 minutes")]);
    expect(wordsOf(5400)).toEqual([missed("2 hours")]);
    expect(wordsOf(10800)).toEqual([missed("3 hours")]);
    expect(wordsOf(86400)).toEqual(["one value a day: each is taken as the mean of its day, and no lowest or highest is told"]);
    expect(Object.isFrozen(wordsOf(900))).toBe(true);
  });

  it("a yearly round from 365 days on, of which seven in ten have a mean; a difference of °C is in K, of hPa in hPa", () => {
    const wave = (i: number): number => 10 + 5 * Math.cos((2 * Math.PI * i) / 365.25);
    const year = (count: number, missing = 0, quantity: "air_temperature" | "surface_air_pressure" = "air_temperature") => placeClimate(every(86400, count, (i) => (i >= 5 && i < 5 + missing ? Number.NaN : wave(i)), quantity), 0);
    expect([year(364).annualCycle, year(364).annualCycleToGo]).toEqual([null, 1]);
    expect([year(365).annualCycle === null, year(365).annualCycleToGo, year(400).annualCycleToGo]).toEqual([false, 0, 0]);
    expect(year(365).annualCycle!.amplitude.unit).toBe("K");
    expect(year(400, 0, "surface_air_pressure").annualCycle!.amplitude.unit).toBe("hPa");
    expect([year(365).trend.unit, year(365, 0, "surface_air_pressure").trend.unit]).toEqual(["K", "hPa"]);
    expect(year(400, 120).annualCycle).not.toBe(null);
    expect([year(400, 121).annualCycle, year(400, 121).warnings.at(-1)]).toEqual([null, "no yearly round: only 70 % of the days have a mean"]);
    expect(year(365, 120).warnings.at(-1)).toBe("no yearly round: only 67 % of the days have a mean");
    // Ten days from 20:00: the four hours of the first evening make no mean.
    const evening = { ...every(3600, 240, (i) => i % 24), start: start + 20 * 3600_000 };
    expect(placeClimate(evening, 0).annualCycleToGo).toBe(355);
    // The span runs from the first to the last day with a mean.
    const late = placeClimate(every(86400, 400, (i) => (i < 40 ? Number.NaN : wave(i))), 0);
    expect([late.annualCycle, late.annualCycleToGo]).toEqual([null, 5]);
    expect(Object.isFrozen(late)).toBe(true);
  });
});

describe("trendAnswer at its edges", () => {
  const month = (k: number, value: number | null): MonthSummary => ({
    month: 12 * 2010 + k, date: "", min: null, max: null, minAt: null, maxAt: null, coverage: 1,
    mean: value === null ? null : estimate({ value, standardError: 0, low: value, high: value, unit: "degC" }),
  });
  const months = (n: number, value: (k: number) => number | null): MonthSummary[] => Array.from({ length: n }, (_, k) => month(k, value(k)));
  const noisy = (k: number): number => Math.sin(k) + Math.cos(2.3 * k * k);

  it("says what a short record lacks", () => {
    const got = trendAnswer(months(12, noisy), 365, "K");
    expect(got).toEqual({ slope: null, unit: "K", fit: null, robust: null, reason: "a trend needs at least 5 years: weather alone makes slopes of degrees a decade in shorter records", daysToGo: 1462 });
    expect(Object.isFrozen(got)).toBe(true);
  });

  it("three of four months, and 48 at least, of every month of the year", () => {
    const days = 3652;
    expect(trendAnswer(months(100, (k) => (k % 4 === 3 ? null : noisy(k))), days, "K").reason).toMatch(/^too many months/);
    // A quarter missing, spread over the year: 90 of 120.
    const quarter = (k: number): number | null => (k % 4 === Math.floor(k / 12) % 4 ? null : noisy(k));
    expect(trendAnswer(months(120, quarter), days, "K").slope).not.toBe(null);
    const more = trendAnswer(months(120, (k) => (k === 119 ? null : quarter(k))), days, "K");
    expect([more.slope, more.reason]).toEqual([null, "too many months are missing: 89 of 120 have a mean"]);
    // 0.75 · 120 − 89 = 1 month of 0.25 a month: 4 months.
    expect(more.daysToGo).toBe(Math.ceil(30.44 * 4));
    const few = (n: number): string => trendAnswer(months(61, (k) => (k < n ? noisy(k) : null)), 1827, "K").reason;
    expect(few(48)).toBe("not counting sensor drift: 0.1 a year of drift is 1 a decade");
    expect(few(47)).toBe("too many months are missing: 47 of 61 have a mean");
    expect(trendAnswer(months(61, (k) => (k < 47 ? noisy(k) : null)), 1827, "K").daysToGo).toBe(31);
    const noJanuary = trendAnswer(months(120, (k) => (k % 12 === 0 ? null : noisy(k))), days, "K");
    expect([noJanuary.slope, noJanuary.daysToGo]).toEqual([null, Math.ceil(30.44 * 12)]);
  });

  it("the slope is per decade, the days to a wished one whatever its sign, 0 where none is wished or nothing scatters", () => {
    const rising = trendAnswer(months(120, (k) => noisy(k) + k / 60), 3652, "K", 0.3);
    expect(rising.daysToGo).toBe(trendAnswer(months(120, (k) => noisy(k) + k / 60), 3652, "K", -0.3).daysToGo);
    expect(rising.daysToGo).toBeGreaterThan(trendAnswer(months(120, (k) => noisy(k) + k / 60), 3652, "K", 0.6).daysToGo);
    expect(trendAnswer(months(120, noisy), 3652, "K", 0).daysToGo).toBe(0);
    const line = trendAnswer(months(120, (k) => k / 60), 3652, "K", 0.3);
    expectClose(line.robust!.slope.value, 2, { absolute: 1e-9 });
    // Only like months are compared: a year of 40 K, five years and a half long, moves nothing.
    expectClose(trendAnswer(months(66, (k) => k / 60 + 20 * Math.cos((2 * Math.PI * k) / 12)), 2009, "K").robust!.slope.value, 2, { absolute: 1e-9 });
    expectClose(line.slope!.value, 2, { absolute: 1e-3 });
    expect(trendAnswer(months(120, () => 5), 3652, "K", 0.3).daysToGo).toBe(0);
    expect([rising.unit, rising.slope === rising.fit!.slope, Object.isFrozen(rising)]).toEqual(["K", true, true]);
  });
});

describe("yearlySummaries at their edges", () => {
  const month = (k: number, standardError: number | null, coverage = 1): MonthSummary => ({
    month: k, date: "", min: k, max: k, minAt: k, maxAt: k, coverage,
    mean: standardError === null ? null : estimate({ value: 3, standardError, low: 3 - standardError, high: 3 + standardError, unit: "degC" }),
  });

  it("a year's error and its t come from the months, weighed by their days", () => {
    const months = Array.from({ length: 12 }, (_, m) => month(12 * 2023 + m, m === 0 ? 1 : m === 1 ? 0.5 : 0, 0.5));
    const [{ mean, coverage, date }] = yearlySummaries(months, "degC");
    const [a, b] = [(31 / 365) ** 2, ((28 / 365) * 0.5) ** 2];
    expectClose(mean!.standardError!, Math.sqrt(a + b), { relative: 1e-12 });
    // A third of the days with a mean count as independent, three at least.
    const freedom = (a + b) ** 2 / (a ** 2 / (15.5 / 3) + b ** 2 / (14 / 3));
    expectClose(mean!.high - mean!.value, tQuantile(0.975, freedom) * mean!.standardError!, { relative: 1e-12 });
    expectClose(mean!.value - mean!.low, mean!.high - mean!.value, { relative: 1e-12 });
    expectClose(coverage, 0.5, { absolute: 1e-12 });
    expect([date, mean!.unit]).toEqual(["2023", "degC"]);
    const bare = yearlySummaries(Array.from({ length: 12 }, (_, m) => month(12 * 2023 + m, m === 0 ? 1 : 0, 0.01)), "degC")[0].mean!;
    expectClose(bare.high - bare.value, tQuantile(0.975, 3) * bare.standardError!, { relative: 1e-9 });
  });

  it("leap years, early years, a year without its twelfth month, and years between", () => {
    const whole = (year: number, count = 12): MonthSummary[] => Array.from({ length: count }, (_, m) => month(12 * year + m, 0));
    expect(yearlySummaries(whole(2024), "K")[0]).toMatchObject({ year: 2024, coverage: 1 });
    expect(yearlySummaries(whole(900), "K")[0].date).toBe("0900");
    expect(yearlySummaries(whole(2023, 11), "K")[0].mean).toBe(null);
    const two = yearlySummaries([...whole(2021), ...whole(2022), ...whole(2023, 2)], "K");
    expect(two.map((y) => [y.year, y.mean === null, y.min, y.max])).toEqual([[2021, false, 24252, 24263], [2022, false, 24264, 24275], [2023, true, 24276, 24277]]);
    expect([two, two[0], yearlySummaries([], "K")].every(Object.isFrozen)).toBe(true);
    const gap = whole(2022);
    gap[5] = month(12 * 2022 + 5, null, 0.25);
    expect(yearlySummaries(gap, "K")[0].mean).toBe(null);
    expectClose(yearlySummaries(gap, "K")[0].coverage, (365 - 22.5) / 365, { absolute: 1e-12 });
  });
});

describe("dailySummaries at their edges", () => {
  it("once a day is from 20 to 28 hours apart", () => {
    for (const [step, once] of [[71_999, false], [72_000, true], [86_400, true], [100_800, true], [100_801, false]] as const) expect(isOneADay({ stepSeconds: step })).toBe(once);
  });

  it("one value a day is its day's mean, several are averaged, missing days stay", () => {
    const s = series({ times: [start, start + dayMs, start + 3 * dayMs, start + 4 * dayMs, start + 4.25 * dayMs], values: [1, 2, 4, 5, 7], quantity: "air_temperature" });
    const days = dailySummaries(s, 0);
    expect(days.map((d) => [d.date, d.mean, d.coverage])).toEqual([["2020-01-01", 1, 1], ["2020-01-02", 2, 1], ["2020-01-03", null, 0], ["2020-01-04", 4, 1], ["2020-01-05", 6, 1]]);
    expect([days[0].min, days[0].max, days[0].minAt, days[0].maxAt]).toEqual([null, null, null, null]);
    expect(days.map((d) => d.day)).toEqual([18262, 18263, 18264, 18265, 18266]);
    expect(dailySummaries(every(3600, 72, (i) => i), 0).map((d) => [d.day, d.date])).toEqual([[18262, "2020-01-01"], [18263, "2020-01-02"], [18264, "2020-01-03"]]);
    expect([days, days[0]].every(Object.isFrozen)).toBe(true);
  });

  it("takes offsets up to 26 hours, and refuses readings that cannot be unless they are left out already", () => {
    const s = every(3600, 48, (i) => i);
    expect(dailySummaries(s, 26).length).toBeGreaterThan(0);
    expect(() => dailySummaries(s, 26.5)).toThrow("dailySummaries: offsetHours must be from -26 to 26 h (got 26.5 h)");
    const wild = { ...s, values: s.values.map((v, i) => (i === 3 ? 1e61 : v)) };
    expect(() => dailySummaries(wild, 0)).toThrow("dailySummaries: values must lie within ±1e+60 (got 1e+61 at index 3)");
    const flags = s.flags.slice();
    flags[3] = flagBit.spike;
    expectClose(dailySummaries({ ...wild, flags }, 0)[0].coverage, 23 / 24, { absolute: 1e-12 });
    expect(dailySummaries(every(3600, 3, () => Number.NaN), 0)).toEqual([]);
    expect(Object.isFrozen(dailySummaries(every(3600, 0, () => 0), 0))).toBe(true);
  });

  it("readings every two hours cover as many; every four hours only their own", () => {
    const covered = (hours: number): number => dailySummaries(every(3600 * hours, Math.round(240 / hours), (i) => i % 5), 0)[4].coverage;
    expect([1, 2, 3].map(covered)).toEqual([1, 1, 1]);
    expectClose(covered(4), 0.25, { absolute: 1e-12 });
  });

  it("the first and last hours of a record are held at their nearest departure, the first of equal extremes is told", () => {
    // Ten days of one cycle, less the first two hours: with the cycle put back the mean is that of the cycle.
    const cycle = (i: number): number => 10 + 4 * Math.cos((2 * Math.PI * (i + 0.5 - 14.5)) / 24);
    const head = dailySummaries(every(3600, 240, (i) => (i < 2 || i >= 238 ? Number.NaN : cycle(i))), 0);
    expectClose(head[0].mean!, 10, { absolute: 1e-9 });
    expectClose(head[9].mean!, 10, { absolute: 1e-9 });
    const square = dailySummaries(every(600, 144 * 10, (i) => (i % 144 < 72 ? 1 : 2)), 0) as readonly DaySummary[];
    expect([square[4].minAt, square[4].maxAt]).toEqual([start + 4 * dayMs, start + 4.5 * dayMs]);
    expect(monthlySummaries(square, "K").length).toBe(1);
  });

  /** Warmest at 14.5 h, lowest at 2.5 h. */
  const wave = (hour: number): number => 10 + 4 * Math.cos((2 * Math.PI * (hour - 14.5)) / 24);
  const without = (s: Series, fromHour: number, toHour: number): Series => ({ ...s, values: s.values.map((v, i) => (s.seconds[i] >= 3600 * fromHour && s.seconds[i] < 3600 * toHour ? Number.NaN : v)) });

  it("an extreme is told unless a gap reaches into the four hours on each side of its usual hour", () => {
    const whole = every(600, 144 * 20, (i) => wave(i / 6));
    const max = (from: number, to: number): number | null => dailySummaries(without(whole, 192 + from, 192 + to), 0)[8].max;
    // Between the readings at 9:00 and 10:20, then 10:40; the window is 10:30 to 18:30.
    expect(max(9.1, 10.3)).not.toBe(null);
    expect(max(9.1, 10.6)).toBe(null);
    expect(max(18.4, 19.6)).toBe(null);
    expect(max(18.6, 20)).not.toBe(null);
    // An hour between readings is no gap, an hour and ten minutes is one.
    expect(max(12.1, 13)).not.toBe(null);
    expect(max(12.1, 13.1)).toBe(null);
  });

  it("a record that begins after the usual hour, or ends before it, tells no extreme of that day", () => {
    const days = dailySummaries(without(without(every(600, 144 * 20, (i) => wave(i / 6)), 0, 16), 19 * 24 + 12, 480), 0);
    expect([days[0].min, days[0].max, days[19].max]).toEqual([null, null, null]);
    expect([days[1].max === null, days[19].min === null]).toEqual([false, false]);
  });

  it("two missing hours are filled with the day's own shape, and a long gap to midnight leaves the next day alone", () => {
    const whole = every(3600, 480, (i) => wave(i + 0.5));
    expectClose(dailySummaries(without(whole, 206, 208), 0)[8].mean!, 10, { absolute: 1e-9 });
    const late = dailySummaries(without(whole, 192 + 17, 216), 0);
    expect([late[8].mean, late[9].mean === null]).toEqual([null, false]);
  });

  it("the last readings of a record keep their own departure", () => {
    const hours = every(3600, 240, (i) => (i >= 238 ? Number.NaN : wave(i + 0.5) + (i === 236 ? 24 : 0)));
    expectClose(dailySummaries(hours, 0)[9].mean!, 11, { absolute: 1e-9 });
  });
});
