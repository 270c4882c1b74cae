import { describe, expect, it } from "vitest";
import { laggedCorrelation, rawCorrelation } from "../../../lib/indoors/laggedCorrelation.js";
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

  it("a copy has its lag; at an end of the range it has none", () => {
    const found = laggedCorrelation(inside, outside);
    expect(found.byLag.length).toBe(37);
    for (const lag of [-12, -5, 0, 7, 23]) {
      const copy = Float64Array.from({ length: n }, (_v, h) => outside[(h - lag + n) % n]);
      const own = laggedCorrelation(copy, outside);
      expect(own.byLag.indexOf(Math.max(...own.byLag)) - 12, `lag ${lag}`).toBe(lag);
      if (lag === -12) expect([own.lag, Number.isNaN(own.curvature)]).toEqual([null, true]);
      else expectClose(own.lag!.value, lag, { absolute: 0.3 }, `lag ${lag}`);
    }
    const none = laggedCorrelation(flat(20), outside);
    expect([none.correlation, none.lag, none.standardErrorOfAtanh, none.curvature, Number.isNaN(none.byLag[0])]).toEqual([null, null, _, _, true]);
    expect([found, none].every(Object.isFrozen)).toBe(true);
  });
});
