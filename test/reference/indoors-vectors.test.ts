import { readFileSync } from "node:fs";
import { describe, expect, it } from "vitest";
import { bandResponse } from "../../lib/indoors/bandResponse.js";
import { changeBetween, changeOfMean } from "../../lib/indoors/changeOfRoom.js";
import { crossSpectrum } from "../../lib/indoors/crossSpectrum.js";
import { dailyResponse } from "../../lib/indoors/dailyResponse.js";
import { laggedCorrelation } from "../../lib/indoors/laggedCorrelation.js";
import { dailyDifferences, meanDifference } from "../../lib/indoors/meanDifference.js";
import { type TimeConstantReason, timeConstant } from "../../lib/indoors/timeConstant.js";
import { varianceRatio } from "../../lib/indoors/varianceRatio.js";
import { expectClose } from "../close.js";

const read = (name: string): never => JSON.parse(readFileSync(new URL(`vectors/${name}.json`, import.meta.url), "utf8")) as never;
const hours = (values: (number | null)[]): Float64Array => Float64Array.from(values, (v) => v ?? Number.NaN);

interface Interval {
  readonly value: number;
  readonly standardError: number;
  readonly low: number;
  readonly high: number;
}
interface Fit {
  readonly tau: number;
  readonly standardErrorOfLog: number;
  readonly low: number;
  readonly high: number;
  readonly phi: number;
  readonly explained: number;
  readonly firstFitTau: number;
}
interface House {
  readonly inside: (number | null)[];
  readonly outside: (number | null)[];
  readonly expected: {
    readonly meanDifference: Interval;
    readonly varianceRatio: { value: number; standardErrorOfLog: number; low: number; high: number };
    readonly dailyLine: { days: number; re: number; im: number; radialError: number; tangentialError: number; decrement: Interval; lagHours: Interval | null };
    readonly maxCorrelation: { value: number; standardErrorOfAtanh: number; low: number; high: number; lag: number; lagStandardError: number; curvature: number };
    readonly timeConstant: { swings: Fit; all: Fit; nullReasons: string[] };
  };
}

/** As near as the files ask: 1e-6, the time constant 1e-5; absolute where a number is a small difference of larger ones. */
const near = { relative: 1e-6, absolute: 1e-9 };
const nearTau = { relative: 1e-5 };
const reasonOf: Readonly<Record<string, TimeConstantReason>> = { edge: "edge", a: "unexplained", b: "daily line", c: "variants", short: "short" };

describe.each(["house-a", "house-b", "house-thermostat"])("indoors-%s, against an implementation made apart", (name) => {
  const { inside: i, outside: o, expected } = read(`indoors-${name}`) as House;
  const [inside, outside] = [hours(i), hours(o)];

  it("mean difference", () => {
    const got = meanDifference(inside, outside).difference;
    for (const key of ["value", "standardError", "low", "high"] as const) expectClose(got?.[key] ?? Number.NaN, expected.meanDifference[key], near, key);
  });

  it("variance ratio", () => {
    const got = varianceRatio(inside, outside);
    for (const key of ["value", "low", "high"] as const) expectClose(got.ratio?.[key] ?? Number.NaN, expected.varianceRatio[key], near, key);
    expectClose(got.standardErrorOfLog, expected.varianceRatio.standardErrorOfLog, near);
  });

  it("daily line", () => {
    const got = dailyResponse(inside, outside);
    const line = expected.dailyLine;
    expect(got.daysUsed).toBe(line.days);
    expectClose(got.real, line.re, near, "real");
    expectClose(got.imaginary, line.im, near, "imaginary");
    expectClose(got.radialError, line.radialError, near, "radial");
    expectClose(got.tangentialError, line.tangentialError, near, "tangential");
    for (const key of ["value", "standardError", "low", "high"] as const) expectClose(got.decrementFactor?.[key] ?? Number.NaN, line.decrement[key], near, key);
    if (line.lagHours === null) expect(got.timeLag).toBeNull();
    else for (const key of ["value", "standardError", "low", "high"] as const) expectClose(got.timeLag?.[key] ?? Number.NaN, line.lagHours[key], near, key);
  });

  it("largest correlation", () => {
    const got = laggedCorrelation(inside, outside);
    const want = expected.maxCorrelation;
    for (const key of ["value", "low", "high"] as const) expectClose(got.correlation?.[key] ?? Number.NaN, want[key], near, key);
    expectClose(got.standardErrorOfAtanh, want.standardErrorOfAtanh, near, "error of atanh");
    expectClose(got.lag?.value ?? Number.NaN, want.lag, near, "lag");
    expectClose(got.lag?.standardError ?? Number.NaN, want.lagStandardError, near, "error of lag");
    expectClose(got.curvature, want.curvature, near, "curvature");
  });

  it("time constant both ways, and the reasons against it", () => {
    const got = timeConstant(inside, outside);
    for (const variant of ["swings", "all"] as const) {
      const [fit, want] = [got[variant], expected.timeConstant[variant]];
      expectClose(fit.tau?.value ?? Number.NaN, want.tau, nearTau, `${variant} tau`);
      for (const key of ["low", "high"] as const) expectClose(fit.tau?.[key] ?? Number.NaN, want[key], nearTau, `${variant} ${key}`);
      for (const key of ["standardErrorOfLog", "phi", "explained", "firstFitTau"] as const) expectClose(fit[key], want[key], nearTau, `${variant} ${key}`);
    }
    expect([...got.reasons].sort()).toEqual(expected.timeConstant.nullReasons.map((r) => reasonOf[r]).sort());
    expect(got.timeConstant === null).toBe(expected.timeConstant.nullReasons.length > 0);
  });

  it("every band has low ≤ gain ≤ high", () => {
    for (const band of bandResponse(inside, outside)) {
      if (band.gain !== null) expect(band.gain.low <= band.gain.value && band.gain.value <= band.gain.high).toBe(true);
    }
  });
});

