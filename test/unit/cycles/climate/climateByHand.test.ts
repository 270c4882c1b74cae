import { describe, expect, it } from "vitest";
import { monthStart } from "../../../../lib/cycles/climate/civilDay.js";
import { civilHours } from "../../../../lib/cycles/climate/civilHours.js";
import { countedDays } from "../../../../lib/cycles/climate/countedDays.js";
import type { DaySummary } from "../../../../lib/cycles/climate/dailySummary.js";
import { dayShape } from "../../../../lib/cycles/climate/dayShape.js";
import { daysForMean, daysToGo, yearsForTrend } from "../../../../lib/cycles/climate/daysToGo.js";
import { dewPointRange } from "../../../../lib/cycles/climate/dewPointRange.js";
import { dayMemory, monthMean } from "../../../../lib/cycles/climate/monthMean.js";
import { extremesOf, type MonthSummary, monthlySummaries } from "../../../../lib/cycles/climate/monthlySummary.js";
import { monthlyTrend } from "../../../../lib/cycles/climate/monthlyTrend.js";
import { mannKendall, theilSen } from "../../../../lib/cycles/climate/robustTrend.js";
import { sameMonths } from "../../../../lib/cycles/climate/sameMonths.js";
import { yearlyRound } from "../../../../lib/cycles/climate/yearlyRound.js";
import type { RecordError } from "../../../../lib/ground/complaint.js";
import { fQuantile, tQuantile } from "../../../../lib/ground/distributions.js";
import { estimate } from "../../../../lib/ground/estimate.js";
import { olsAr1 } from "../../../../lib/ground/regressionAr1.js";
import { flagBit } from "../../../../lib/record/flag.js";
import { expectClose } from "../../../close.js";

const _ = Number.NaN;

describe("memory of days and the mean of a month, by hand", () => {
  it("pairs of neighbors over squares, with what small samples lose given back", () => {
    // Ten days in two stretches: squares 19 and 26; products −6 of three pairs, 5 of four.
    const stretches = [[1, -2, 3, _, 1, 2], [2, 1, -1, 4, 2]];
    const r = (-6 + 5) / 7 / ((19 + 26) / 10);
    expectClose(dayMemory(stretches), (10 * r + 2) / (10 - 8), { absolute: 1e-14 });
    // Four days a stretch leave nothing to divide by.
    expect(dayMemory([[1, 2, 1, 2]])).toBe(0);
    // Five: r is 15/4 over 17/5, so (5 r + 1) / 1 is over 0.9.
    expect(dayMemory([[2, 2, 2, 2, 1]])).toBe(0.9);
    expect([dayMemory([[0, 0, 0, 0, 0]]), dayMemory([])]).toEqual([0, 0]);
    // Five days without a neighbor; six days in two stretches.
    expect([dayMemory([[1, _, 2, _, 1, _, 3, _, 1]]), dayMemory([[1, 2, 1], [2, 1, 2]])]).toEqual([0, 0]);
  });

  it("what the missing days leave open: their weights' products remembered by φ", () => {
    const daily = [1, 3, 2, _, 5, 4, 3, _];
    const [phi, n, total] = [0.5, 6, 8];
    const double = (a: readonly number[]): number => a.reduce((s, v, i) => s + a.reduce((t, w, j) => t + v * w * phi ** Math.abs(i - j), 0), 0);
    const weight = daily.map((v) => (Number.isNaN(v) ? 0 : 1 / n));
    const gamma = (4 + 0 + 1 + 4 + 1 + 0) / n / (1 - double(weight));
    const got = monthMean(daily, "K", { phi })!;
    expect([got.mean.value, got.phi, got.daysPresent, got.mean.unit, Object.isFrozen(got)]).toEqual([3, 0.5, 6, "K", true]);
    expectClose(got.gamma, gamma, { relative: 1e-12 });
    const error = Math.sqrt(gamma * double(weight.map((w) => w - 1 / total)));
    expectClose(got.mean.standardError, error, { relative: 1e-12 });
    // A third of six days are two degrees of freedom; three are the least (t 3.1824 in printed tables).
    expectClose((got.mean.high - 3) / error, 3.18244630528371, { relative: 1e-9 });
    expectClose(3 - got.mean.low, got.mean.high - 3, { relative: 1e-12 });
    const long = monthMean(Array.from({ length: 31 }, (_v, k) => (k === 30 ? _ : Math.sin(k * k))), "K", { phi: 0 })!;
    expectClose((long.mean.high - long.mean.value) / long.mean.standardError, tQuantile(0.975, 10), { relative: 1e-9 });
    // So much memory that a mean holds all of it: the variance is at most its own square over 0.3.
    expectClose(monthMean([1, 2, 3, 4, 5], "K", { phi: 0.9 })!.gamma, 2 / 0.3, { relative: 1e-12 });
    // Its own memory where none is told: that of the departures −2 0 −1 . 2 1 0 .
    expectClose(monthMean(daily, "K")!.phi, dayMemory([[-2, 0, -1, _, 2, 1, 0, _]]), { absolute: 1e-14 });
  });
});

