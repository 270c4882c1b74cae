import { describe, expect, it } from "vitest";
import { dailySummaries } from "../../lib/cycles/climate/dailySummary.js";
import { dayMemory, monthMean } from "../../lib/cycles/climate/monthMean.js";
import { monthlyTrend } from "../../lib/cycles/climate/monthlyTrend.js";
import { theilSen } from "../../lib/cycles/climate/robustTrend.js";
import { yearlyRound } from "../../lib/cycles/climate/yearlyRound.js";
import { series } from "../../lib/record/series.js";
import { judge, percent, printed, runs, slack } from "./inventedWeather.js";

/** A stationary series with a correlation from one value to the next. */
function remembering(n: number, phi: number, size: number, normal: () => number): Float64Array {
  let x = size * normal();
  return Float64Array.from({ length: n }, (_, k) => {
    if (k > 0) x = phi * x + size * Math.sqrt(1 - phi * phi) * normal();
    return x;
  });
}

describe("daily mean under missing hours", () => {
  it("error by hours missing in one day", () => {
    const rows: string[][] = [["missing in one day, h", "plain mean rms K", "told rms K", "told, % of days"]];
    const { normal, integer } = judge(7_560_000);
    const days = 4000;
    const noise = remembering(24 * days, Math.exp(-1 / 60), 3, normal);
    const hourOf = (h: number): number => 4 * Math.cos((2 * Math.PI * (h - 15)) / 24) + 1.2 * Math.cos((4 * Math.PI * (h - 14)) / 24);
    const values = noise.map((v, i) => 10 + v + hourOf(i % 24) + 0.3 * normal());
    const start = Date.UTC(2010, 0, 1);
    const times = Array.from(values, (_, i) => start + 3_600_000 * i);
    const truth = Array.from({ length: days }, (_, d) => values.subarray(24 * d, 24 * d + 24).reduce((a, b) => a + b, 0) / 24);
    for (const missing of [1, 3, 6]) {
      const broken = values.slice();
      // Every fifth day is broken: its neighbors are whole.
      for (let d = 2; d < days; d += 5) {
        const from = 24 * d + integer(25 - missing);
        broken.fill(Number.NaN, from, from + missing);
      }
      const got = dailySummaries(series({ times, values: broken, quantity: "air_temperature" }), 0);
      let [plain, told, count, all] = [0, 0, 0, 0];
      for (let d = 2; d < days; d += 5) {
        const present = broken.subarray(24 * d, 24 * d + 24).filter((v) => !Number.isNaN(v));
        plain += (present.reduce((a, b) => a + b, 0) / present.length - truth[d]) ** 2;
        const mean = got[d].mean;
        all++;
        if (mean === null) continue;
        told += (mean - truth[d]) ** 2;
        count++;
      }
      rows.push([`${missing}`, Math.sqrt(plain / all).toFixed(2), Math.sqrt(told / count).toFixed(2), percent(count, all)]);
      expect(Math.sqrt(told / count)).toBeLessThan(missing === 6 ? 0.3 : 0.12);
      expect(count).toBe(all);
    }
    printed("4 000 days of daily amplitude 4 K, 800 of them broken, seed 7560000", rows);
  });
});

describe("monthly mean under missing days", () => {
  it("cover of 95 % intervals, memory from the month and from a year", () => {
    const rows: string[][] = [["missing of 30 d", "memory φ", "cover, own φ %", "cover, a year's φ %", "√(1/n − 1/N) %", "rms K"]];
    const patterns: [name: string, gaps: (daily: Float64Array, uniformInteger: (below: number) => number) => Float64Array][] = [
      ["5 at random", (d, r) => scattered(d, 5, r)],
      ["10 at random", (d, r) => scattered(d, 10, r)],
      ["block of 5", (d, r) => d.map(((from) => (v: number, k: number) => (k >= from && k < from + 5 ? Number.NaN : v))(r(26)))],
      ["block of 7", (d, r) => d.map(((from) => (v: number, k: number) => (k >= from && k < from + 7 ? Number.NaN : v))(r(24)))],
      ["block of 10", (d, r) => d.map(((from) => (v: number, k: number) => (k >= from && k < from + 10 ? Number.NaN : v))(r(21)))],
    ];
    for (const phi of [0.5, 0.75]) {
      for (const [p, [name, gaps]] of patterns.entries()) {
        const { normal, integer } = judge(7_570_000 + 100 * phi + p);
        let [own, pooled, usual, squares] = [0, 0, 0, 0];
        const months = 12 * runs(250);
        for (let year = 0; year < months / 12; year++) {
          const whole = Array.from({ length: 12 }, () => remembering(30, phi, 3, normal));
          const logged = whole.map((d) => gaps(d, integer));
          const means = logged.map((d) => d.filter((v) => !Number.isNaN(v)).reduce((a, b, _, all) => a + b / all.length, 0));
          const memory = dayMemory(logged.map((d, m) => d.map((v) => v - means[m])));
          for (let m = 0; m < 12; m++) {
            const truth = whole[m].reduce((a, b) => a + b, 0) / 30;
            const a = monthMean(logged[m], "K");
            const b = monthMean(logged[m], "K", { phi: memory });
            if (a !== null && a.mean.low <= truth && truth <= a.mean.high) own++;
            if (b !== null && b.mean.low <= truth && truth <= b.mean.high) pooled++;
            const present = logged[m].filter((v) => !Number.isNaN(v));
            const spread = Math.sqrt(present.reduce((s, v) => s + (v - means[m]) ** 2, 0) / (present.length - 1));
            if (Math.abs(means[m] - truth) <= 2.05 * spread * Math.sqrt(1 / present.length - 1 / 30)) usual++;
            squares += (means[m] - truth) ** 2;
          }
        }
        rows.push([name, `${phi}`, percent(own, months), percent(pooled, months), percent(usual, months), Math.sqrt(squares / months).toFixed(2)]);
        for (const share of [own / months, pooled / months]) {
          expect(share, `${name}, φ ${phi}`).toBeGreaterThan(0.915 - slack(months));
          expect(share, `${name}, φ ${phi}`).toBeLessThan(0.99 + slack(months));
        }
      }
    }
    printed(`${12 * runs(250)} months a row, seeds from 7570000`, rows);
  });
});

