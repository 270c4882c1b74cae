import { describe, expect, it } from "vitest";
import { autoregressiveDensity } from "../../../../lib/cycles/spectrum/autoregressiveDensity.js";
import { chirpCost, chirpLength } from "../../../../lib/cycles/spectrum/chirpTransform.js";
import { requireEven } from "../../../../lib/cycles/spectrum/evenSamples.js";
import { fourierPlan } from "../../../../lib/cycles/spectrum/fourier.js";
import { lombScargle } from "../../../../lib/cycles/spectrum/lombScargle.js";
import { mixedRadix } from "../../../../lib/cycles/spectrum/mixedRadix.js";
import { multitaperDensity } from "../../../../lib/cycles/spectrum/multitaperDensity.js";
import { factoredCost, plainCost, raderCost } from "../../../../lib/cycles/spectrum/radices.js";
import { inverseRealTransform, realTransform } from "../../../../lib/cycles/spectrum/realTransform.js";
import { densityUnit } from "../../../../lib/cycles/spectrum/spectralUnit.js";
import { spectrumLine } from "../../../../lib/cycles/spectrum/spectrumLine.js";
import { windowWeights } from "../../../../lib/cycles/spectrum/taperWindow.js";
import { welchDegreesOfFreedom, welchDensity } from "../../../../lib/cycles/spectrum/welchDensity.js";
import { overlapCorrelation, windowFigures } from "../../../../lib/cycles/spectrum/windowFigures.js";
import { leastSquares } from "../../../../lib/ground/leastSquares.js";
import { expectClose } from "../../../close.js";
import { naiveTransform, parkMillerNoise } from "../../../naiveTransform.js";

describe("red noise of first order by hand", () => {
  it("is 2 σ² Δ over 1 − 2 φ cos 2πfΔ + φ²: 32 at 0, 6.4 at a quarter, 32/9 at half a cycle a step of a day", () => {
    const got = autoregressiveDensity([0, 0.25, 0.5], { coefficient: 0.5, innovation: 2, stepSeconds: 86_400 });
    [32, 6.4, 32 / 9].forEach((v, i) => {
      expectClose(got.density[i], v, { relative: 1e-12 }, `bin ${i}`);
    });
    expect([got.unit, Object.isFrozen(got)]).toEqual(["d", true]);
    expectClose(got.variance, 4 / 0.75, { relative: 1e-12 });
    // Half a day: half of it, at twice the frequency.
    expectClose(autoregressiveDensity([0.5], { coefficient: 0.5, innovation: 2, stepSeconds: 43_200, unit: "hPa" }).density[0], 3.2, { relative: 1e-12 });
  });

  it("takes frequencies from 0 to half a cycle a step and a hair more, and coefficients within ±1", () => {
    const of = (f: number, coefficient = 0.5, stepSeconds = 86_400, innovation = 1) => () => autoregressiveDensity([0.1, f], { coefficient, innovation, stepSeconds });
    expect(of(0.5 * (1 + 1e-9))).not.toThrow();
    expect(of(0.5 * (1 + 2e-9))).toThrow("autoregressiveDensity: cyclesPerDay must be from 0 to half a cycle a step, 0.5 cpd (got 0.500000001 cpd at index 1)");
    expect(of(-1e-9)).toThrow("(got -1e-9 cpd at index 1)");
    for (const coefficient of [-1, 1]) expect(of(0.1, coefficient)).toThrow(new RangeError(`autoregressiveDensity: coefficient must be above -1 and below 1 (got ${coefficient})`));
    for (const coefficient of [-0.999, 0.999]) expect(of(0.1, coefficient)).not.toThrow();
    expect(of(0.1, 0.5, -1)).toThrow(/^autoregressiveDensity: stepSeconds must be from .* s \(got -1 s\)$/);
    expect(of(0.1, 0.5, 60, -1)).toThrow(/^autoregressiveDensity: innovation must be from 0 to/);
  });
});