const day0 = Date.UTC(2023, 0, 1) / 86_400_000;
const dayOf = (k: number, mean: number | null, more: Partial<DaySummary> = {}): DaySummary => ({ day: day0 + k, date: "", mean, min: mean, max: mean, minAt: k, maxAt: k, coverage: 1, ...more });

describe("months by hand", () => {
  const of = (means: readonly (number | null)[]): readonly MonthSummary[] => monthlySummaries(means.map((m, k) => dayOf(k, m)), "degC");

  it("twenty days and no gap over seven; the share of the month's own days", () => {
    const january = (isThere: (k: number) => boolean): MonthSummary => of(Array.from({ length: 31 }, (_v, k) => (isThere(k) ? k : null)))[0];
    expect([january((k) => k >= 5 && k % 6 !== 0).mean === null, january((k) => k < 22 && k !== 7 && k !== 14).mean === null]).toEqual([false, true]);
    expect([january((k) => k < 10 || k > 16).mean === null, january((k) => k < 10 || k > 17).mean === null]).toEqual([false, true]);
    expect([january((k) => k < 20).mean, january((k) => k > 6 && k % 5 !== 0).mean === null, january((k) => k > 5 && k % 5 !== 0).mean === null]).toEqual([null, true, false]);
    expect(january((k) => k >= 4).coverage).toBe(27 / 31);
    // A record that begins on the 5th of a month holds 27 of its 31 days.
    const late = monthlySummaries(Array.from({ length: 40 }, (_v, k) => dayOf(k + 4, 1)), "degC");
    expect(late.map((m) => [m.date, m.coverage, m.mean === null])).toEqual([["2023-01", 27 / 31, false], ["2023-02", 13 / 28, true]]);
    expect([late, late[0]].every(Object.isFrozen)).toBe(true);
    expect(monthlySummaries([], "K")).toEqual([]);
  });

  it("from three months with a mean on they share one memory, of departures from each month's own mean", () => {
    const value = (k: number): number | null => (k % 9 === 4 ? null : Math.sin(k / 2) + 10 * Math.floor(k / 30));
    const months = of(Array.from({ length: 90 }, (_v, k) => value(k)));
    const parts = [[0, 31], [31, 59], [59, 90]].map(([from, to]) => Array.from({ length: to - from }, (_v, k) => value(from + k) ?? _));
    const away = parts.map((p) => {
      const there = p.filter((v) => !Number.isNaN(v));
      return p.map((v) => v - there.reduce((s, w) => s + w, 0) / there.length);
    });
    const phi = dayMemory(away);
    months.forEach(({ mean }, m) => {
      expect(mean).toEqual(monthMean(parts[m], "degC", { phi })!.mean);
    });
    // A month of fifteen days has no mean, and no part in the memory.
    const four = of(Array.from({ length: 105 }, (_v, k) => (k < 90 ? value(k) : k)));
    expect(four.map(({ mean }) => mean)).toEqual([...months.map(({ mean }) => mean), null]);
    const two = of(Array.from({ length: 59 }, (_v, k) => value(k)));
    expect(two[0].mean).toEqual(monthMean(parts[0], "degC")!.mean);
    expect(two[0].mean).not.toEqual(months[0].mean);
  });

  it("extremes: the first of equal ones, each with its own instant, nothing of nothing", () => {
    const part = (min: number | null, max: number | null, at: number) => ({ min, max, minAt: min === null ? null : at, maxAt: max === null ? null : at });
    expect(extremesOf([undefined, part(3, null, 1), part(2, 8, 2), part(2, 8, 3), part(null, 9, 4), part(null, 9, 5)])).toEqual({ min: 2, minAt: 2, max: 9, maxAt: 4 });
    expect(extremesOf([part(null, null, 1), undefined])).toEqual({ min: null, max: null, minAt: null, maxAt: null });
    expect(extremesOf([part(null, null, 1), part(-9, -5, 2)])).toEqual({ min: -9, minAt: 2, max: -5, maxAt: 2 });
    expect(extremesOf([])).toEqual({ min: null, max: null, minAt: null, maxAt: null });
  });

  it("years over the same months: mean difference, its error from both years' months, t by their days", () => {
    const month = (number: number, value: number | null, standardError = 0, coverage = 1): MonthSummary => ({
      month: number, date: "", mean: value === null ? null : estimate({ value, standardError, low: value, high: value, unit: "degC" }), min: null, max: null, minAt: null, maxAt: null, coverage,
    });
    const y = 12 * 2020;
    const got = sameMonths([month(y, 1, 0.3, 0.8), month(y + 1, 2, 0.1, 0.2), month(y + 2, null), month(y + 5, 4), month(y + 12, 2, 0.4, 0.9), month(y + 13, 5, 0.2, 0.7), month(y + 14, 9), month(y + 24, 7)], "K");
    expect(got.map((g) => [g.year, g.against, g.months, g.byMonth])).toEqual([[2021, 2020, ["2021-01", "2021-02"], [1, 3]], [2022, 2021, ["2022-01"], [5]]]);
    const variance = 0.09 + 0.01 + 0.16 + 0.04;
    const spread = 0.09 ** 2 / 8 + 0.01 ** 2 / 3 + 0.16 ** 2 / 9 + 0.04 ** 2 / 7;
    const { value, standardError, low, high, unit } = got[0].difference;
    expect([value, unit]).toEqual([2, "K"]);
    expectClose(standardError, Math.sqrt(variance) / 2, { relative: 1e-12 });
    expectClose(high - 2, (tQuantile(0.975, variance ** 2 / spread) * Math.sqrt(variance)) / 2, { relative: 1e-12 });
    expectClose(2 - low, high - 2, { relative: 1e-12 });
    expect([got, got[0], got[0].months, got[0].byMonth].every(Object.isFrozen)).toBe(true);
    // Whatever the order they come in.
    expect(sameMonths([month(y + 24, 7), month(y + 36, 8), month(y + 12, 4), month(y, 1)], "K").map((g) => g.year)).toEqual([2021, 2022, 2023]);
    const sure = sameMonths([month(y, 1), month(y + 12, 4)], "K")[0].difference;
    expect([sure.value, sure.standardError, sure.low, sure.high]).toEqual([3, 0, 3, 3]);
  });
});

