import { readFileSync } from "node:fs";
import { describe, expect, it } from "vitest";
import { monthMean } from "../../lib/cycles/climate/monthMean.js";
import { monthlyTrend } from "../../lib/cycles/climate/monthlyTrend.js";
import { bandStrength } from "../../lib/cycles/swings/bandStrength.js";
import { lanczosLowPass } from "../../lib/grid/lanczosLowPass.js";
import { swingBand } from "../../lib/cycles/swings/swingBand.js";
import { swingEvents } from "../../lib/cycles/swings/swingEvents.js";
import { swingSpectrum } from "../../lib/cycles/swings/swingSpectrum.js";
import { random } from "../../lib/ground/random.js";
import { expectClose } from "../close.js";

interface BandVectors {
  readonly pressure: (number | null)[];
  readonly expected: {
    firstHour: number;
    slow: string;
    sigma: number;
    band: number[];
    standardError: number[];
    strength: Record<"value" | "seLn" | "low" | "high", number>;
    events: {
      kind: string;
      at: number;
      atStandardError: number;
      depth: number;
      depthStandardError: number;
      prominence: number;
      duration: { value: number; standardError: number };
      warnings: string[];
    }[];
  };
}
interface SpectrumVectors {
  readonly cases: { sixHourly: (number | null)[]; planted: string; expected: { statistic: number; periodDays: number; coefficients: number[]; pValue: number } }[];
}
interface ClimateVectors {
  readonly monthlyMean: { days: (number | null)[]; expected: Record<"value" | "standardError" | "low" | "high" | "phi" | "gamma", number> }[];
  readonly trend: { monthly: (number | null)[]; expected: Record<"value" | "standardError" | "low" | "high" | "phi" | "dof", number> }[];
}

const read = <T>(name: string): T => JSON.parse(readFileSync(new URL(`vectors/swings-${name}.json`, import.meta.url), "utf8")) as T;
const present = (values: (number | null)[]): Float64Array => Float64Array.from(values, (v) => v ?? Number.NaN);

describe("swings and climate against an implementation made apart", () => {
  it("filter weights", () => {
    const vectors = read<{ L2: number[]; L15: number[] }>("lanczos");
    for (const [got, expected] of [[lanczosLowPass(2, 3).weights, vectors.L2], [lanczosLowPass(15, 15).weights, vectors.L15]] as const) {
      expect(got.length).toBe(expected.length);
      got.forEach((w, k) => {
        expectClose(w, expected[k], { absolute: 1e-12 }, `weight ${k}`);
      });
    }
  });

  for (const name of ["band-mid", "band-short"]) {
    it(`band, errors, strength and events of ${name}`, () => {
      const { pressure, expected } = read<BandVectors>(name);
      const got = swingBand(present(pressure));
      expect(got.first).toBe(expected.firstHour);
      expect(got.slowBy).toBe(expected.slow === "L15" ? "15-day filter" : "straight line");
      expectClose(got.sigma, expected.sigma, { relative: 1e-8 }, "sigma");
      expected.band.forEach((v, i) => {
        expectClose(got.band[6 * i], v, { absolute: 1e-7 }, `band at hour ${6 * i}`);
        expectClose(got.standardError[6 * i], expected.standardError[i], { absolute: 1e-7 }, `error at hour ${6 * i}`);
      });
      const strength = bandStrength(got).standardDeviation;
      expectClose(strength.value, expected.strength.value, { relative: 1e-9 }, "strength");
      expectClose(strength.standardError / strength.value, expected.strength.seLn, { relative: 1e-8 }, "error of its logarithm");
      // Ends carry jstat's t, good to 1e-7.
      expectClose(strength.low, expected.strength.low, { relative: 1e-7 }, "low");
      expectClose(strength.high, expected.strength.high, { relative: 1e-7 }, "high");
      const events = swingEvents(got, 0);
      expect(events.map((e) => e.kind)).toEqual(expected.events.map((e) => e.kind));
      expected.events.forEach((wanted, i) => {
        const event = events[i];
        // Instants are whole milliseconds.
        expectClose(event.at / 3_600_000 - got.first, wanted.at, { absolute: 3e-7 }, "hour of the event");
        expectClose(event.atStandardError, wanted.atStandardError, { relative: 1e-6 }, "error of the hour");
        expectClose(event.depth.value, wanted.depth, { relative: 1e-6 }, "depth");
        expectClose(event.depth.standardError, wanted.depthStandardError, { relative: 1e-6 }, "error of the depth");
        expectClose(event.prominence, wanted.prominence, { relative: 1e-6 }, "prominence");
        expectClose(event.durationHours?.value ?? Number.NaN, wanted.duration.value, { relative: 1e-6 }, "duration");
        expectClose(event.durationHours?.standardError ?? Number.NaN, wanted.duration.standardError, { relative: 1e-6 }, "error of the duration");
        expect(event.warnings).toEqual(wanted.warnings);
      });
    });
  }

  for (const [i, { sixHourly, planted, expected }] of read<SpectrumVectors>("spectrum").cases.entries()) {
    it(`beat of series ${i} (planted: ${planted})`, () => {
      const got = swingSpectrum(present(sixHourly), random(40 + i).normal);
      expectClose(got.peaks[0].ratio, expected.statistic, { relative: 1e-8 }, "statistic");
      expectClose(got.peaks[0].periodDays, expected.periodDays, { relative: 1e-8 }, "period");
      (got.background?.coefficients ?? []).forEach((v, k) => {
        expectClose(v, expected.coefficients[k], { relative: 1e-7, absolute: 1e-8 }, `coefficient ${k}`);
      });
      expect(got.background?.coefficients.length).toBe(3);
      const p = expected.pValue;
      expectClose(got.peaks[0].pValue, p, { absolute: 0.004 + 4 * Math.sqrt((p * (1 - p)) / 499) }, "p of 499 draws");
      expect(got.peaks[0].significant).toBe(p < 0.05);
    });
  }

  for (const [i, { days, expected }] of read<ClimateVectors>("climate").monthlyMean.entries()) {
    it(`mean of month ${i}`, () => {
      const got = monthMean(present(days), "K");
      expectClose(got?.mean.value ?? Number.NaN, expected.value, { relative: 1e-9 }, "mean");
      expectClose(got?.mean.standardError ?? Number.NaN, expected.standardError, { relative: 1e-8 }, "standard error");
      expectClose(got?.mean.low ?? Number.NaN, expected.low, { relative: 1e-7 }, "low");
      expectClose(got?.mean.high ?? Number.NaN, expected.high, { relative: 1e-7 }, "high");
      expectClose(got?.phi ?? Number.NaN, expected.phi, { relative: 1e-8 }, "phi");
      expectClose(got?.gamma ?? Number.NaN, expected.gamma, { relative: 1e-8 }, "gamma");
    });
  }

  for (const [i, { monthly, expected }] of read<ClimateVectors>("climate").trend.entries()) {
    it(`trend of series ${i}`, () => {
      const got = monthlyTrend(present(monthly), 0, "K");
      expectClose(got.slope.value, expected.value, { relative: 1e-8 }, "slope");
      expectClose(got.slope.standardError, expected.standardError, { relative: 1e-8 }, "standard error");
      expectClose(got.slope.low, expected.low, { relative: 1e-7 }, "low");
      expectClose(got.slope.high, expected.high, { relative: 1e-7 }, "high");
      expectClose(got.phi, expected.phi, { relative: 1e-8 }, "phi");
      expectClose(got.degreesOfFreedom, expected.dof, { relative: 1e-8 }, "degrees of freedom");
    });
  }
});
