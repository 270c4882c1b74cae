import { describe, expect, it } from "vitest";
import { autoregressiveDensity } from "../../../../lib/cycles/spectrum/autoregressiveDensity.js";
import { densityLimits, limitFactors } from "../../../../lib/cycles/spectrum/densityLimits.js";
import { binFrequencies, withoutLevel } from "../../../../lib/cycles/spectrum/evenSamples.js";
import { multitaperDensity, sineTaper } from "../../../../lib/cycles/spectrum/multitaperDensity.js";
import { periodogramDensity, powerSpectrum } from "../../../../lib/cycles/spectrum/periodogramDensity.js";
import { windowWeights } from "../../../../lib/cycles/spectrum/taperWindow.js";
import { welchDegreesOfFreedom, welchDensity } from "../../../../lib/cycles/spectrum/welchDensity.js";
import { expectClose } from "../../../close.js";
import { asPairs, naiveTransform, parkMillerNoise } from "../../../naiveTransform.js";

const hourly = { stepSeconds: 3600, unit: "hPa" } as const;
const sum = (a: ArrayLike<number>): number => Array.from(a).reduce((s, v) => s + v, 0);
const rounding = { relative: 1e-12, absolute: 1e-15 };

/** Naive one-sided |DFT|² of weighted values. */
function naiveSquares(x: ArrayLike<number>, w: ArrayLike<number>): Float64Array {
  const n = x.length;
  const z = naiveTransform(asPairs(Float64Array.from(x, (v, j) => v * w[j])));
  return Float64Array.from({ length: Math.floor(n / 2) + 1 }, (_, k) => (k === 0 || 2 * k === n ? 1 : 2) * (z[2 * k] ** 2 + z[2 * k + 1] ** 2));
}

describe("every density and power", () => {
  const gap = parkMillerNoise(40, 3);
  gap[7] = Number.NaN;
  const x = parkMillerNoise(40, 3);
  const calls: Record<string, (values: ArrayLike<number>, options: { stepSeconds: number; unit?: string }) => object> = {
    periodogramDensity: (v, o) => periodogramDensity(v, o),
    powerSpectrum: (v, o) => powerSpectrum(v, o),
    welchDensity: (v, o) => welchDensity(v, 16, o),
    multitaperDensity: (v, o) => multitaperDensity(v, 3, o),
  };
  for (const [name, call] of Object.entries(calls)) {
    it(`${name} refuses a gap and a step that is not positive, is frozen, and leaves its input alone`, () => {
      expect(() => call(gap, hourly)).toThrow(
        new RangeError(`${name}: values must be finite and without gaps (got NaN at index 7); bridge short gaps, or use lombScargle for a record with gaps`),
      );
      for (const stepSeconds of [0, -3600, Number.NaN, Infinity]) expect(() => call(x, { stepSeconds })).toThrow(`${name}: stepSeconds must be`);
      expect(() => call([1], hourly)).toThrow(`${name}: values must hold at least 2 steps (got 1)`);
      expect(() => call([], hourly)).toThrow(RangeError);
      const before = x.slice();
      expect(Object.isFrozen(call(x, hourly))).toBe(true);
      expect(x).toEqual(before);
    });

    it(`${name} says its unit, and refuses unknown words`, () => {
      expect((call(x, hourly) as { unit: string }).unit).toBe(name === "powerSpectrum" ? "hPa2" : "hPa2 d");
      expect((call(x, { stepSeconds: 60 }) as { unit: string }).unit).toBe(name === "powerSpectrum" ? "1" : "d");
      expect(() => call(x, { ...hourly, removed: "trend" } as never)).toThrow(new TypeError(`${name}: removed must be one of nothing, mean, line (got "trend")`));
      if (name !== "multitaperDensity") expect(() => call(x, { ...hourly, window: "hann" } as never)).toThrow(TypeError);
    });
  }
});