describe("trends beside numpy and scipy", () => {
  const value = (k: number): number => 10 + 8 * Math.cos((Math.PI * (k - 3)) / 6) + Math.sin(k * k) + 0.8 * Math.sin(0.9 * k);
  const monthly = (n: number, missing: readonly number[]): Float64Array => Float64Array.from({ length: n }, (_v, k) => (missing.includes(k) ? _ : value(k)));

  it("31 months from August, three missing: least squares with a month each, by numpy", () => {
    const got = monthlyTrend(monthly(31, [4, 5, 20]), 12 * 2011 + 7, "K");
    expectClose(got.slope.value, -0.25309524936912986, { absolute: 1e-9 });
    expectClose(got.slope.standardError, 4.090491525372391, { relative: 1e-9 });
    expectClose(got.phi, 0.3416657413188846, { absolute: 1e-9 });
    expectClose(got.degreesOfFreedom, 11.739159222289498, { relative: 1e-9 });
    expectClose(got.sigma, 1.0331139742564792, { relative: 1e-9 });
    expectClose(got.slope.high - got.slope.value, 8.93442854296927, { relative: 1e-7 });
    expectClose(got.slope.value - got.slope.low, 8.93442854296927, { relative: 1e-7 });
    expect([got.monthsPresent, got.slope.unit, Object.isFrozen(got)]).toEqual([28, "K", true]);
  });

  it("24 months are enough, 23 are not; a slope alone leaves no memory; months that hang together at most 0.9, and two degrees of freedom", () => {
    expect(monthlyTrend(monthly(25, [24]), 0, "K").monthsPresent).toBe(24);
    expect(() => monthlyTrend(monthly(25, [0, 24]), 0, "K")).toThrow("got 23 months, 12 of the year");
    expect(monthlyTrend(new Float64Array(36), 0, "K")).toMatchObject({ phi: 4 / 32, sigma: 0, monthsPresent: 36 });
    const slow = monthlyTrend(Float64Array.from({ length: 60 }, (_v, k) => 5 * Math.sin(k / 12)), 0, "K");
    expect([slow.phi, slow.degreesOfFreedom]).toEqual([0.9, 2]);
    expect(monthlyTrend(Float64Array.from({ length: 60 }, (_v, k) => (k % 2 === 0 ? 1 : -1) * (k % 24 < 12 ? 1 : -1)), 0, "K").phi).toBeGreaterThanOrEqual(0);
  });

  it("Theil and Sen's slope with ties and equal times, by scipy 1.x theilslopes", () => {
    const tied = theilSen([0, 0, 1, 2, 2, 3, 5, 6], [1, 2, 2, 4, 3, 4, 7, 6], "1").slope;
    expect([tied.value, tied.low, tied.high]).toEqual([1, 0.5, 1.25]);
    const many = theilSen([1, 2, 2, 4, 4, 5, 5, 5, 5], [1, 0, 5, 0, 0, 1, 1, 1, 4], "1").slope;
    expect([many.value, many.low, many.high]).toEqual([1 / 6, -1, 1]);
    // Three alike: three pairs of six rise, and three are tied.
    expectClose(mannKendall([1, 1, 1, 2]).tau, 3 / Math.sqrt(18), { absolute: 1e-14 });
    const even = theilSen([0, 1, 2, 3, 4], [1, 5, 2, 8, 3], "K").slope;
    expect([even.value, even.low, even.high, even.unit]).toEqual([0.5, -5, 6, "K"]);
    expectClose(even.standardError, 11 / 2 / 1.959963984540054, { absolute: 1e-9 });
    expect(theilSen([0, 1, 2, 3, 4], [1, 5, 2, 8, 3], "K").pairs).toBe(10);
  });

  it("refuses times that are none, and values that cannot be", () => {
    expect(() => theilSen([0, _, 2], [1, 2, 3], "1")).toThrow(new RangeError("theilSen: x must be finite (got NaN at index 1)"));
    expect(() => theilSen([0, Infinity, 2], [1, 2, 3], "1")).toThrow("theilSen: x");
    expect(() => theilSen([0, 1, 2], [1, Infinity, 3], "1")).toThrow("theilSen: values");
    expect(() => theilSen([0, 1, 2], [1, 2, _], "1")).toThrow("theilSen: values must hold at least 3 present (got 2)");
    expect(() => mannKendall([1, 2, 1e61])).toThrow("mannKendall: values");
    // Two groups of two: a pair each, and the variance of two values each.
    expect(mannKendall([1, 2, 4, 3], { group: [1, 1, 2, 2] })).toMatchObject({ s: 0, variance: 2, z: 0, tau: 0 });
  });
});

