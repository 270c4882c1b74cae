import { describe, expect, it } from "vitest";
import { tQuantile } from "../../../lib/ground/distributions.js";
import { longRunMean, longRunVariance } from "../../../lib/ground/longRunVariance.js";
import { expectClose } from "../../close.js";

const days = [3, 1, -2, 0.5, -1, 4, 2.5, -3, -1.5, -3.5];

describe("longRunVariance", () => {
  it("is the written formula, on a record without gaps", () => {
    const n = days.length;
    const square = days.reduce((s, v) => s + v * v, 0);
    let products = 0;
    for (let k = 1; k < n; k++) products += days[k] * days[k - 1];
    const r = products / (n - 1) / (square / n);
    const phi = Math.min(0.9, Math.max(0, (n * r + 1) / (n - 4)));
    let top = 0;
    let bottom = 0;
    for (const j of [1, 2, 3]) {
      const cosine = days.reduce((s, v, k) => s + v * Math.cos((Math.PI * j * (k + 1 - 0.5)) / n), 0) * Math.sqrt(2 / n);
      top += cosine ** 2 / 3;
      bottom += 1 / (1 - 2 * phi * Math.cos((Math.PI * j) / n) + phi ** 2) / 3;
    }
    const got = longRunVariance(Object.freeze(days));
    expect(phi).toBeGreaterThan(0);
    expectClose(got.phi, phi, { relative: 1e-13 });
    expectClose(got.omega, top / (1 - phi) ** 2 / bottom, { relative: 1e-13 });
    expectClose(got.varianceOfSum, n * got.omega, { relative: 1e-15 });
    expectClose(got.memoryDays, (1 + phi) / (1 - phi), { relative: 1e-15 });
    expect([got.terms, got.days, got.daysPresent, got.isShort]).toEqual([3, 10, 10, true]);
    expect(Object.isFrozen(got)).toBe(true);
  });

  it("uses more cosines in longer records", () => {
    const wave = (n: number): number => longRunVariance(Array.from({ length: n }, (_, k) => Math.sin(7 * k * k))).terms;
    expect([20, 40, 60, 120, 180].map(wave)).toEqual([3, 3, 4, 6, 8]);
  });

  it("holds φ inside 0…0.9 and knows long records of little memory", () => {
    const seesaw = Array.from({ length: 100 }, (_, k) => (k % 2 === 0 ? 1 : -1));
    expect(longRunVariance(seesaw)).toMatchObject({ phi: 0, memoryDays: 1, isShort: false });
    expect(longRunVariance(Array.from({ length: 100 }, (_, k) => k - 49.5)).phi).toBe(0.9);
  });

  it("counts missing days in the length and not as values", () => {
    const gappy = [...days.slice(0, 4), Number.NaN, Number.NaN, ...days.slice(4)];
    const got = longRunVariance(gappy);
    expect([got.days, got.daysPresent]).toEqual([12, 10]);
    const shifted = longRunVariance([Number.NaN, ...days]);
    expectClose(shifted.phi, longRunVariance(days).phi, { relative: 1e-14 }, "pairs across no gap");
  });

  it("closes what is longer than two weeks, and than a quarter of the days present, to that", () => {
    const values = Array.from({ length: 80 }, (_, k) => Math.sin(k * k) + Math.cos(k / 3));
    const hole = (days: number, at = 40): Float64Array => Float64Array.from([...values.slice(0, at), ...new Array<number>(days).fill(Number.NaN), ...values.slice(at)]);
    const of = (days: number, at?: number): number => longRunVariance(hole(days, at)).varianceOfSum;
    expect(of(20)).not.toBe(of(19));
    expect(of(21)).toBe(of(20));
    expect(of(400)).toBe(of(20));
    expect(longRunVariance(hole(400)).days).toBe(480);
    // Long before or after the record, and in a short record.
    expect(of(400, 0)).toBe(of(20, 0));
    const short = [...values.slice(0, 20)];
    const ended = (days: number): number => longRunVariance([...short, ...new Array<number>(days).fill(Number.NaN), ...short]).varianceOfSum;
    expect(ended(15)).toBe(ended(14));
    expect(ended(14)).not.toBe(ended(13));
  });

  it("grows with the square of the unit and is 0 for nothing at all", () => {
    expectClose(longRunVariance(days.map((v) => 10 * v)).varianceOfSum, 100 * longRunVariance(days).varianceOfSum, { relative: 1e-13 });
    expect(longRunVariance(new Float64Array(8)).varianceOfSum).toBe(0);
  });

  it("refuses too few days, days without neighbors and infinity", () => {
    expect(() => longRunVariance([1, -1, 2, -2, 0])).toThrow(new RangeError("longRunVariance: influence must hold more than 5 days (got 5 d); log longer"));
    const lonely = Array.from({ length: 14 }, (_, k) => (k % 2 === 0 ? k - 6 : Number.NaN));
    expect(() => longRunVariance(lonely)).toThrow("longRunVariance: influence must hold neighboring days (got none); log without daily gaps");
    expect(() => longRunVariance([...days, Infinity])).toThrow("longRunVariance: influence must be finite or NaN (got Infinity at index 10)");
    expect(() => longRunVariance([])).toThrow("hold more than 5 days (got 0 d)");
  });
});

describe("longRunMean", () => {
  it("puts t with as many degrees of freedom as cosines around the mean", () => {
    const daily = days.map((v) => v + 20);
    const got = longRunMean(daily);
    expectClose(got.mean, 20, { absolute: 1e-12 });
    expectClose(got.standardError, Math.sqrt(longRunVariance(days).varianceOfSum) / 10, { relative: 1e-10 });
    expectClose(got.high - got.mean, tQuantile(0.975, 3) * got.standardError, { relative: 1e-12 });
    expectClose(got.mean - got.low, got.high - got.mean, { relative: 1e-12 });
  });
});
