import { describe, expect, it } from "vitest";
import { laggedCorrelation, rawCorrelation } from "../../../lib/indoors/laggedCorrelation.js";
import { tCdf } from "../../../lib/ground/distributions.js";
import { pairedHours } from "../../../lib/indoors/pairedHours.js";
import { withoutCycles } from "../../../lib/indoors/withoutCycles.js";
import { expectClose } from "../../close.js";
import { madeInside, madeOutside } from "./madeRecord.js";

const _ = Number.NaN;
const n = 24 * 30;
const outside = madeOutside(n, 31);
const inside = madeInside(outside, 9, 32);
const flat = (v: number, length = n): Float64Array => new Float64Array(length).fill(v);

describe("correlations, their words and ends", () => {
  it("the raw one says how many hours its hours are worth", () => {
    const raw = rawCorrelation(inside, outside);
    expect(raw.says).toBe(
      "The plain correlation misleads: any two places that see the same sun agree in their daily cycle, and neighboring hours are not independent, " +
        `so that these 720 hours count as ${Math.round(raw.effectiveCount)} once the cycle is out.`,
    );
    expect(raw.withCycle).toBeGreaterThan(0.3);
    expect(raw.pValue).toBeLessThan(0.2);
    expect(Object.isFrozen(raw)).toBe(true);
    const [mi, mo] = [inside, outside].map((v) => v.reduce((s, w) => s + w, 0) / n);
    const sum = (f: (h: number) => number): number => Array.from({ length: n }, (_v, h) => f(h)).reduce((s, v) => s + v, 0);
    const pearson = sum((h) => (inside[h] - mi) * (outside[h] - mo)) / Math.sqrt(sum((h) => (inside[h] - mi) ** 2) * sum((h) => (outside[h] - mo) ** 2));
    expectClose(raw.withCycle, pearson, { absolute: 1e-12 });
    const still = rawCorrelation(flat(20), outside);
    expect([still.withCycle, still.withoutCycle, still.pValue, still.effectiveCount]).toEqual([_, _, _, 720]);
    expect(() => rawCorrelation(flat(1, 47), flat(1, 47))).toThrow(new RangeError("rawCorrelation: inside and outside must share at least 48 hours (got 47 h); log longer"));
  });

  it("what the hours are worth, and the chance: Bartlett's count by plain sums, Student's law", () => {
    for (const [a, b] of [[inside, outside], [madeOutside(n, 77), outside], [outside.map((v, h) => (h % 50 === 3 ? _ : v)), inside]]) {
      const both = pairedHours("test", a, b);
      const [u, v] = [withoutCycles(a, both), withoutCycles(b, both)];
      const product = (x: Float64Array, y: Float64Array, lag: number): number => {
        const all = Array.from(x, (value, h) => value * (y[h + lag] ?? _)).filter((p) => !Number.isNaN(p));
        return all.reduce((sum, p) => sum + p, 0) / all.length;
      };
      const r = product(u, v, 0) / Math.sqrt(product(u, u, 0) * product(v, v, 0));
      const memory = (product(u, u, 1) / product(u, u, 0)) * (product(v, v, 1) / product(v, v, 0));
      const count = both.reduce((sum, m) => sum + m, 0) * ((1 - memory) / (1 + memory));
      const raw = rawCorrelation(a, b);
      const kept = Array.from(both.keys()).filter((h) => both[h] === 1);
      const [ma, mb] = [a, b].map((values) => kept.reduce((sum, h) => sum + values[h], 0) / kept.length);
      const sums = kept.reduce(([ab, aa, bb], h) => [ab + (a[h] - ma) * (b[h] - mb), aa + (a[h] - ma) ** 2, bb + (b[h] - mb) ** 2], [0, 0, 0]);
      expectClose(raw.withCycle, sums[0] / Math.sqrt(sums[1] * sums[2]), { absolute: 1e-12 });
      expectClose(raw.withoutCycle, r, { absolute: 1e-12 });
      expectClose(raw.effectiveCount, count, { relative: 1e-9 });
      expectClose(raw.pValue, 2 * (1 - tCdf(Math.abs(r) * Math.sqrt((count - 2) / (1 - r * r)), count - 2)), { absolute: 1e-9 });
    }
    expect(rawCorrelation(outside.subarray(0, 48), inside.subarray(0, 48)).effectiveCount).toBeGreaterThanOrEqual(3);
    // The same air in both: no chance reaches that.
    expectClose(rawCorrelation(outside, outside).withoutCycle, 1, { absolute: 1e-12 });
    expect(rawCorrelation(outside, outside).pValue).toBeLessThan(1e-6);
  });

  it("of a place with itself the largest stands at no lag, with r = 1 and no interval", () => {
    const own = laggedCorrelation(outside, outside);
    expectClose(own.correlation!.value, 1, { absolute: 1e-9 });
    expectClose(own.correlation!.low, 1, { absolute: 1e-9 });
    expect([own.standardErrorOfAtanh, own.correlation!.unit, own.lag!.unit]).toEqual([0, "1", "h"]);
    expectClose(own.lag!.value, 0, { absolute: 1e-6 });
    for (const [a, b] of [[flat(20.1), outside], [outside, flat(20.1)]]) expect(laggedCorrelation(a, b)).toMatchObject({ correlation: null, lag: null });
    expect(() => laggedCorrelation([1], [1, 2])).toThrow("laggedCorrelation: outside must have the length of inside, 1 h (got 2 h)");
    expect(() => rawCorrelation([1], [1, 2])).toThrow("rawCorrelation: outside must have the length of inside, 1 h (got 2 h)");
  });

  it("a copy has its lag; at an end of the range it has none", () => {
    const found = laggedCorrelation(inside, outside);
    expect(found.byLag.length).toBe(37);
    const { value, standardError } = found.correlation!;
    expectClose(standardError, found.standardErrorOfAtanh * (1 - value ** 2), { relative: 1e-12 });
    // Student's t: from 1.96 to the 12.71 of one degree of freedom.
    const t = (found.lag!.high - found.lag!.value) / found.lag!.standardError;
    expect(t > 1.96 && t < 12.71).toBe(true);
    expectClose(found.lag!.value - found.lag!.low, found.lag!.high - found.lag!.value, { relative: 1e-9 });
    for (const lag of [-12, -5, 0, 7, 23]) {
      const copy = Float64Array.from({ length: n }, (_v, h) => outside[(h - lag + n) % n]);
      const own = laggedCorrelation(copy, outside);
      expect(own.byLag.indexOf(Math.max(...own.byLag)) - 12, `lag ${lag}`).toBe(lag);
      if (lag === -12) {
        expect([own.lag, Number.isNaN(own.curvature)]).toEqual([null, true]);
        expectClose(own.correlation!.value, own.byLag[0], { absolute: 1e-12 }, "the largest itself, without a parabola");
      }
      else expectClose(own.lag!.value, lag, { absolute: 0.3 }, `lag ${lag}`);
    }
    const none = laggedCorrelation(flat(20), outside);
    expect([none.correlation, none.lag, none.standardErrorOfAtanh, none.curvature, Number.isNaN(none.byLag[0])]).toEqual([null, null, _, _, true]);
    expect([found, none].every(Object.isFrozen)).toBe(true);
  });
});