describe("hours and shapes of days by hand", () => {
  const start = Date.UTC(2024, 0, 1);
  const of = (hours: readonly number[], values: readonly number[], offset = 0, flags: readonly number[] = hours.map(() => 0)) =>
    civilHours({ start: start - 3_600_000 * offset, seconds: Float64Array.from(hours, (h) => 3600 * h), values: Float64Array.from(values), flags: Uint16Array.from(flags) }, offset)!;

  it("readings fall into their hour, from the first day with one to the last", () => {
    const got = of([-30, 25, 25.5, 26, 49.99, 80], [9, 1, 3, 5, 7, _], 0, [flagBit.range, 0, 0, 0, 0, 0]);
    expect([got.firstDay, got.days, got.hours.length, got.start]).toEqual([19724, 2, 48, start + 86_400_000]);
    expect([...got.hours].flatMap((v, h) => (Number.isNaN(v) ? [] : [[h, v]]))).toEqual([[1, 2], [2, 5], [25, 7]]);
    expect([[...got.seconds], [...got.values]]).toEqual([[3600, 5400, 7200, 93_564], [1, 3, 5, 7]]);
    expect([got.stepSeconds, got.stepHours, Object.isFrozen(got)]).toEqual([1800, 1, true]);
    expect(of([0, 3, 6], [1, 2, 3]).stepHours).toBe(3);
    // Offsets: midnight in a zone five and three quarter hours east.
    const east = of([0, 23.99], [1, 2], 5.75);
    expect([east.days, east.hours[0], east.hours[23], east.start]).toEqual([1, 1, 2, start - 5.75 * 3_600_000]);
    expect([of([0, 24], [1, 2], 5.75).days, of([2], [7]).stepHours]).toEqual([2, 1]);
    expect(civilHours({ start, seconds: Float64Array.of(0), values: Float64Array.of(1), flags: Uint16Array.of(flagBit.stuck) }, 0)).toBe(null);
  });

  it("shape: five whole days of the month and half a month beside it, else of all, else none", () => {
    const first = monthStart(12 * 2023);
    /** Warm at noon by 12; on days from 50 on by 24; whole only where told. */
    const hours = (days: number, isWhole: (d: number) => boolean): Float64Array =>
      Float64Array.from({ length: 24 * days }, (_v, i) => (!isWhole(Math.floor(i / 24)) && i % 24 === 3 ? _ : 100 * Math.floor(i / 24) + (i % 24 === 12 ? (i >= 24 * 50 ? 24 : 12) : 0)));
    const noon = (shape: Float64Array | null): number | null => (shape === null ? null : Math.round(1000 * (shape[12] - shape[0])) / 1000);
    const all = dayShape(hours(120, () => true), first);
    expect(all(0)!.length).toBe(24);
    expectClose(all(0)!.reduce((s, v) => s + v, 0), 0, { absolute: 1e-9 });
    // January and 15 days of February: none from the 51st day on. April: from 17 March to the end.
    expect([noon(all(0)), noon(all(30)), noon(all(100))]).toEqual([12, 12, 24]);
    // February from 17 January to 15 March: days 16 to 73, 34 of 12 and 24 of 24.
    expectClose(noon(all(40))!, (34 * 12 + 24 * 24) / 58, { absolute: 1e-3 });
    expect([noon(dayShape(hours(40, (d) => d < 5), first)(0)), dayShape(hours(40, (d) => d < 4), first)(0)]).toEqual([12, null]);
    // Three whole days in January, forty much later: January takes the shape of all.
    const late = dayShape(hours(120, (d) => d < 3 || d >= 80), first);
    expectClose(noon(late(5))!, (3 * 12 + 40 * 24) / 43, { absolute: 1e-3 });
    expect(noon(late(110))).toBe(24);
    expect(all(0)).toBe(all(5));
  });

  it("dew points of what is there and above 0 %, from the twentieth to the last twentieth", () => {
    const got = dewPointRange([20, 20, _, 20, 20, 10], [100, _, 50, 0, -1, 100]);
    expect([got.readings, Object.isFrozen(got)]).toEqual([2, true]);
    // At 100 % the dew point is the temperature.
    for (const [value, wanted] of [[got.lowest, 10], [got.from, 10.5], [got.median, 15], [got.to, 19.5], [got.highest, 20]]) expectClose(value, wanted, { absolute: 1e-6 });
    expect(dewPointRange([], [])).toEqual({ lowest: _, highest: _, median: _, from: _, to: _, readings: 0 });
    expect(() => dewPointRange([1], [1, 2])).toThrow(new RangeError("dewPointRange: humidity must have the length of temperature, 1 (got 2)"));
  });
});

