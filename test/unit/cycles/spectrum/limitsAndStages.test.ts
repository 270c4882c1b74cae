import { describe, expect, it } from "vitest";
import { densityLimits, limitFactors } from "../../../../lib/cycles/spectrum/densityLimits.js";
import { oneSidedSquares, periodogramDensity, powerSpectrum } from "../../../../lib/cycles/spectrum/periodogramDensity.js";
import { genericStage, twiddles } from "../../../../lib/cycles/spectrum/primeStage.js";
import { expectClose } from "../../../close.js";
import { naiveTransform, parkMillerNoise } from "../../../naiveTransform.js";

describe("limits of a density", () => {
  it("are the printed quantiles of chi-square, 95 % unless told otherwise", () => {
    // Usual printed tables: chi-square of 10 degrees of freedom is below 3.246973 and 20.483177 with 2.5 and 97.5 %, below 3.940299 and 18.307038 with 5 and 95 %.
    const { low, high } = limitFactors(10);
    expectClose(low, 10 / 20.483177, { relative: 1e-7 });
    expectClose(high, 10 / 3.246973, { relative: 3e-7 });
    const ninety = limitFactors(10, 0.9);
    expectClose(ninety.low, 10 / 18.307038, { relative: 1e-7 });
    expectClose(ninety.high, 10 / 3.940299, { relative: 3e-7 });
    expect(densityLimits(Float64Array.of(1, 2, 1), 4, 20)).toEqual(densityLimits(Float64Array.of(1, 2, 1), 4, 20, 0.95));
  });

  it("multiply each bin, with half the freedom at the ends, and say their level and freedom", () => {
    const found = densityLimits(Float64Array.of(1, 2, 3), 4, 20, 0.9);
    const ends = limitFactors(10, 0.9);
    const inner = limitFactors(20, 0.9);
    expect([...found.low]).toEqual([ends.low, 2 * inner.low, 3 * ends.low]);
    expect([...found.high]).toEqual([ends.high, 2 * inner.high, 3 * ends.high]);
    expect([found.level, found.degreesOfFreedom]).toEqual([0.9, 20]);
  });

  it("refuse levels and freedoms that are none", () => {
    for (const level of [0.5, 0.9999]) expect(limitFactors(10, level).low).toBeLessThan(1);
    expect(() => limitFactors(10, 0.49)).toThrow("limitFactors: level must be from 0.5 to 0.9999 (got 0.49)");
    expect(() => limitFactors(10, 0.99991)).toThrow("limitFactors: level must be from 0.5 to 0.9999 (got 0.99991)");
    expect(() => limitFactors(0)).toThrow(/^limitFactors: degreesOfFreedom must be from 0\.001 to 1\.79\d+e\+308 \(got 0\)$/);
  });
});

describe("periodogram, what it says beside its numbers", () => {
  const x = parkMillerNoise(48, 5);

  it("Hann, less the mean, a pure number, unless told otherwise", () => {
    const plain = periodogramDensity(x, { stepSeconds: 3600 });
    expect(plain).toEqual(periodogramDensity(x, { stepSeconds: 3600, window: "Hann", removed: "mean", unit: "1" }));
    expect(plain).toMatchObject({ unit: "d", window: "Hann", steps: 48 });
    // A Hann window is one and a half bins wide; a bin of two days is half a cycle a day.
    expectClose(plain.bandwidth, 1.5 / 2, { relative: 1e-12 });
    expectClose(periodogramDensity(x, { stepSeconds: 3600, window: "rectangular" }).bandwidth, 0.5, { relative: 1e-12 });
    const power = powerSpectrum(x, { stepSeconds: 3600 });
    expect(power).toEqual(powerSpectrum(x, { stepSeconds: 3600, window: "Hann", removed: "mean", unit: "1" }));
    expect(power).toMatchObject({ unit: "1", window: "Hann", steps: 48 });
    expect(powerSpectrum(x, { stepSeconds: 3600, window: "Blackman", unit: "hPa" })).toMatchObject({ unit: "hPa2", window: "Blackman" });
  });

  it("the density's sum is the variance, a line of amplitude A has A²/2", () => {
    const density = periodogramDensity(x, { stepSeconds: 3600, window: "rectangular" }).density;
    const mean = x.reduce((s, v) => s + v, 0) / 48;
    expectClose(density.reduce((s, v) => s + v, 0) / 2, x.reduce((s, v) => s + (v - mean) ** 2, 0) / 48, { relative: 1e-12 });
    const line = Float64Array.from({ length: 48 }, (_, h) => 3 * Math.cos((2 * Math.PI * h) / 12));
    expectClose(powerSpectrum(line, { stepSeconds: 3600 }).power[4], 4.5, { relative: 1e-12 });
    expect([...oneSidedSquares(Float64Array.of(1, -1, 1, -1), Float64Array.of(1, 1, 1, 1))].map((v) => Math.round(v * 1e9) / 1e9)).toEqual([0, 0, 16]);
    expect([...oneSidedSquares(Float64Array.of(3, 0, 0), Float64Array.of(2, 1, 1))].map((v) => Math.round(v * 1e9) / 1e9)).toEqual([36, 72]);
  });
});

describe("a stage of any odd prime", () => {
  it("turning factors are e^(−2πi qk/n), rows of q", () => {
    const turn = twiddles(6, 3);
    expect(turn.length).toBe(8);
    [[0, 1], [0, 2], [1, 1], [1, 2]].forEach(([q, k], i) => {
      expectClose(turn[2 * i], Math.cos((2 * Math.PI * q * k) / 6), { absolute: 1e-15 }, `cos ${q} ${k}`);
      expectClose(turn[2 * i + 1], -Math.sin((2 * Math.PI * q * k) / 6), { absolute: 1e-15 }, `sin ${q} ${k}`);
    });
  });

  it("alone is the transform of its prime, side by side for each sequence", () => {
    for (const p of [3, 5, 7, 11]) {
      for (const s of [1, 3]) {
        const x = parkMillerNoise(2 * p * s, p + s);
        const y = new Float64Array(2 * p * s);
        genericStage(p, 1, s, twiddles(p, p))(x, y);
        for (let r = 0; r < s; r++) {
          const one = Float64Array.from({ length: 2 * p }, (_, i) => x[2 * (s * (i >> 1) + r) + (i & 1)]);
          naiveTransform(one).forEach((v, i) => {
            expectClose(y[2 * (s * (i >> 1) + r) + (i & 1)], v, { absolute: 1e-13 }, `${p}, ${s}, ${r}, ${i}`);
          });
        }
      }
    }
  });

  it("two of them one after the other are the transform of the product", () => {
    for (const [p, q] of [[3, 5], [5, 3], [7, 3], [3, 3]]) {
      const n = p * q;
      const x = parkMillerNoise(2 * n, n);
      const [half, y] = [new Float64Array(2 * n), new Float64Array(2 * n)];
      genericStage(p, q, 1, twiddles(n, p))(x, half);
      genericStage(q, 1, p, twiddles(q, q))(half, y);
      naiveTransform(x).forEach((v, i) => {
        expectClose(y[i], v, { absolute: 1e-12 }, `${p} · ${q}, ${i}`);
      });
    }
  });
});