describe("periodogram", () => {
  it("is the naive sum, even and odd, for the shortest records too", () => {
    for (const n of [2, 3, 24, 25]) {
      const x = parkMillerNoise(n, n);
      const w = windowWeights("Blackman", n);
      const d = periodogramDensity(x, { ...hourly, window: "Blackman", removed: "nothing" });
      const p = powerSpectrum(x, { ...hourly, window: "Blackman", removed: "nothing" });
      naiveSquares(x, w).forEach((s, k) => {
        expectClose(d.density[k], s / 24 / sum(w.map((v) => v * v)), { relative: 1e-11, absolute: 1e-15 });
        expectClose(p.power[k], s / sum(w) ** 2, { relative: 1e-11, absolute: 1e-15 });
      });
      expect(d.cyclesPerDay).toEqual(binFrequencies(n, 3600));
    }
  });

  it("a constant leaves nothing once the mean is out, a line nothing once the line is", () => {
    expect(sum(powerSpectrum(new Float64Array(50).fill(861.3), hourly).power)).toBe(0);
    const slope = Float64Array.from({ length: 50 }, (_, i) => 861 + 0.01 * i);
    expect(sum(powerSpectrum(slope, { ...hourly, removed: "line" }).power)).toBeLessThan(1e-20);
    expect(sum(powerSpectrum(slope, hourly).power)).toBeGreaterThan(1e-4);
  });

  it("frequencies follow the step: 48 hours have one cycle a day in bin 2", () => {
    const f = binFrequencies(48, 3600);
    expect([f.length, f[0], f[2], f[24]]).toEqual([25, 0, 1, 12]);
    expect(binFrequencies(3, 86400).length).toBe(2);
  });

  it("takes the mean out without losing digits", () => {
    const small = parkMillerNoise(1000, 8);
    const a = withoutLevel(small, "mean", "x");
    const b = withoutLevel(small.map((v) => v + 1e6), "mean", "x");
    expectClose(Math.max(...a.map((v, i) => Math.abs(v - b[i]))), 0, { absolute: 3e-10 }); // a reading near 10⁶ is rounded to 1.2·10⁻¹⁰
    expectClose(sum(a), 0, { absolute: 1e-12 });
  });
});

describe("welchDensity", () => {
  const x = parkMillerNoise(103, 21);

  it("is the plain mean of its segments' periodograms", () => {
    const w = welchDensity(x, 20, { ...hourly, window: "Hamming", overlap: 0.5 });
    expect([w.segments, w.segmentSteps, w.stepsUnused, w.steps]).toEqual([9, 20, 3, 103]);
    const each = Array.from({ length: 9 }, (_, k) => periodogramDensity(x.subarray(10 * k, 10 * k + 20), { ...hourly, window: "Hamming" }).density);
    w.density.forEach((d, i) => void expectClose(d, sum(each.map((e) => e[i])) / 9, rounding));
  });

  it("one segment of the whole record is the periodogram, with two degrees of freedom", () => {
    const w = welchDensity(x, 103, hourly);
    const p = periodogramDensity(x, hourly);
    expect(w.segments).toBe(1);
    expect(w.degreesOfFreedom).toBe(2);
    w.density.forEach((d, i) => void expectClose(d, p.density[i], rounding));
    expectClose(w.bandwidth, p.bandwidth, rounding);
  });

  it("has limits around the density, wider where a bin is one real number", () => {
    const w = welchDensity(x, 20, hourly);
    const { low, high } = limitFactors(w.degreesOfFreedom, 0.95);
    w.density.forEach((d, i) => {
      expect(w.low[i] <= d && d <= w.high[i]).toBe(true);
      if (i > 0 && i < 10) {
        expectClose(w.low[i], d * low, rounding);
        expectClose(w.high[i], d * high, rounding);
      } else expect(w.high[i] / d).toBeGreaterThan(high);
    });
    expect(welchDensity(x, 20, { ...hourly, level: 0.8 }).high[3]).toBeLessThan(w.high[3]);
  });

  it("counts the overlap: without it two degrees a segment, with more of it fewer", () => {
    const w = windowWeights("Hann", 64);
    expect(welchDegreesOfFreedom(w, 64, 10)).toBe(20);
    expect(welchDegreesOfFreedom(w, 16, 10)).toBeLessThan(welchDegreesOfFreedom(w, 32, 10));
    const quarter = welchDegreesOfFreedom(w, 16, 3);
    const rho = [16, 32].map((shift) => w.reduce((s, v, j) => s + v * (w[j + shift] ?? 0), 0) / w.reduce((s, v) => s + v * v, 0));
    expectClose(quarter, 6 / (1 + 2 * ((2 / 3) * rho[0] ** 2 + (1 / 3) * rho[1] ** 2)), rounding);
  });

  it("refuses a segment longer than the record, a broken one, and an overlap of all", () => {
    expect(() => welchDensity(x, 104, hourly)).toThrow(new RangeError("welchDensity: segmentSteps must be from 2 to 103 steps (got 104 steps)"));
    expect(() => welchDensity(x, 20.5, hourly)).toThrow("welchDensity: segmentSteps must be a whole number (got 20.5 steps)");
    expect(() => welchDensity(x, 20, { ...hourly, overlap: 1 })).toThrow("welchDensity: overlap must be from 0 to 0.95 (got 1)");
    expect(() => welchDensity(x, 20, { ...hourly, level: 1 })).toThrow("limitFactors: level must be");
    expect(() => limitFactors(0)).toThrow(RangeError);
  });

  it("limits at the ends have half the degrees of freedom, at the last bin only for even lengths", () => {
    const d = Float64Array.of(1, 1, 1);
    const wide = limitFactors(3).high;
    const narrow = limitFactors(6).high;
    expect(Array.from(densityLimits(d, 4, 6).high)).toEqual([wide, narrow, wide]);
    expect(Array.from(densityLimits(d, 5, 6).high)).toEqual([wide, narrow, narrow]);
  });
});