describe("a line by hand", () => {
  const hourly = { stepSeconds: 3600 } as const;

  it("upside down is 180°, however the sine rounds", () => {
    // Four steps of six hours, −1, 0, 1, 0: sin π is a hair above 0, so that the angle comes out as −π.
    const got = spectrumLine([-1, 0, 1, 0], 1, { stepSeconds: 21_600, window: "rectangular", removed: "nothing" });
    expect([got.phaseDegrees, got.amplitude, got.unit]).toEqual([180, 1, "1"]);
    expectClose(got.crestAfterDays, 0.5, { absolute: 1e-12 });
  });

  it("is told above a billionth of a bin and below half a cycle a step", () => {
    const x = Float64Array.from({ length: 48 }, (_v, j) => Math.cos(j));
    expect(() => spectrumLine(x, 0.4e-9, hourly)).toThrow("spectrumLine: cyclesPerDay must be above 0 and below half a cycle a step, 0 to 12 cpd (got 4e-10 cpd)");
    expect(spectrumLine(x, 0.5e-9, hourly).cyclesPerDay).toBe(0.5e-9);
    expect(spectrumLine(x, 11.999, hourly).cyclesPerDay).toBe(11.999);
    const bin = (f: number) => () => spectrumLine(x, f, { ...hourly, at: "bin" });
    expect([bin(0.25)().cyclesPerDay, bin(11.74)().cyclesPerDay]).toEqual([0.5, 11.5]);
    expect(bin(11.76)).toThrow("spectrumLine: cyclesPerDay must lie nearest to a bin between the first and the last, 0 to 12 cpd (got 11.76 cpd)");
    expect(bin(12.2)).toThrow("lie nearest");
    expect(bin(0.24)).toThrow("lie nearest");
    // An odd record ends between two bins.
    expect(() => spectrumLine(x.subarray(0, 5), 12, { ...hourly, at: "bin" })).toThrow("0 to 12 cpd");
    expect(spectrumLine(x.subarray(0, 5), 11.9, { ...hourly, at: "bin" }).cyclesPerDay).toBe(9.6);
  });

  it("refuses by its own name", () => {
    expect(() => spectrumLine([1, 2, 3], 1, { ...hourly, at: "peak" as "bin" })).toThrow(new TypeError('spectrumLine: at must be frequency or bin (got "peak")'));
    expect(() => spectrumLine([1, 2], 1, hourly)).toThrow(new RangeError("spectrumLine: values must hold at least 3 steps (got 2); log longer"));
    expect(() => spectrumLine([1, 2, 3], 1, { ...hourly, removed: "trend" as "line" })).toThrow(/^spectrumLine: removed must be one of/);
    expect(() => requireEven("x", [1, 2, 3], 0, 2)).toThrow(/^x: stepSeconds must be from .* \(got 0 s\)$/);
    expect(() => requireEven("x", [1, 1e61], 1, 2)).toThrow(/^x: values/);
  });
});

describe("windows by hand", () => {
  it("gain, noise bandwidth and the dip half a bin off, as F. J. Harris's table of 1978 has them", () => {
    // Proceedings of the IEEE 66, 51: rounded there to 0.50, 1.50, −1.42 dB for Hann and so on (from memory); exact where a formula is given.
    const rectangular = windowFigures("rectangular");
    expect([rectangular.coherentGain, rectangular.equivalentNoiseBandwidth, rectangular.length]).toEqual([1, 1, 4096]);
    expectClose(rectangular.scalloping, 20 * Math.log10(2 / Math.PI), { absolute: 1e-5 });
    const hann = windowFigures("Hann");
    expectClose(hann.coherentGain, 0.5, { absolute: 1e-12 });
    expectClose(hann.equivalentNoiseBandwidth, 1.5, { absolute: 1e-12 });
    expectClose(hann.scalloping, -1.42, { absolute: 5e-3 });
    const triangle = windowFigures("triangle");
    expectClose(triangle.equivalentNoiseBandwidth, 4 / 3, { absolute: 1e-6 });
    expectClose(triangle.scalloping, 20 * Math.log10(8 / Math.PI ** 2), { absolute: 1e-4 });
    const hamming = windowFigures("Hamming");
    expectClose(hamming.coherentGain, 0.54, { absolute: 1e-12 });
    expectClose(hamming.equivalentNoiseBandwidth, (0.54 ** 2 + 0.46 ** 2 / 2) / 0.54 ** 2, { absolute: 1e-12 });
  });

  it("a triangle of eight; what two neighbors of it share", () => {
    const w = windowWeights("triangle", 8);
    expect([...w]).toEqual([0, 0.25, 0.5, 0.75, 1, 0.75, 0.5, 0.25]);
    // Squares 2.75; two steps on: 0.25·0.75 twice, 0.5, 0.75² and 0.5 · 0.75 …: 0 + 0.1875 + 0.5 + 0.5625 + 0.5 + 0.1875.
    expectClose(overlapCorrelation(w, 2), 1.9375 / 2.75, { absolute: 1e-14 });
    expect(() => overlapCorrelation(w, -1)).toThrow(/^overlapCorrelation: shift must be from 0 to \d+ samples \(got -1 samples\)$/);
    // Three segments half over each other: shares ρ(4) of neighbors, none of the first and the third.
    const rho = (0 + 0.25 * 0.75 + 0.5 * 0.5 + 0.75 * 0.25) / 2.75;
    expectClose(welchDegreesOfFreedom(w, 4, 3), 6 / (1 + 2 * (2 / 3) * rho ** 2), { relative: 1e-12 });
    expect(() => welchDegreesOfFreedom(w, 0, 3)).toThrow(/^welchDegreesOfFreedom: shift must be from 1 to \d+ samples \(got 0 samples\)$/);
    expect(() => welchDegreesOfFreedom(w, 4, 0)).toThrow(/^welchDegreesOfFreedom: segments must be from 1/);
  });

  it("densities have a value for each frequency from 0 to half a cycle a step, odd or even", () => {
    const x = parkMillerNoise(41, 5);
    for (const n of [40, 41]) {
      const all = multitaperDensity(x.subarray(0, n), 3, { stepSeconds: 3600 });
      const parts = welchDensity(x, n - 20, { stepSeconds: 3600 });
      expect([all.density.length, all.cyclesPerDay.length, parts.density.length, parts.cyclesPerDay.length]).toEqual([21, 21, 11, 11]);
      expect(all.density.at(-1)).toBeGreaterThan(0);
    }
    expect(densityUnit("m s")).toBe("(m s)2 d");
  });
});