describe("yearlyRound by hand", () => {
  const first = Date.UTC(2021, 1, 10) / 86_400_000;
  const year = 365.2425;
  const value = (k: number): number => 9 + 7 * Math.cos((2 * Math.PI * (k + 40.5 - 200)) / year) + Math.sin(k * k) + 0.7 * Math.sin(k / 9);
  const daily = (n: number, isThere: (k: number) => boolean = () => true): Float64Array => Float64Array.from({ length: n }, (_v, k) => (isThere(k) ? value(k) : _));

  /** The same fit from its description: means of five days of which three are there, cosine and sine of one or two waves averaged over the same days. */
  function fitted(values: Float64Array, from: number, harmonics: 1 | 2) {
    const bins: number[] = [];
    const y: number[] = [];
    const rows: number[][] = [];
    for (let bin = 0; from + 5 * bin < values.length; bin++) {
      const there = [0, 1, 2, 3, 4].map((d) => from + 5 * bin + d).filter((k) => k < values.length && !Number.isNaN(values[k]));
      if (there.length < 3) continue;
      const mean = (of: (k: number) => number): number => there.reduce((s, k) => s + of(k), 0) / there.length;
      const turn = (k: number): number => (2 * Math.PI * (k + 40.5)) / year;
      bins.push(bin);
      y.push(mean((k) => values[k]));
      rows.push([1, ...[1, 2].slice(0, harmonics).flatMap((h) => [mean((k) => Math.cos(h * turn(k))), mean((k) => Math.sin(h * turn(k)))])]);
    }
    return olsAr1(rows[0].map((_v, c) => rows.map((row) => row[c])), y, bins);
  }

  it("level and waves of the bins, error of the crest by the derivatives of size and direction", () => {
    for (const [n, harmonics] of [[729, 1], [730, 2]] as const) {
      const values = daily(n, (k) => k % 11 !== 5 && !(k > 300 && k < 309));
      const got = yearlyRound(values, first, "degC", "K");
      const fit = fitted(values, 0, harmonics);
      expect([got.harmonics, got.days, got.detected, got.mean.unit, got.amplitude.unit, got.maximumOn!.unit]).toEqual([harmonics, n, true, "degC", "K", "d"]);
      got.coefficients.forEach((c, i) => {
        expectClose(c, fit.coefficients[i], { absolute: 1e-9 }, `coefficient ${i}`);
      });
      expect([got.mean.value, got.mean.low, got.mean.high]).toEqual([fit.coefficients[0], fit.low[0], fit.high[0]]);
      const [, a, b] = fit.coefficients;
      const size = Math.hypot(a, b);
      const form = (x: number, y: number): number => Math.sqrt(x * x * fit.covariance[1][1] + 2 * x * y * fit.covariance[1][2] + y * y * fit.covariance[2][2]);
      const t = tQuantile(0.975, fit.degreesOfFreedom);
      const [along, across] = [form(a / size, b / size), form(-b / size, a / size)];
      expectClose(got.amplitude.value, size, { relative: 1e-9 });
      expectClose(got.amplitude.standardError, along, { relative: 1e-9 });
      expectClose(got.amplitude.high, size + t * along, { relative: 1e-9 });
      expectClose(got.amplitude.low, size - t * along, { relative: 1e-9 });
      const crest = 1 + (year / (2 * Math.PI)) * (((Math.atan2(b, a) % (2 * Math.PI)) + 2 * Math.PI) % (2 * Math.PI));
      expectClose(got.maximumOn!.value, crest, { absolute: 1e-6 });
      expectClose(got.maximumOn!.value, 201, { absolute: 3 }, "as made: 200 days after 1 January");
      expectClose(got.maximumOn!.standardError, (year / (2 * Math.PI)) * (across / size), { relative: 1e-9 });
      expectClose(got.maximumOn!.high - crest, (year / (2 * Math.PI)) * Math.atan((t * across) / size), { relative: 1e-6 });
      expectClose(crest - got.maximumOn!.low, got.maximumOn!.high - crest, { relative: 1e-6 });
      expect([got, got.coefficients, got.warnings].every(Object.isFrozen)).toBe(true);
    }
  });

  it("missing ends are cut off, 365 days are enough; half of the days must be there; three years are no warning", () => {
    const ends = Float64Array.from([_, _, ...daily(365), _]);
    const got = yearlyRound(ends, first - 2, "K");
    expect([got.days, got.amplitude.unit]).toEqual([365, "K"]);
    expect(got.amplitude.value).toBe(yearlyRound(daily(365), first, "K").amplitude.value);
    expect(() => yearlyRound(Float64Array.from([_, ...daily(364), _]), first, "K")).toThrow("yearlyRound: daily must span at least 365 d (got 364 d); log 1 more day");
    expect(() => yearlyRound([_, _], first, "K")).toThrow("(got 0 d); log 365 more days");
    // 73 bins of five days, of which 36.5 are asked.
    const bins = (count: number): Float64Array => daily(365, (k) => k < 5 * (count - 1) || k >= 360);
    expect(yearlyRound(bins(37), first, "K").days).toBe(365);
    expect(() => yearlyRound(bins(36), first, "K")).toThrow("yearlyRound: daily must hold at least half of its days (got 180 of 365); log without long gaps");
    const warning = "under three years: the interval is about these years' weather, not about how years differ";
    expect([yearlyRound(daily(1094), first, "K").warnings, yearlyRound(daily(1095), first, "K").warnings]).toEqual([[warning], []]);
    // Of 370 days, 37 bins of 74 are a half.
    expect(yearlyRound(daily(370, (k) => k < 180 || k >= 365), first, "K").days).toBe(370);
    // Phases count from the January of the first day that is there, not of what is missing before it.
    const late = yearlyRound(Float64Array.from([...new Float64Array(60).fill(_), ...daily(400)]), first - 60, "K");
    expect(late.coefficients).toEqual(yearlyRound(daily(400), first, "K").coefficients);
    try {
      yearlyRound(bins(36), first, "K");
    } catch (error) {
      expect((error as RecordError).kind).toBe("data");
    }
    // Three days of five make a bin, two do not.
    expect(yearlyRound(daily(368, (k) => k % 5 < 3), first, "K").days).toBe(368);
    expect(() => yearlyRound(daily(367, (k) => k % 5 < 2), first, "K")).toThrow("got 0 of 367");
  });

  it("no round in noise: no day, and an amplitude from 0; the threshold is √(2 F) errors", () => {
    const noise = Float64Array.from({ length: 800 }, (_v, k) => Math.sin(k * k) + Math.cos(3.3 * k));
    for (const [size, isFound] of [[0, false], [1, true]] as const) {
      const values = noise.map((v, k) => v + size * Math.cos((2 * Math.PI * k) / year));
      const got = yearlyRound(values, first, "K");
      const fit = fitted(values, 0, 2);
      expect([got.detected, got.amplitude.value ** 2 > 2 * fQuantile(0.95, 2, fit.degreesOfFreedom) * got.amplitude.standardError ** 2]).toEqual([isFound, isFound]);
      expect([got.maximumOn === null, got.amplitude.low === 0]).toEqual([!isFound, !isFound]);
    }
    const none = yearlyRound(new Float64Array(365), first, "K");
    expect([none.amplitude.value, none.amplitude.high, none.detected]).toEqual([0, 0, false]);
    const flat = yearlyRound(new Float64Array(365).fill(4), first, "K");
    expect([flat.detected, flat.maximumOn]).toEqual([false, null]);
    expectClose(flat.amplitude.value, 0, { absolute: 1e-12 });
  });
});

