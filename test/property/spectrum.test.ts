import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { fourierPlan } from "../../lib/cycles/spectrum/fourier.js";
import { lombScargle } from "../../lib/cycles/spectrum/lombScargle.js";
import { multitaperDensity } from "../../lib/cycles/spectrum/multitaperDensity.js";
import { periodogramDensity } from "../../lib/cycles/spectrum/periodogramDensity.js";
import { inverseRealTransform, realTransform } from "../../lib/cycles/spectrum/realTransform.js";
import { spectrumLine } from "../../lib/cycles/spectrum/spectrumLine.js";
import { welchDensity } from "../../lib/cycles/spectrum/welchDensity.js";
import { expectClose } from "../close.js";
import { parkMillerNoise } from "../naiveTransform.js";

const check = (arbitraries: [fc.Arbitrary<number>, fc.Arbitrary<number>], law: (n: number, seed: number) => void, numRuns = 150): void =>
  fc.assert(fc.property(...arbitraries, law), { seed: 20240601, numRuns });

const lengths = fc.oneof(fc.integer({ min: 2, max: 400 }), fc.constantFrom(512, 720, 1009, 1024, 1460, 2880, 2881, 8760));
const seeds = fc.integer({ min: 1, max: 1e9 });
/** Largest difference, so that one expectation judges a whole array. */
const worst = (n: number, difference: (i: number) => number): number => {
  let most = 0;
  for (let i = 0; i < n; i++) most = Math.max(most, Math.abs(difference(i)));
  return most;
};
const squares = (a: Float64Array): number => a.reduce((sum, v) => sum + v * v, 0);

describe("transforms", () => {
  it("Parseval: Σ|X|² = n Σx²", () =>
    check([lengths, seeds], (n, seed) => {
      const x = parkMillerNoise(n, seed);
      const { real, imaginary } = realTransform(x);
      const all = real.reduce((sum, re, k) => sum + (k === 0 || 2 * k === n ? 1 : 2) * (re ** 2 + imaginary[k] ** 2), 0);
      expectClose(all, n * squares(x), { relative: 1e-13 * Math.sqrt(n) }); // rounding grows no faster
    }));

  it("there and back", () =>
    check([lengths, seeds], (n, seed) => {
      const x = parkMillerNoise(n, seed);
      const back = inverseRealTransform(realTransform(x));
      expectClose(worst(n, (j) => back[j] - x[j]), 0, { absolute: 1e-14 * Math.sqrt(n) });
    }));

  it("a shift in time is a turn of phase", () =>
    check([lengths, seeds], (n, seed) => {
      const x = parkMillerNoise(n, seed);
      const shift = seed % n;
      const a = realTransform(x);
      const b = realTransform(Float64Array.from({ length: n }, (_, j) => x[(j - shift + n) % n]));
      for (let k = 0; k < a.real.length; k += Math.max(1, k >> 2)) {
        const angle = (-2 * Math.PI * ((k * shift) % n)) / n;
        const why = { absolute: 1e-13 * Math.sqrt(n) };
        expectClose(b.real[k], a.real[k] * Math.cos(angle) - a.imaginary[k] * Math.sin(angle), why);
        expectClose(b.imaginary[k], a.real[k] * Math.sin(angle) + a.imaginary[k] * Math.cos(angle), why);
      }
    }));

  it("a constant changes bin 0 alone, and a sum is the sum", () =>
    check([lengths, seeds], (n, seed) => {
      const x = parkMillerNoise(n, seed);
      const a = fourierPlan(n).forward(x);
      const b = fourierPlan(n).forward(x.map((v) => 3 * v + 2));
      const why = { absolute: 1e-13 * n };
      expectClose(b[0], 3 * a[0] + 2 * n, why);
      expectClose(worst(a.length - 2, (i) => b[i + 2] - 3 * a[i + 2]), 0, why);
    }));
});

