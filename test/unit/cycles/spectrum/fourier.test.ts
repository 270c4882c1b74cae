import { describe, expect, it } from "vitest";
import { chirpLength, chirpTransform } from "../../../../lib/cycles/spectrum/chirpTransform.js";
import { fourierPlan } from "../../../../lib/cycles/spectrum/fourier.js";
import { mixedRadix } from "../../../../lib/cycles/spectrum/mixedRadix.js";
import { radices } from "../../../../lib/cycles/spectrum/radices.js";
import { inverseRealTransform, realTransform } from "../../../../lib/cycles/spectrum/realTransform.js";
import { expectClose } from "../../../close.js";
import { asPairs, naiveTransform, parkMillerNoise } from "../../../naiveTransform.js";

function worst(a: ArrayLike<number>, b: ArrayLike<number>): number {
  expect(a.length).toBe(b.length);
  let most = 0;
  for (let i = 0; i < a.length; i++) most = Math.max(most, Math.abs(a[i] - b[i]));
  return most;
}

/** Rounding of a sum of n terms of size one half, with room for the twin's own errors. */
const bound = (n: number): number => 1e-15 * n + 1e-15;
const lengths = [...Array.from({ length: 130 }, (_, i) => i + 1), 146, 169, 191, 219, 256, 289, 365, 511, 720, 1009];

describe("fourierPlan", () => {
  it("agrees with the naive sums at every length, real and complex, there and back", () => {
    const methods = new Set<string>();
    const wrong: string[] = [];
    for (const n of lengths) {
      const plan = fourierPlan(n);
      methods.add(plan.method);
      const x = parkMillerNoise(n, n);
      const z = parkMillerNoise(2 * n, n + 7);
      const bins = plan.forward(x);
      const all = plan.complexForward(z);
      const off = Math.max(
        worst(bins, naiveTransform(asPairs(x)).subarray(0, bins.length)),
        worst(all, naiveTransform(z)),
        worst(plan.inverse(bins), x),
        worst(plan.complexInverse(all), z),
      );
      if (!(off <= bound(n))) wrong.push(`${n} (${plan.method}): off by ${off}`);
    }
    expect(wrong).toEqual([]);
    expect([...methods].sort()).toEqual(["chirp", "factors", "power of two"]);
  });

  it("splits and chirps to the same answer where either could do it", () => {
    for (const n of [60, 73, 365, 1022]) {
      const z = parkMillerNoise(2 * n, 3);
      const a = new Float64Array(2 * n);
      const b = new Float64Array(2 * n);
      mixedRadix(n)(z, a);
      const power = fourierPlan(chirpLength(n));
      chirpTransform(n, (pairs, into) => void power.complexForward(pairs, into))(z, b);
      expect(worst(a, b)).toBeLessThan(bound(n));
    }
  });

  it("transforms sequences side by side each for itself", () => {
    const [n, c] = [30, 4];
    const z = parkMillerNoise(2 * n * c, 9);
    const together = new Float64Array(2 * n * c);
    mixedRadix(n, c)(z, together);
    for (let r = 0; r < c; r++) {
      const one = Float64Array.from({ length: 2 * n }, (_, i) => z[2 * (r + c * (i >> 1)) + (i & 1)]);
      const its = Float64Array.from({ length: 2 * n }, (_, i) => together[2 * (r + c * (i >> 1)) + (i & 1)]);
      expect(worst(its, naiveTransform(one))).toBeLessThan(bound(n));
    }
  });

  it("answers from the memory it is given, and leaves the input alone", () => {
    for (const n of [16, 30, 31, 59]) {
      const x = parkMillerNoise(n, 5);
      const before = x.slice();
      const into = new Float64Array(2 * n).fill(Number.NaN);
      const bins = fourierPlan(n).forward(x, into);
      expect(bins.buffer).toBe(into.buffer);
      expect(bins).toEqual(fourierPlan(n).forward(x));
      expect(x).toEqual(before);
      const held = bins.slice();
      fourierPlan(n).inverse(bins);
      expect(bins).toEqual(held);
    }
  });

  it("answers never share memory with the plan", () => {
    const first = fourierPlan(30).forward(parkMillerNoise(30, 1));
    const copy = first.slice();
    fourierPlan(30).forward(parkMillerNoise(30, 2));
    expect(first).toEqual(copy);
  });

  it("gives the same numbers after its kept plans were dropped", () => {
    const x = parkMillerNoise(45, 4);
    const plan = fourierPlan(45);
    const first = plan.forward(x);
    expect(fourierPlan(45)).toBe(plan);
    for (let n = 200; n < 220; n++) fourierPlan(n);
    expect(fourierPlan(45)).not.toBe(plan);
    expect(fourierPlan(45).forward(x)).toEqual(first);
  });

  it("refuses what the package would pass over", () => {
    const plan = fourierPlan(4);
    const x = Float64Array.of(1, 2, 3, 4);
    expect(() => plan.forward([1, 2, 3, 4] as unknown as Float64Array)).toThrow(new TypeError("FourierPlan.forward: input must be a Float64Array (got a list of 4)"));
    expect(() => plan.forward(Float64Array.of(1, 2))).toThrow(new RangeError("FourierPlan.forward: input must hold 4 numbers for length 4 (got 2)"));
    expect(() => plan.forward(x, new Float64Array(4))).toThrow(new RangeError("FourierPlan.forward: into must hold at least 8 numbers for length 4 (got 4)"));
    const shared = new Float64Array(8);
    expect(() => plan.complexForward(shared, shared)).toThrow(new RangeError("FourierPlan.complexForward: into must be memory apart from the input (got the same memory)"));
    expect(() => plan.forward(shared.subarray(4), shared)).toThrow("apart");
    expect(() => plan.inverse(Float64Array.of(1, 0, Number.NaN, 0, 1, 0))).toThrow(new RangeError("FourierPlan.inverse: input must be finite and without gaps (got NaN at index 2)"));
    expect(() => plan.complexInverse(Float64Array.of(1, 0, 0, 0, 0, Infinity, 0, 0))).toThrow("got Infinity at index 5");
    for (const length of [0, -1, 2.5, Number.NaN, 2 ** 24 + 1]) expect(() => fourierPlan(length)).toThrow("fourierPlan: length must be a whole number from 1 to 2^24");
  });

  it("finds a missing value wherever it stands, at every kind of length", () => {
    for (const n of [1, 2, 16, 30, 59, 73, 219]) {
      for (const i of new Set([0, n >> 1, n - 1])) {
        const x = parkMillerNoise(n, 5);
        x[i] = Number.NaN;
        expect(() => fourierPlan(n).forward(x)).toThrow(`FourierPlan.forward: input must be finite and without gaps (got NaN at index ${i}); bridge short gaps, or use lombScargle`);
        x[i] = -Infinity;
        expect(() => fourierPlan(n).forward(x)).toThrow(`(got -Infinity at index ${i})`);
      }
    }
    expect(() => fourierPlan(2).forward(Float64Array.of(1.7e308, 1.7e308))).toThrow("got a sum of Infinity");
  });
});

