import { describe, expect, it } from "vitest";
import { crossCorrelation, meanProduct } from "../../../lib/grid/crossCorrelation.js";
import { random } from "../../../lib/ground/random.js";
import { expectClose } from "../../close.js";

/** Plain Pearson correlation of pairs. */
function pearson(pairs: readonly (readonly [number, number])[]): number {
  const mean = (of: 0 | 1) => pairs.reduce((sum, p) => sum + p[of], 0) / pairs.length;
  const [mx, my] = [mean(0), mean(1)];
  const sum = (f: (x: number, y: number) => number) => pairs.reduce((s, [x, y]) => s + f(x - mx, y - my), 0);
  return sum((x, y) => x * y) / Math.sqrt(sum((x) => x * x) * sum((_, y) => y * y));
}

const { normal, uniform } = random(7701);
const a = Float64Array.from({ length: 400 }, () => 20 + normal());
const b = a.map((_, i) => (i >= 5 ? 2 * a[i - 5] : 40) + 0.5 * normal());
const gappy = (values: Float64Array): Float64Array => values.map((v) => (uniform() < 0.1 ? Number.NaN : v));

describe("crossCorrelation", () => {
  it("is largest where b follows a, with the sign of the lag", () => {
    const found = crossCorrelation(a, b, { from: -10, to: 10 });
    expect(found.map((f) => f.lag)).toEqual(Array.from({ length: 21 }, (_, k) => k - 10));
    const top = found.reduce((best, f) => ((f.correlation?.value ?? 0) > (best.correlation?.value ?? 0) ? f : best));
    expect(top.lag).toBe(5);
    expect(top.pairs).toBe(395);
    // 2/√(2² + 0.5²) of a standard deviation is shared.
    const truth = 2 / Math.hypot(2, 0.5);
    expect(top.correlation!.low <= truth && truth <= top.correlation!.high).toBe(true);
    expect(top.pValue).toBeLessThan(1e-10);
    expect(crossCorrelation(b, a, { from: -5, to: -5 })[0].correlation!.value).toBe(top.correlation!.value);
  });

  it("is Pearson's of the pairs that are there", () => {
    const [x, y] = [gappy(a), gappy(b)];
    for (const { lag, correlation, pairs } of crossCorrelation(x, y, { from: -3, to: 6 })) {
      const own = Array.from(x, (v, i) => [v, y[i + lag] ?? Number.NaN] as const).filter(([u, v]) => !Number.isNaN(u) && !Number.isNaN(v));
      expect(pairs).toBe(own.length);
      expectClose(correlation!.value, pearson(own), { absolute: 1e-12 }, `lag ${lag}`);
    }
  });

  it("memory lowers the count of independent pairs as Bartlett has it", () => {
    // Two AR(1) series: n(1 − φ²)/(1 + φ²), a fifth of them here; sample autocorrelations wander.
    const red = (): Float64Array => {
      let v = 0;
      return Float64Array.from({ length: 4000 }, () => (v = 0.8 * v + normal()));
    };
    const [found] = crossCorrelation(red(), red(), { from: 0, to: 0 });
    expectClose(found.effectiveCount, (4000 * (1 - 0.64)) / 1.64, { relative: 0.15 });
    const [white] = crossCorrelation(a, gappy(a), { from: 0, to: 0 });
    expectClose(white.effectiveCount, white.pairs, { relative: 0.1 });
  });

  it("a series with itself is 1 without error; one that does not vary has none; too few pairs have none", () => {
    const [self] = crossCorrelation(a, a, { from: 0, to: 0 });
    expect([self.correlation!.value, self.correlation!.low, self.correlation!.high, self.pValue]).toEqual([1, 1, 1, 0]);
    const [flat] = crossCorrelation(a, new Float64Array(400).fill(20.1), { from: 0, to: 0 });
    expect([flat.correlation, flat.pValue, flat.effectiveCount]).toEqual([null, Number.NaN, 0]);
    expect(crossCorrelation([1, 2, 4, 3], [2, 1, 3, 4], { from: 0, to: 0 })[0].correlation).toBe(null);
    const none = crossCorrelation(new Float64Array(10).fill(Number.NaN), a.subarray(0, 10), { from: 0, to: 0 })[0];
    expect([none.correlation, none.pairs]).toEqual([null, 0]);
  });

  it("refuses what cannot be", () => {
    expect(() => crossCorrelation([1, 2], [1], { from: 0, to: 0 })).toThrow("crossCorrelation: b must have the length of a, 2 (got 1)");
    expect(() => crossCorrelation(a, b, { from: 2, to: 1 })).toThrow("crossCorrelation: from and to must be whole steps in order (got 2 and 1)");
    expect(() => crossCorrelation(a, b, { from: 0, to: 400 })).toThrow("crossCorrelation: from and to must stay within the 400 steps (got 0 and 400)");
    expect(() => crossCorrelation([1, 2, 3], [1, 2, 3])).toThrow("stay within the 3 steps (got -24 and 24)");
  });
});

describe("meanProduct", () => {
  it("leaves out missing pairs and what lies beyond", () => {
    expect(meanProduct(Float64Array.of(1, 2, 3), Float64Array.of(4, 5, Number.NaN), 1)).toBe(5);
    expect(meanProduct(Float64Array.of(1, 2, 3), Float64Array.of(4, 5, 6), -2)).toBe(12);
    expect(meanProduct(Float64Array.of(1), Float64Array.of(1), 1)).toBeNaN();
  });
});
