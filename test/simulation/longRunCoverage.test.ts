import { describe, expect, it } from "vitest";
import { longRunMean } from "../../lib/ground/longRunVariance.js";
import { random } from "../../lib/ground/random.js";
import { olsAr1 } from "../../lib/ground/regressionAr1.js";

/** A stationary daily series with a day-to-day correlation and mean 0. */
function daily(n: number, correlation: number, normal: () => number): number[] {
  const values = [normal() / Math.sqrt(1 - correlation ** 2)];
  for (let k = 1; k < n; k++) values.push(correlation * values[k - 1] + normal());
  return values;
}

/** Share of 95 % intervals that hold the truth, in %, and its two-sigma error. */
function coverage(records: number, holds: () => boolean): { percent: number; error: number } {
  let held = 0;
  for (let i = 0; i < records; i++) if (holds()) held++;
  const share = held / records;
  return { percent: 100 * share, error: 200 * Math.sqrt((share * (1 - share)) / records) };
}

/** What the method's table says for 4 000 records of its own; both runs err by chance, 0.7 to 1.1 % at two sigma each. */
const means: [days: number, correlation: number, percent: number][] = [
  [20, 0, 94.8], [60, 0, 95], [180, 0, 95],
  [20, 0.6, 93.7], [60, 0.6, 94.3], [180, 0.6, 95.3],
  [20, 0.8, 90.7], [60, 0.8, 93.8], [180, 0.8, 94.8],
  [20, 0.9, 86.7], [60, 0.9, 92.5], [180, 0.9, 93],
];

describe("coverage of 95 % intervals, 4 000 seeded records a row", () => {
  for (const [days, correlation, expected] of means) {
    it(`mean of ${days} days at correlation ${correlation}: about ${expected} %`, () => {
      const { normal } = random(1000 * days + 10 * correlation);
      const { percent, error } = coverage(4000, () => {
        const { low, high } = longRunMean(daily(days, correlation, normal));
        return low <= 0 && 0 <= high;
      });
      expect(Math.abs(percent - expected), `${percent} %`).toBeLessThan(2.2 * error);
    });
  }

  it("mean of 60 days at 0.8 with a block of 10 and 5 % of days missing: about 93.5 %", () => {
    const { normal, uniform, integer } = random(77);
    const { percent, error } = coverage(4000, () => {
      const first = integer(50);
      const values = daily(60, 0.8, normal).map((v, k) => ((k >= first && k < first + 10) || uniform() < 0.05 ? Number.NaN : v));
      const { low, high } = longRunMean(values);
      return low <= 0 && 0 <= high;
    });
    expect(Math.abs(percent - 93.5), `${percent} %`).toBeLessThan(2.2 * error);
  });

  for (const [days, correlation] of [[60, 0.3], [60, 0.6], [180, 0.6], [180, 0.8]]) {
    it(`regression on a step halfway, ${days} days at correlation ${correlation}: false calls in 3 to 7 %`, () => {
      const { normal } = random(90000 + days + 10 * correlation);
      const ones = new Array<number>(days).fill(1);
      const after = ones.map((_, k) => (k < days / 2 ? 0 : 1));
      const day = ones.map((_, k) => k);
      const { percent } = coverage(2000, () => {
        const { low, high } = olsAr1([ones, after], daily(days, correlation, normal), day);
        return low[1] <= 0 && 0 <= high[1];
      });
      expect(percent, `${percent} %`).toBeGreaterThan(93);
      expect(percent, `${percent} %`).toBeLessThan(97);
    });
  }
});