describe("indoors-change, against an implementation made apart", () => {
  const vectors = read("indoors-change") as {
    before: House;
    after: House;
    step: House & { eventHour: number };
    expected: { lnDecrement: Interval; dof: number; tauBefore: number; tauAfter: number; lnTau: { value: number; standardError: number }; meanDifference: Interval & { dof: number; phi: number } };
  };
  const { expected } = vectors;
  const sides = [vectors.before, vectors.after].map((side) => [hours(side.inside), hours(side.outside)] as const);

  it("windows from 12 to 6 h: logarithm of the decrement factor", () => {
    const [before, after] = sides.map(([i, o]) => {
      const line = dailyResponse(i, o);
      const gain = line.decrementFactor?.value ?? Number.NaN;
      return { value: Math.log(gain), standardError: line.radialError / gain, degreesOfFreedom: line.degreesOfFreedom };
    });
    const got = changeBetween(before, after);
    for (const key of ["value", "standardError", "low", "high"] as const) expectClose(got.change[key], expected.lnDecrement[key], near, key);
    expectClose(got.degreesOfFreedom, expected.dof, near, "degrees of freedom");
  });

  it("windows from 12 to 6 h: logarithm of the time constant", () => {
    const [before, after] = sides.map(([i, o]) => timeConstant(i, o).swings);
    expectClose(before.tau?.value ?? Number.NaN, expected.tauBefore, nearTau, "before");
    expectClose(after.tau?.value ?? Number.NaN, expected.tauAfter, nearTau, "after");
    const logOf = (fit: typeof before) => ({ value: Math.log(fit.tau?.value ?? Number.NaN), standardError: fit.standardErrorOfLog, degreesOfFreedom: fit.degreesOfFreedom });
    const { change } = changeBetween(logOf(before), logOf(after));
    expectClose(change.value, expected.lnTau.value, nearTau, "value");
    expectClose(change.standardError, expected.lnTau.standardError, nearTau, "standard error");
  });

  it("a step of 1 K: event column beside the outdoor mean, two days on each side left out", () => {
    const { inside, outside, eventHour } = vectors.step;
    const daily = dailyDifferences(hours(inside), hours(outside));
    const outdoor = Float64Array.from(daily, (v, k) => (Number.isNaN(v) ? v : meanOver(inside, outside, k)));
    const event = eventHour / 24;
    daily.fill(Number.NaN, event - 2, event + 2);
    const got = changeOfMean(daily, outdoor, event, { daysBefore: 0 });
    for (const key of ["value", "standardError", "low", "high"] as const) expectClose(got.change?.[key] ?? Number.NaN, expected.meanDifference[key], near, key);
    expectClose(got.degreesOfFreedom, expected.meanDifference.dof, near, "degrees of freedom");
    expectClose(got.phi, expected.meanDifference.phi, near, "phi");
  });
});

/** Outdoor mean of one day over the hours where both are present. */
function meanOver(inside: readonly (number | null)[], outside: readonly (number | null)[], day: number): number {
  const kept = outside.slice(24 * day, 24 * day + 24).filter((v, h) => v !== null && inside[24 * day + h] !== null) as number[];
  return kept.reduce((sum, v) => sum + v, 0) / kept.length;
}

describe("cross spectra and coherence, against scipy", () => {
  interface Case {
    readonly n: number;
    readonly segment: number;
    readonly overlap: number;
    readonly window: string;
    readonly removed: "mean" | "line" | "nothing";
    readonly x: number[];
    readonly y: number[];
    readonly cyclesPerDay: number[];
    readonly real: number[];
    readonly imaginary: number[];
    readonly densityX: number[];
    readonly coherence: number[];
  }
  const { cases } = read("crossSpectrum") as { cases: Case[] };
  for (const { n, segment, overlap, window, removed, x, y, ...want } of cases) {
    it(`${n} steps, segments of ${segment}, ${window}, less ${removed}`, () => {
      const got = crossSpectrum(x, y, segment, { stepSeconds: 3600, overlap, window: window === "hann" ? "Hann" : "rectangular", removed });
      // Rounding of two transforms: 1e-12 of the largest; bin 0 is all rounding once the mean is out.
      const scale = Math.max(...want.densityX);
      for (let k = 0; k < want.cyclesPerDay.length; k++) {
        expectClose(got.cyclesPerDay[k], want.cyclesPerDay[k], { relative: 1e-12 }, `frequency ${k}`);
        for (const key of ["real", "imaginary", "densityX"] as const) expectClose(got[key][k], want[key][k], { relative: 1e-9, absolute: 1e-12 * scale }, `${key} ${k}`);
        if (want.densityX[k] > 1e-9 * scale) expectClose(got.coherence[k], want.coherence[k], { absolute: 1e-9 }, `coherence ${k}`);
      }
    });
  }
});