describe("realTransform", () => {
  it("takes any list, of one value too, and does not change it", () => {
    const one = realTransform(Object.freeze([5]));
    expect([one.length, ...one.real, ...one.imaginary]).toEqual([1, 5, 0]);
    expect(Object.isFrozen(one)).toBe(true);
    expect(Array.from(realTransform([1, 2, 3, 4]).real)).toEqual([10, -2, -2]);
    expect(Array.from(inverseRealTransform({ length: 2, real: Float64Array.of(3, -1), imaginary: Float64Array.of(0, 0) }))).toEqual([1, 2]);
  });

  it("reads a cosine on a bin as A n/2 at its phase", () => {
    const n = 90;
    const x = Float64Array.from({ length: n }, (_, j) => 1.5 * Math.cos((2 * Math.PI * 7 * j) / n + 0.4));
    const { real, imaginary } = realTransform(x);
    const why = { absolute: 1e-12 };
    expectClose(real[7], ((1.5 * n) / 2) * Math.cos(0.4), why);
    expectClose(imaginary[7], ((1.5 * n) / 2) * Math.sin(0.4), why);
  });

  it("refuses nothing, a gap, and bins that do not fit", () => {
    expect(() => realTransform([])).toThrow(new RangeError("realTransform: values must hold at least 1 value (got 0)"));
    expect(() => realTransform([1, Number.NaN])).toThrow(
      new RangeError("realTransform: values must be finite and without gaps (got NaN at index 1); bridge short gaps, or use lombScargle for a record with gaps"),
    );
    expect(() => inverseRealTransform({ length: 5, real: new Float64Array(2), imaginary: new Float64Array(3) })).toThrow(
      new RangeError("inverseRealTransform: real and imaginary must hold 3 bins for length 5 (got 2 and 3)"),
    );
  });
});

describe("radices", () => {
  it("multiplies back, the largest last", () => {
    expect(radices(52560)).toEqual([4, 4, 3, 3, 5, 73]);
    expect(radices(1)).toEqual([]);
    for (const n of [2, 8, 97, 1000, 525600]) expect(radices(n).reduce((a, b) => a * b, 1)).toBe(n);
  });
});
