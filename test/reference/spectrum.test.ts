import { readFileSync } from "node:fs";
import { describe, expect, it } from "vitest";
import { limitFactors } from "../../lib/cycles/spectrum/densityLimits.js";
import type { Removed } from "../../lib/cycles/spectrum/evenSamples.js";
import { fourierPlan } from "../../lib/cycles/spectrum/fourier.js";
import { periodogramDensity, powerSpectrum } from "../../lib/cycles/spectrum/periodogramDensity.js";
import { realTransform } from "../../lib/cycles/spectrum/realTransform.js";
import { type WindowName, windowWeights } from "../../lib/cycles/spectrum/taperWindow.js";
import { welchDensity } from "../../lib/cycles/spectrum/welchDensity.js";
import { expectClose } from "../close.js";
import { parkMillerNoise } from "../naiveTransform.js";

interface Bins {
  length: number;
  real: number[];
  imaginary: number[];
}
interface Common {
  length: number;
  seed: number;
  stepSeconds: number;
  window: WindowName;
  removed: Removed;
  density: number[];
}
const file = JSON.parse(readFileSync(new URL("vectors/spectrum.json", import.meta.url), "utf8")) as {
  tool: string;
  version: string;
  realAll: (Bins & { seed: number })[];
  realSome: (Bins & { seed: number; bins: number[] })[];
  complexAll: (Bins & { seeds: [number, number] })[];
  windows: { name: WindowName; length: number; weights: number[] }[];
  periodograms: (Common & { slope: number; level: number; power: number[] })[];
  welch: (Common & { factor: number; segmentSteps: number; overlap: number; cyclesPerDay: number[] })[];
  limitFactors: { degreesOfFreedom: number; level: number; low: number; high: number }[];
};

/** Both sides round: bins are about 0.3√n in size, fourteen digits were written. */
const binBound = (n: number): { absolute: number } => ({ absolute: 4e-14 * Math.sqrt(n) });

describe(`spectra against ${file.tool} ${file.version}`, () => {
  it(`real transforms of ${file.realAll.length + file.realSome.length} lengths`, () => {
    for (const { length, seed, real, imaginary, ...rest } of [...file.realAll, ...file.realSome]) {
      const got = realTransform(parkMillerNoise(length, seed));
      const bins = "bins" in rest ? (rest.bins as number[]) : [...real.keys()];
      expect(bins.length).toBe(real.length);
      bins.forEach((bin, i) => {
        expectClose(got.real[bin], real[i], binBound(length), `${length}, real part of bin ${bin}`);
        expectClose(got.imaginary[bin], imaginary[i], binBound(length), `${length}, imaginary part of bin ${bin}`);
      });
    }
  });

  it("complex transforms", () => {
    for (const { length, seeds, real, imaginary } of file.complexAll) {
      const [a, b] = seeds.map((seed) => parkMillerNoise(length, seed));
      const got = fourierPlan(length).complexForward(Float64Array.from({ length: 2 * length }, (_, i) => (i % 2 === 0 ? a : b)[i >> 1]));
      real.forEach((v, k) => void expectClose(got[2 * k], v, binBound(length), `${length}, real part of bin ${k}`));
      imaginary.forEach((v, k) => void expectClose(got[2 * k + 1], v, binBound(length), `${length}, imaginary part of bin ${k}`));
    }
  });

  it("windows", () => {
    for (const { name, length, weights } of file.windows) {
      const got = windowWeights(name, length);
      // Fourteen digits were written: half of the last is 5e-15.
      weights.forEach((w, j) => void expectClose(got[j], w, { absolute: 6e-15 }, `${name} ${length} at ${j}`));
    }
  });

  it("periodograms, density and power, what is removed", () => {
    for (const c of file.periodograms) {
      const values = parkMillerNoise(c.length, c.seed).map((v, i) => v + c.slope * i + c.level);
      const options = { stepSeconds: c.stepSeconds, window: c.window, removed: c.removed };
      // With nothing removed the level of 860 stands in bin 0; elsewhere readings near 860 carry 10⁻¹³ of rounding.
      const near = { relative: 1e-10, absolute: 1e-12 };
      const d = periodogramDensity(values, options);
      const p = powerSpectrum(values, options);
      c.density.forEach((v, k) => void expectClose(d.density[k], v, near, `${c.window} ${c.removed} ${c.length} density ${k}`));
      c.power.forEach((v, k) => void expectClose(p.power[k], v, near, `${c.window} ${c.removed} ${c.length} power ${k}`));
      expect(d.density.length).toBe(c.density.length);
    }
  });

  it("Welch densities", () => {
    for (const c of file.welch) {
      let sum = 0;
      const values = parkMillerNoise(c.length, c.seed).map((v) => {
        sum += v;
        return sum * c.factor;
      });
      const got = welchDensity(values, c.segmentSteps, c);
      c.density.forEach((v, k) => void expectClose(got.density[k], v, { relative: 1e-11, absolute: 1e-15 }, `${c.window} bin ${k}`));
      c.cyclesPerDay.forEach((v, k) => void expectClose(got.cyclesPerDay[k], v, { relative: 1e-13 }, `${c.window} frequency ${k}`));
    }
  });

  it("factors of the limits", () => {
    for (const { degreesOfFreedom, level, low, high } of file.limitFactors) {
      const got = limitFactors(degreesOfFreedom, level);
      expectClose(got.low, low, { relative: 1e-9 }, `low ${degreesOfFreedom}`);
      expectClose(got.high, high, { relative: 1e-9 }, `high ${degreesOfFreedom}`);
    }
  });
});