describe("lombScargle by hand", () => {
  const t = [0, 0.25, 0.5, 0.75];
  const power = (values: readonly number[], constant: "fitted" | "removed" | "none", times: readonly number[] = t, f = 1): number => lombScargle(times, values, [f], { constant }).power[0];

  it("3, 1, 1, 1 at quarters: two thirds of the squares about the mean, a sixth of all", () => {
    expectClose(power([3, 1, 1, 1], "fitted"), 2 / 3, { absolute: 1e-12 });
    expectClose(power([3, 1, 1, 1], "removed"), 2 / 3, { absolute: 1e-12 });
    expectClose(power([3, 1, 1, 1], "none"), 1 / 6, { absolute: 1e-12 });
    expect(lombScargle(t, [3, 1, 1, 1], [1]).unit).toBe("1");
    expect(lombScargle(t, [3, 1, 1, 1], [1], { normalization: "psd" }).unit).toBe("1");
    expectClose(lombScargle(t, [3, 1, 1, 1], [1], { normalization: "psd" }).power[0], 1, { absolute: 1e-12 });
  });

  it("at uneven times the three ways differ, each as a least-squares fit says", () => {
    const times = [0.1, 0.3, 0.42, 0.9, 1.7];
    const y = [2, 5, 3, 7, 1];
    const wave = [Math.cos, Math.sin].map((g) => times.map((v) => g(2 * Math.PI * 0.8 * v)));
    const mean = 3.6;
    const share = (columns: readonly (readonly number[])[], values: readonly number[], squares: number): number => 1 - leastSquares(columns.map((c) => Float64Array.from(c)), Float64Array.from(values)).residuals.reduce((s, v) => s + v * v, 0) / squares;
    const about = y.map((v) => v - mean);
    const squares = (v: readonly number[]): number => v.reduce((s, w) => s + w * w, 0);
    expectClose(power(y, "fitted", times, 0.8), share([[1, 1, 1, 1, 1], ...wave], y, squares(about)), { absolute: 1e-9 });
    expectClose(power(y, "removed", times, 0.8), share(wave, about, squares(about)), { absolute: 1e-9 });
    expectClose(power(y, "none", times, 0.8), share(wave, y, squares(y)), { absolute: 1e-9 });
    expect(new Set((["fitted", "removed", "none"] as const).map((c) => power(y, c, times, 0.8).toFixed(6))).size).toBe(3);
  });

  it("once a day at a wave of a day: a constant and nothing else; twice a day only one of the two waves", () => {
    expect(power([1, 2, 3, 4], "fitted", [0, 1, 2, 3])).toBe(0);
    expectClose(power([1, 2, 3, 4], "none", [0, 1, 2, 3]), 100 / 4 / 30, { absolute: 1e-12 });
    // Alternating −1 and 1: all of it, and with sines alone beside it nothing to divide by.
    expectClose(power([1, -1, 1, -1], "none", [0, 0.5, 1, 1.5]), 1, { absolute: 1e-12 });
    expectClose(power([1, -1, 1, -1], "none", [0.25, 0.75, 1.25, 1.75]), 1, { absolute: 1e-12 });
  });

  it("refuses other words", () => {
    expect(() => lombScargle(t, [1, 2, 3, 5], [1], { normalization: "power" as "psd" })).toThrow(new TypeError('lombScargle: normalization must be one of standard, model, log, psd (got "power")'));
    expect(() => lombScargle(t, [1, 2, 3, 5], [1], { constant: "mean" as "none" })).toThrow(new TypeError('lombScargle: constant must be one of fitted, removed, none (got "mean")'));
  });
});