describe("densities", () => {
  const hourly = { stepSeconds: 3600 };

  it("the rectangular periodogram's sum times spacing is the variance", () =>
    check([lengths, seeds], (n, seed) => {
      const x = parkMillerNoise(n, seed);
      const mean = x.reduce((s, v) => s + v, 0) / n;
      const d = periodogramDensity(x, { ...hourly, window: "rectangular" });
      expectClose((d.density.reduce((s, v) => s + v, 0) * 24) / n, squares(x.map((v) => v - mean)) / n, { relative: 1e-11, absolute: 1e-16 });
    }));

  it("the level, the unit of time and the size go in as they should", () =>
    check([fc.integer({ min: 8, max: 120 }), seeds], (n, seed) => {
      const x = parkMillerNoise(n, seed);
      for (const of of [periodogramDensity, (v: ArrayLike<number>, o: typeof hourly) => welchDensity(v, 8, o), (v: ArrayLike<number>, o: typeof hourly) => multitaperDensity(v, 3, o)]) {
        const a = of(x, hourly);
        const higher = of(x.map((v) => 2 * v + 5), hourly);
        const faster = of(x, { stepSeconds: 60 });
        for (let k = 0; k < a.density.length; k++) {
          // Bin 0 holds what is left of a level; its digits are those of the level.
          expectClose(higher.density[k], 4 * a.density[k], { relative: 1e-8, absolute: 1e-14 });
          expectClose(faster.density[k], a.density[k] / 60, { relative: 1e-12 });
          expectClose(faster.cyclesPerDay[k], a.cyclesPerDay[k] * 60, { relative: 1e-12 });
        }
      }
    }, 40));

  it("limits of white noise hold the truth as often as they say, for Welch and for tapers", () => {
    // 200 records of 512; bins 4, 12, … of one record are far enough apart to count as separate.
    const truth = (2 * (1 / 12)) / 24; // one-sided 2σ²Δt, σ² of −0.5…0.5
    let inside = { welch: 0, tapers: 0 };
    let all = { welch: 0, tapers: 0 };
    for (let seed = 1; seed <= 200; seed++) {
      const x = parkMillerNoise(512, seed * 7919);
      const w = welchDensity(x, 128, hourly);
      const m = multitaperDensity(x, 5, hourly);
      const count = (d: { low: Float64Array; high: Float64Array }, step: number): [number, number] => {
        const bins = [...d.low.keys()].filter((k) => k % step === 4 && k < d.low.length - 4);
        return [bins.filter((k) => d.low[k] <= truth && truth <= d.high[k]).length, bins.length];
      };
      const [a, b] = [count(w, 8), count(m, 8)];
      inside = { welch: inside.welch + a[0], tapers: inside.tapers + b[0] };
      all = { welch: all.welch + a[1], tapers: all.tapers + b[1] };
    }
    // Four standard errors of a share of 0.95 among some 1 400 and 6 200.
    expectClose(inside.welch / all.welch, 0.95, { absolute: 4 * Math.sqrt((0.95 * 0.05) / all.welch) }, "Welch");
    expectClose(inside.tapers / all.tapers, 0.95, { absolute: 4 * Math.sqrt((0.95 * 0.05) / all.tapers) }, "tapers");
  });
});

describe("lines", () => {
  it("a later record turns the phase back, the amplitude stays", () =>
    check([fc.integer({ min: 2, max: 20 }), seeds], (days, seed) => {
      const n = 24 * days;
      const x = Float64Array.from({ length: n + 24 }, (_, j) => Math.cos((2 * Math.PI * 2 * j) / 24 + (seed % 7)));
      const shift = seed % 24;
      const a = spectrumLine(x.subarray(0, n), 2, { stepSeconds: 3600 });
      const b = spectrumLine(x.subarray(shift, n + shift), 2, { stepSeconds: 3600 });
      const turn = (b.phaseDegrees - a.phaseDegrees - 30 * shift) / 360;
      expectClose(turn - Math.round(turn), 0, { absolute: 1e-9 });
      expectClose(b.amplitude, a.amplitude, { relative: 1e-10 });
    }));

  it("Lomb–Scargle: order, start and level do not matter, the share stays within 0…1", () =>
    check([fc.integer({ min: 5, max: 60 }), seeds], (n, seed) => {
      const t = parkMillerNoise(n, seed).map((v) => 10 * v);
      const y = parkMillerNoise(n, seed + 1);
      const f = [0.3, 1, 2.7];
      const a = lombScargle(t, y, f).power;
      const turned = lombScargle(t.slice().reverse().map((v) => v + 40), y.slice().reverse().map((v) => 5 * v + 7), f).power;
      a.forEach((p, i) => {
        expectClose(turned[i], p, { absolute: 1e-9 });
        expect(p >= 0 && p <= 1).toBe(true);
      });
    }));
});