describe("refusals by name", () => {
  it("of days counted and days to go", () => {
    const sentence = (call: () => unknown): string => {
      try {
        call();
      } catch (error) {
        return (error as Error).message.replace(/ from .*\(got/, " … (got");
      }
      return "none";
    };
    expect([
      () => countedDays([], { base: 101 }), () => countedDays([], { hotFrom: -101 }),
      () => daysToGo(-1, 0), () => daysToGo(1, -2), () => daysForMean(-1, 1, 1), () => daysForMean(1, -1, 1), () => daysForMean(1, 1, 0),
      () => yearsForTrend(0, 1, 0), () => yearsForTrend(1, -1, 0), () => yearsForTrend(1, 1, 0.96),
    ].map(sentence)).toEqual([
      "countedDays: base must be … (got 101 degC)", "countedDays: hotFrom must be … (got -101 degC)",
      "daysToGo: needed must be … (got -1 d)", "daysToGo: have must be … (got -2 d)", "daysForMean: days must be … (got -1 d)", "daysForMean: half must be … (got -1)", "daysForMean: wanted must be … (got 0)",
      "yearsForTrend: perYear must be … (got 0)", "yearsForTrend: sigma must be … (got -1)", "yearsForTrend: phi must be … (got 0.96)",
    ]);
  });
});