function scattered(daily: Float64Array, count: number, integer: (below: number) => number): Float64Array {
  const out = daily.slice();
  for (let left = count; left > 0; ) {
    const k = integer(daily.length);
    if (Number.isNaN(out[k])) continue;
    out[k] = Number.NaN;
    left--;
  }
  return out;
}

describe("trend of monthly means", () => {
  it("cover of 95 % intervals, without and with a slow wander", () => {
    const rows: string[][] = [["years", "cover %", "rms K/decade", "mean error taken", "with a wander: cover %", "ranks: cover %"]];
    const records = runs(1500);
    for (const years of [5, 10, 20, 30]) {
      const { normal } = judge(7_580_000 + years);
      const n = 12 * years;
      let [held, wander, ranks, squares, taken] = [0, 0, 0, 0, 0];
      for (let i = 0; i < records; i++) {
        const noise = remembering(n, 0.3, 1.2, normal).map((v, k) => v + 8 * Math.cos((Math.PI * k) / 6) + k / 120);
        const { slope } = monthlyTrend(noise, 0, "K");
        if (slope.low <= 1 && 1 <= slope.high) held++;
        squares += (slope.value - 1) ** 2;
        taken += slope.standardError / records;
        const slow = remembering(n, Math.exp(-1 / 24), 0.4, normal);
        const other = monthlyTrend(noise.map((v, k) => v + slow[k]), 0, "K").slope;
        if (other.low <= 1 && 1 <= other.high) wander++;
        if (i >= runs(300) || years > 10) continue;
        const byRank = theilSen(Array.from(noise.keys(), (k) => k / 120), noise, "K", { group: Array.from(noise.keys(), (k) => k % 12) }).slope;
        if (byRank.low <= 1 && 1 <= byRank.high) ranks++;
      }
      rows.push([`${years}`, percent(held, records), Math.sqrt(squares / records).toFixed(2), taken.toFixed(2), percent(wander, records), years > 10 ? "" : percent(ranks, runs(300))]);
      expect(held / records, `${years} years`).toBeGreaterThan(0.93 - slack(records));
      expect(held / records, `${years} years`).toBeLessThan(0.98 + slack(records));
    }
    printed(`${records} records a row, months with φ 0.3 and 1.2 K, wander 0.4 K over 2 years; ranks ${runs(300)} records; seeds from 7580000`, rows);
  });
});

describe("yearly round", () => {
  it("cover of level, size and day of the crest; a round where there is none", () => {
    const rows: string[][] = [["years", "level %", "size %", "day of crest %", "day rms d", "false rounds %"]];
    const records = runs(600);
    const first = Date.UTC(2021, 4, 1) / 86_400_000;
    const newYear = Date.UTC(2021, 0, 1) / 86_400_000;
    for (const years of [1, 1.5, 2, 3, 5]) {
      const { normal } = judge(7_590_000 + 10 * years);
      const n = Math.ceil(365.25 * years);
      let [level, size, day, squares, wrong] = [0, 0, 0, 0, 0];
      for (let i = 0; i < records; i++) {
        const noise = remembering(n, 0.75, 3, normal);
        const got = yearlyRound(noise.map((v, k) => v + 10 + 8 * Math.cos((2 * Math.PI * (first + k + 0.5 - newYear - 199)) / 365.2425)), first, "degC", "K");
        if (got.mean.low <= 10 && 10 <= got.mean.high) level++;
        if (got.amplitude.low <= 8 && 8 <= got.amplitude.high) size++;
        if (got.maximumOn !== null && got.maximumOn.low <= 200 && 200 <= got.maximumOn.high) day++;
        squares += ((got.maximumOn?.value ?? 0) - 200) ** 2;
        if (yearlyRound(noise, first, "degC", "K").detected) wrong++;
      }
      rows.push([`${years}`, percent(level, records), percent(size, records), percent(day, records), Math.sqrt(squares / records).toFixed(1), percent(wrong, records)]);
      for (const share of [level, size, day]) expect(share / records, `${years} years`).toBeGreaterThan(0.9 - slack(records));
      expect(wrong / records, `${years} years`).toBeLessThan(0.1 + slack(records));
    }
    printed(`${records} records a row, days with φ 0.75 and 3 K, round of 8 K, seeds from 7590000`, rows);
  });
});
