import { describe, expect, it } from "vitest";
import { drawnRecords } from "../../../../lib/cycles/swings/drawnRecords.js";
import { redBackground } from "../../../../lib/cycles/swings/redBackground.js";
import { sixHourMeans } from "../../../../lib/cycles/swings/sixHourMeans.js";
import { random } from "../../../../lib/ground/random.js";
import { expectClose } from "../../../close.js";

const _ = Number.NaN;

describe("redBackground at its edges", () => {
  it("six frequencies are enough, five are refused, none is told as none", () => {
    // 8 days: up to 0.9 cpd are 7 bins, from the second on six.
    expect(redBackground(32, 0.25)).toMatchObject({ from: 2, to: 7 });
    expect(() => redBackground(31, 0.25)).toThrow(new RangeError("redBackground: length must leave at least 6 frequencies up to 0.9 cpd (got 5); log longer"));
    expect(() => redBackground(12, 0.25)).toThrow("(got 1); log longer");
    expect(() => redBackground(0, 0.25)).toThrow("(got 0); log longer");
    expect(Object.isFrozen(redBackground(360, 0.25))).toBe(true);
  });

  it("ends at half the steps, or at the highest frequency asked, and begins where it is told", () => {
    expect(redBackground(100, 1)).toMatchObject({ from: 2, to: 50 });
    expect(redBackground(360, 0.25, 5, 0.5)).toMatchObject({ from: 5, to: 45 });
    // 0.9 × 10 days is 9 bins, whatever the rounding.
    expect(redBackground(40, 0.25).to).toBe(9);
  });

  it("is a parabola under 300 days, a quartic from there on, and finds either", () => {
    const fitted = (length: number, b: Float64Array): Float64Array => {
      const background = redBackground(length, 0.25);
      return background.fit(Float64Array.from({ length: length / 2 + 1 }, (_v, i) => background.at(b, i)));
    };
    expect(fitted(1198, Float64Array.of(3, -2, -0.6)).length).toBe(3);
    const quartic = Float64Array.of(3, -2, -0.6, 0.1, 0.05);
    const found = fitted(1200, quartic);
    expect(found.length).toBe(5);
    found.forEach((v, k) => {
      expectClose(v, quartic[k], { absolute: 1e-3 }, `coefficient ${k}`);
    });
  });

  it("stands between its bins, at 0.2 cpd as the first coefficient says", () => {
    const background = redBackground(360, 0.25);
    // 90 days: 0.2 cpd is bin 18; L = ln(f / 0.2 cpd).
    const b = Float64Array.of(1, -2, 0.5);
    expectClose(background.at(b, 18), Math.E, { relative: 1e-12 });
    const l = Math.log(20.5 / 18);
    expectClose(background.at(b, 20.5), Math.exp(1 - 2 * l + 0.5 * l * l), { relative: 1e-12 });
  });

  it("of a record of nothing is as good as nothing, and a hole in a spectrum pulls it no lower than a whole step", () => {
    const background = redBackground(360, 0.25);
    const none = background.fit(new Float64Array(181));
    expect(none.every(Number.isFinite)).toBe(true);
    expect(background.at(none, 18)).toBeLessThan(1e-200);
    const b = Float64Array.of(3, -2, -0.6);
    const holed = Float64Array.from({ length: 181 }, (_v, i) => (i === 30 ? 0 : background.at(b, i)));
    expectClose(background.fit(holed)[0], 3, { absolute: 0.1 });
  });
});

describe("drawnRecords at their edges", () => {
  it("gives as many as are asked, odd or even, in the same memory, without gaps where there are none", () => {
    for (const count of [0, 1, 2, 5]) {
      const seen = new Set<Float64Array>();
      let records = 0;
      for (const record of drawnRecords([1, 2, 3, 4], () => 1, random(3).normal, count)) {
        seen.add(record);
        expect(record.length).toBe(4);
        expect(record.every(Number.isFinite)).toBe(true);
        records++;
      }
      expect(records).toBe(count);
      expect(seen.size).toBe(Math.min(count, 1));
    }
  });

  it("asks the spectrum at the frequencies of four records, on both sides alike, and the normals in their order", () => {
    const asked: number[] = [];
    const drawn = [...drawnRecords([0, 0], (f) => { asked.push(f); return 1; }, () => 1, 1)];
    expect(asked).toEqual([0, 0.125, 0.25, 0.375, 0.5, 0.375, 0.25, 0.125]);
    expect(drawn.length).toBe(1);
    // All normals 1 in a flat spectrum: everything stands at the first step.
    const [first] = [...drawnRecords([0, 0, 0], () => 1, () => 1, 1)].map((r) => [...r]);
    expect(Math.abs(first[0])).toBeGreaterThan(0.1);
    for (const v of first.slice(1)) expect(Math.abs(v)).toBeLessThan(1e-12);
  });

  it("neighbors in white weather are unrelated, in slow weather alike", () => {
    const along = (spectrum: (f: number) => number): number => {
      let [product, square] = [0, 0];
      for (const r of drawnRecords(new Float64Array(64), spectrum, random(4).normal, 200)) {
        for (let i = 1; i < 64; i++) [product, square] = [product + r[i] * r[i - 1], square + r[i] * r[i]];
      }
      return product / square;
    };
    // 12 600 pairs: chance alone is 0.009.
    expectClose(along(() => 1), 0, { absolute: 0.03 });
    // A spectrum of (1 + cos 2πf)/2 is the mean of neighbors: correlation 1/2.
    expectClose(along((f) => 1 + Math.cos(2 * Math.PI * f)), 0.5, { absolute: 0.03 });
  });

  it("bridges the gaps of the real record and leaves its missing ends open", () => {
    for (const r of drawnRecords([_, 1, _, _, 1, 1, _], () => 1, random(5).normal, 3)) {
      expect([Number.isNaN(r[0]), Number.isNaN(r[6])]).toEqual([true, true]);
      expectClose(r[2], r[1] + (r[4] - r[1]) / 3, { absolute: 1e-12 });
      expectClose(r[3], r[1] + (2 * (r[4] - r[1])) / 3, { absolute: 1e-12 });
    }
  });
});

describe("six-hourly means at their edges", () => {
  it("each block has its own six hours", () => {
    expect([...sixHourMeans([1, 2, 3, 4, 5, 6, 7, 8, 9, 10, 11, 12])]).toEqual([3.5, 9.5]);
    expect([...sixHourMeans([_, _, _, 4, 5, 6, 7])]).toEqual([5, _]);
    expect([...sixHourMeans([_, _, _, _, 5, 6])]).toEqual([_]);
  });
});
