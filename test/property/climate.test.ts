import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { dailySummaries } from "../../lib/cycles/climate/dailySummary.js";
import { monthMean } from "../../lib/cycles/climate/monthMean.js";
import { monthlyTrend } from "../../lib/cycles/climate/monthlyTrend.js";
import { mannKendall, theilSen } from "../../lib/cycles/climate/robustTrend.js";
import { yearlyRound } from "../../lib/cycles/climate/yearlyRound.js";
import { random } from "../../lib/ground/random.js";
import { series } from "../../lib/record/series.js";

const seeds = fc.integer({ min: 1, max: 1e9 });
const check = <T>(arbitrary: fc.Arbitrary<T>, law: (value: T) => void, numRuns = 60): void => fc.assert(fc.property(arbitrary, law), { seed: 20261125, numRuns });
const noise = (n: number, seed: number): Float64Array => {
  const { normal } = random(seed);
  return Float64Array.from({ length: n }, normal);
};

describe("climate", () => {
  it("days: min ≤ mean ≤ max up to the bridge, extremes are readings, order of rows is irrelevant", () =>
    check(fc.tuple(seeds, fc.integer({ min: 1, max: 12 }), fc.constantFrom(10, 20, 30, 60), fc.constantFrom(-8, 0, 5.75)), ([seed, days, minutes, offset]) => {
      const n = (days * 1440) / minutes;
      const draws = noise(2 * n, seed);
      const kept = Array.from({ length: n }, (_, i) => i).filter((i) => draws[n + i] < 1.3);
      const times = kept.map((i) => 1.6e12 + 60_000 * minutes * i);
      const values = kept.map((i) => Math.sin(i / 40) + draws[i]);
      const got = dailySummaries(series({ times, values, quantity: "air_temperature" }), offset);
      const turned = dailySummaries(series({ times: [...times].reverse(), values: [...values].reverse(), quantity: "air_temperature" }), offset);
      expect(turned).toEqual(got);
      for (const d of got) {
        expect(d.coverage).toBeGreaterThanOrEqual(0);
        expect(d.coverage).toBeLessThanOrEqual(1);
        if (d.min !== null) expect(values).toContain(d.min);
        if (d.mean === null) continue;
        expect(d.coverage).toBeGreaterThanOrEqual(0.75);
        if (d.min !== null) expect(d.mean).toBeGreaterThan(d.min);
        if (d.max !== null) expect(d.mean).toBeLessThan(d.max);
      }
    }, 40));

  it("days: a level is added, a factor scales", () =>
    check(fc.tuple(seeds, fc.double({ min: -20, max: 20, noNaN: true })), ([seed, level]) => {
      const draws = noise(24 * 9, seed);
      const times = Array.from(draws, (_, i) => 3.6e6 * i).filter((_, i) => i % 17 !== 3);
      const values = Array.from(draws).filter((_, i) => i % 17 !== 3);
      const a = dailySummaries(series({ times, values, quantity: "air_temperature" }), 0);
      const b = dailySummaries(series({ times, values: values.map((v) => 2 * v + level), quantity: "air_temperature" }), 0);
      a.forEach((d, i) => {
        expect(Math.abs((b[i].mean ?? 0) - (2 * (d.mean ?? 0) + level))).toBeLessThan(1e-10);
        expect([b[i].maxAt, b[i].minAt]).toEqual([d.maxAt, d.minAt]);
      });
    }));

  it("months: the interval holds the mean, has no width without gaps, and ignores a level", () =>
    check(fc.tuple(seeds, fc.integer({ min: 28, max: 31 }), fc.integer({ min: 0, max: 10 })), ([seed, days, missing]) => {
      const daily = noise(days, seed);
      for (let k = 0; k < missing; k++) daily[(seed + 7 * k) % days] = Number.NaN;
      const a = monthMean(daily, "K");
      const b = monthMean(daily.map((v) => v + 100), "K");
      expect(a === null || b === null).toBe(false);
      if (a === null || b === null) return;
      expect(a.mean.standardError > 0).toBe(missing > 0);
      expect(Math.abs(b.mean.high - a.mean.high - 100)).toBeLessThan(1e-9);
      const turned = monthMean(daily.slice().reverse(), "K");
      expect(Math.abs((turned?.mean.standardError ?? -1) - a.mean.standardError)).toBeLessThan(1e-10);
    }));

  it("trend: a slope is added, a season is not seen", () =>
    check(fc.tuple(seeds, fc.integer({ min: 0, max: 11 }), fc.double({ min: -3, max: 3, noNaN: true })), ([seed, first, slope]) => {
      const values = noise(12 * 8, seed);
      const a = monthlyTrend(values, first, "K");
      const b = monthlyTrend(values.map((v, k) => v + 20 * Math.cos((Math.PI * k) / 6) + Number(k % 12 === 4) + (slope * k) / 120), first, "K");
      expect(Math.abs(b.slope.value - a.slope.value - slope)).toBeLessThan(1e-9);
      expect(Math.abs(b.slope.standardError - a.slope.standardError)).toBeLessThan(1e-9);
    }));

  it("ranks: any rising change of scale leaves them, Theil and Sen's line goes through a line", () =>
    check(fc.tuple(seeds, fc.integer({ min: 3, max: 40 }), fc.double({ min: -3, max: 3, noNaN: true })), ([seed, n, slope]) => {
      const values = noise(n, seed);
      expect(mannKendall(values.map((v) => Math.exp(v)))).toEqual(mannKendall(values));
      const x = Array.from({ length: n }, (_, k) => k);
      const got = theilSen(x, values, "1").slope;
      const more = theilSen(x, values.map((v, k) => v + slope * k), "1").slope;
      expect(Math.abs(more.value - got.value - slope)).toBeLessThan(1e-9);
      expect(got.low).toBeLessThanOrEqual(got.value);
    }));

  it("yearly round: a record that begins later finds the same crest", () =>
    check(fc.tuple(fc.integer({ min: 1, max: 365 }), fc.integer({ min: 0, max: 700 })), ([crest, late]) => {
      const first = 19723 + late;
      const daily = Float64Array.from({ length: 760 }, (_, k) => 5 * Math.cos((2 * Math.PI * (first + k + 0.5 - 19723 - crest)) / 365.2425) + 0.01 * Math.sin(k * k));
      const got = yearlyRound(daily, first, "degC", "K").maximumOn?.value ?? Number.NaN;
      // A leap day and the odd quarter day move the calendar by up to a day against the year.
      const away = ((((got - 1 - crest + 182.62) % 365.2425) + 365.2425) % 365.2425) - 182.62;
      expect(Math.abs(away)).toBeLessThan(1.2);
    }, 20));
});