describe("ways of a transform by hand", () => {
  it("what a length costs, by its factors or as a chirp", () => {
    expect([2, 5, 7].map(plainCost)).toEqual([2, 5, 14]);
    // 72 = 4 · 2 · 3 · 3; 28 = 4 · 7; 16 = 4 · 4.
    expect([73, 29, 17].map(raderCost)).toEqual([36, 48, 28]);
    // 17 is the first prime that may go by Rader's way; 13 would cost as much, 19 costs 2 (2 + 3 + 3) + 12.
    expect([30, 13, 17, 19, 58, 59].map(factoredCost)).toEqual([10, 26, 28, 28, 50, 112]);
    expect([1, 2, 32, 33, 59].map(chirpLength)).toEqual([2, 4, 64, 128, 128]);
    expectClose(chirpCost(59), (4 * 7 * 128) / 59 + 20, { relative: 1e-12 });
    expect([1, 64, 30, 59, 73, 118, 146, 17].map((n) => fourierPlan(n).method)).toEqual(["factors", "power of two", "factors", "chirp", "factors", "chirp", "factors", "factors"]);
  });

  it("a prime beside many sequences: 70 columns are taken 35 at once, 128 columns 64", () => {
    for (const columns of [70, 128]) {
      const z = parkMillerNoise(2 * 73 * columns, 9);
      const together = new Float64Array(z.length);
      mixedRadix(73, columns)(z, together);
      for (const r of [0, 34, 35, 63, 64, columns - 1]) {
        const one = (all: Float64Array): Float64Array => Float64Array.from({ length: 146 }, (_v, i) => all[2 * (r + columns * (i >> 1)) + (i & 1)]);
        const wanted = naiveTransform(one(z));
        one(together).forEach((v, i) => {
          expectClose(v, wanted[i], { absolute: 1e-12 }, `column ${r} of ${columns}, ${i}`);
        });
      }
    }
  });

  it("memory of one buffer may be used side by side, not over each other", () => {
    const shared = new Float64Array(12);
    shared.set([1, 2, 3, 4]);
    expect([...fourierPlan(4).forward(shared.subarray(0, 4), shared.subarray(4))]).toEqual([10, 0, -2, 2, -2, 0]);
    shared.set([1, 2, 3, 4], 8);
    expect([...fourierPlan(4).forward(shared.subarray(8), shared.subarray(0, 8))]).toEqual([10, 0, -2, 2, -2, 0]);
    for (const [input, into] of [[shared.subarray(0, 4), shared.subarray(3, 11)], [shared.subarray(7, 11), shared.subarray(0, 8)]]) expect(() => fourierPlan(4).forward(input, into)).toThrow("FourierPlan.forward: into must be memory apart from the input (got the same memory)");
  });

  it("each call refuses by its own name", () => {
    const plan = fourierPlan(3);
    const bad = (length: number): Float64Array => Float64Array.from({ length }, () => Number.NaN);
    expect(() => plan.inverse(bad(3))).toThrow("FourierPlan.inverse: input must hold 4 numbers for length 3 (got 3)");
    expect(() => plan.complexForward(bad(3))).toThrow("FourierPlan.complexForward: input must hold 6 numbers");
    expect(() => plan.complexInverse(bad(3))).toThrow("FourierPlan.complexInverse: input must hold 6 numbers");
    expect(() => plan.complexForward(bad(6))).toThrow(/^FourierPlan.complexForward: input must be finite/);
    expect(() => plan.complexInverse(bad(6))).toThrow(/^FourierPlan.complexInverse: input must be finite/);
    expect(() => fourierPlan(0)).toThrow("fourierPlan: length must be a whole number from 1 to 2^24 (got 0 samples)");
  });

  it("keeps the eight plans made last", () => {
    const first = fourierPlan(301);
    for (let n = 302; n < 309; n++) fourierPlan(n);
    expect(fourierPlan(301)).toBe(first);
    for (let n = 302; n < 310; n++) fourierPlan(n);
    expect(fourierPlan(301)).not.toBe(first);
  });

  it("there and back at odd and even lengths; bins of both kinds must fit", () => {
    for (const n of [1, 2, 5, 6]) {
      const x = parkMillerNoise(n, 3);
      inverseRealTransform(realTransform(x)).forEach((v, i) => {
        expectClose(v, x[i], { absolute: 1e-14 }, `${i} of ${n}`);
      });
    }
    const three = new Float64Array(3);
    expect(() => inverseRealTransform({ length: 4, real: three, imaginary: new Float64Array(2) })).toThrow(new RangeError("inverseRealTransform: real and imaginary must hold 3 bins for length 4 (got 3 and 2)"));
    expect(() => inverseRealTransform({ length: 4, real: new Float64Array(2), imaginary: three })).toThrow("(got 2 and 3)");
  });
});