describe("multitaperDensity", () => {
  it("is the naive mean over tapers", () => {
    for (const n of [30, 31]) {
      const x = parkMillerNoise(n, 2);
      const m = multitaperDensity(x, 3, { ...hourly, removed: "nothing" });
      const each = [1, 2, 3].map((k) => naiveSquares(x, sineTaper(k, n)));
      m.density.forEach((d, i) => void expectClose(d, sum(each.map((e) => e[i])) / 3 / 24, { relative: 1e-11, absolute: 1e-15 }));
      expect([m.tapers, m.steps, m.degreesOfFreedom]).toEqual([3, n, 6]);
      expectClose(m.bandwidth, (4 / (n + 1)) * 24, rounding);
    }
  });

  it("tapers are orthonormal", () => {
    for (const [a, b] of [[1, 1], [2, 2], [5, 5], [1, 2], [1, 3], [4, 5]]) {
      const u = sineTaper(a, 40);
      expectClose(sum(sineTaper(b, 40).map((v, j) => v * u[j])), a === b ? 1 : 0, { absolute: 1e-14 });
    }
  });

  it("refuses more tapers than the record bears", () => {
    const x = parkMillerNoise(8, 2);
    expect(() => multitaperDensity(x, 5, hourly)).toThrow(new RangeError("multitaperDensity: tapers must be from 1 to 4 (got 5)"));
    expect(() => multitaperDensity(x, 2.5, hourly)).toThrow("multitaperDensity: tapers must be a whole number (got 2.5)");
    expect(() => multitaperDensity(x, 0, hourly)).toThrow(RangeError);
  });
});

describe("autoregressiveDensity", () => {
  it("integrates to its variance", () => {
    for (const coefficient of [0, 0.9, -0.5]) {
      const m = 20000;
      const f = Float64Array.from({ length: m }, (_, i) => ((i + 0.5) / m) * 12);
      const d = autoregressiveDensity(f, { coefficient, innovation: 1.3, stepSeconds: 3600, unit: "hPa" });
      expectClose((sum(d.density) * 12) / m, d.variance, { relative: 1e-6 });
      expectClose(d.variance, 1.69 / (1 - coefficient ** 2), rounding);
      expect(d.unit).toBe("hPa2 d");
    }
  });

  it("refuses noise that grows, and frequencies beyond half a cycle a step", () => {
    const options = { coefficient: 0.5, innovation: 1, stepSeconds: 3600 };
    expect(() => autoregressiveDensity([1], { ...options, coefficient: 1 })).toThrow(new RangeError("autoregressiveDensity: coefficient must be above -1 and below 1 (got 1)"));
    expect(() => autoregressiveDensity([1, 12.1], options)).toThrow("autoregressiveDensity: cyclesPerDay must be from 0 to half a cycle a step, 12 cpd (got 12.1 cpd at index 1)");
    expect(() => autoregressiveDensity([Number.NaN], options)).toThrow(RangeError);
    expect(() => autoregressiveDensity([1], { ...options, stepSeconds: 0 })).toThrow(RangeError);
    expect(() => autoregressiveDensity([1], { ...options, innovation: -1 })).toThrow(RangeError);
    expect(autoregressiveDensity([0, 12], options).density.length).toBe(2);
  });
});
