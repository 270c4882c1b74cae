import { describe, expect, it } from "vitest";
import { constituentOf, lineCoefficients, noiseDensity } from "../../../../lib/cycles/tide/constituentOf.js";
import { lineInterval, type LineScatter } from "../../../../lib/cycles/tide/lineInterval.js";
import { lineNoise } from "../../../../lib/cycles/tide/lineNoise.js";
import { type LineOfTide, tideLines } from "../../../../lib/cycles/tide/lineTable.js";
import { detectionAmplitude, riceInterval } from "../../../../lib/cycles/tide/riceLaw.js";
import { unevenInterval } from "../../../../lib/cycles/tide/unevenInterval.js";
import { expectClose } from "../../../close.js";

const named = (name: string): LineOfTide => tideLines.find((l) => l.name === name)!;

describe("lineNoise", () => {
  /** Side frequencies that are asked about, as j: distance from 2 cpd in units of 1/days. */
  const asked = (days: number, all: number[], more: number[] = []): number[] => {
    const found: number[] = [];
    lineNoise((f) => found.push((f - 2) * days), [2], all, days, ...(more as [number, number]));
    return found.map((j) => Math.round(1e6 * j) / 1e6).sort((a, b) => a - b);
  };
  const both = (js: number[]): number[] => [...js.map((j) => -j).reverse(), ...js];
  const to = (from: number, end: number): number[] => Array.from({ length: end - from + 1 }, (_, k) => from + k);

  it("asks at j/T from 2 to 20 on both sides, not farther than 0.4 cpd", () => {
    expect(asked(64, [2])).toEqual(both(to(2, 20)));
    expect(asked(30, [2])).toEqual(both(to(2, 12))); // 12/30 is 0.4
    expect(asked(29, [2])).toEqual(both(to(2, 11)));
    expect(asked(64, [2], [3, 22])).toEqual(both(to(3, 22)));
  });

  it("leaves out a pair when either side is within 1.5/T of another line, and keeps it at 1.5/T", () => {
    // 64 days: all these frequencies are exact numbers.
    const without = to(2, 20).filter((j) => j !== 5 && j !== 6);
    expect(asked(64, [2, 2 + 5.5 / 64])).toEqual(both(without));
    expect(asked(64, [2 - 5.5 / 64, 2])).toEqual(both(without));
    expect(asked(64, [2, 2 + 5.25 / 64])).toEqual(both(to(2, 20).filter((j) => j !== 4 && j !== 5 && j !== 6)));
  });

  it("is the mean of both sides, of each line by itself from four distances on", () => {
    const ratioAt = (f: number): number => (f > 2 ? 7 : f > 1.5 ? 5 : 2);
    expect(lineNoise(ratioAt, [1, 2], [1, 2], 64)).toEqual([{ ratio: 2, count: 38 }, { ratio: 6, count: 38 }]);
    expect(lineNoise(ratioAt, [1, 2], [1, 2], 12.5)).toEqual([{ ratio: 2, count: 8 }, { ratio: 6, count: 8 }]);
    expect(lineNoise(ratioAt, [1, 2], [1, 2], 12)).toEqual([{ ratio: 4, count: 12 }, { ratio: 4, count: 12 }]);
    expect(lineNoise(ratioAt, [1, 2], [1, 2], 4.9)).toEqual([{ ratio: 1, count: 9.8 }, { ratio: 1, count: 9.8 }]);
  });
});

describe("lineInterval by hand, with 10 degrees of freedom: t = 2.2281, F(2, 10) = 4.1028 at 5 % (computed with scipy)", () => {
  const t = 2.228138852;
  const c = t / 1.959963985;
  const scatter = (cosine: number, sine: number, more: Partial<LineScatter> = {}): LineScatter => ({ cosine, sine, varianceOfCosine: 1, varianceOfSine: 1, covariance: 0, degreesOfFreedom: 10, ...more });

  it("a clear line: √(A² − s²) ± t s, and asin(t s / A) either way", () => {
    const got = lineInterval(scatter(-6, 8));
    expect(got).toMatchObject({ amplitude: 10, error: 1, errorMean: 1, detected: true });
    for (const [value, wanted] of [[got.low, Math.sqrt(99) - t], [got.high, Math.sqrt(99) + t], [got.phase, Math.PI - Math.atan(8 / 6)], [got.phaseBefore, Math.asin(t / 10)], [got.phaseAfter, Math.asin(t / 10)]]) {
      expectClose(value, wanted, { absolute: 1e-8 });
    }
    // Rice's law with its 5 % threshold reaches 95 % at 3.93; computed with scipy: ncx2.sf(-2 ln 0.05, 2, m²) = 0.95.
    expectClose(got.detectionLimit, 3.929 * c, { relative: 1e-3 });
  });

  it("scales with its unit, and only there: in tenths of it all is ten times as large, and the phase the same", () => {
    for (const [a, uneven] of [[1.5, {}], [4, {}], [5.9, {}], [8, {}], [8, { varianceOfSine: 4 }]] as const) {
      const [one, ten] = [scatter(0, a, uneven), scatter(0, 10 * a, { varianceOfCosine: 100, varianceOfSine: 100 * (uneven.varianceOfSine ?? 1) })].map(lineInterval);
      for (const key of ["amplitude", "errorMean", "errorAlong", "errorAcross", "error", "low", "high", "detectionLimit"] as const) expectClose(ten[key], 10 * one[key], { relative: 1e-9 }, `${key} of ${a}`);
      expect([ten.detected, ten.phase]).toEqual([one.detected, one.phase]);
      for (const key of ["phaseBefore", "phaseAfter"] as const) expectClose(ten[key], one[key], { absolute: 1e-9 }, key);
    }
  });

  it("errors along the vector and across it", () => {
    const got = lineInterval(scatter(3, 4, { varianceOfSine: 1.1, covariance: 0.05 }));
    expectClose(got.errorAlong, Math.sqrt(0.36 + 2 * 0.48 * 0.05 + 0.64 * 1.1), { absolute: 1e-14 });
    expectClose(got.errorAcross, Math.sqrt(0.64 - 2 * 0.48 * 0.05 + 0.36 * 1.1), { absolute: 1e-14 });
    expectClose(got.errorMean, Math.sqrt(1.05), { absolute: 1e-14 });
    const none = lineInterval(scatter(0, 0, { varianceOfSine: 1.1 }));
    expect(none).toMatchObject({ amplitude: 0, errorAlong: 1, detected: false, low: 0, phase: 0 });
    expectClose(none.errorAcross, Math.sqrt(1.1), { absolute: 1e-14 });
  });

  it("from six standard errors on the error is that along the vector; Rice's law still holds at six", () => {
    const uneven = { varianceOfCosine: 1.1, varianceOfSine: 0.9 };
    expectClose(lineInterval(scatter(5.9, 0, uneven)).error, 1, { absolute: 1e-14 });
    expectClose(lineInterval(scatter(6, 0, uneven)).error, Math.sqrt(1.1), { absolute: 1e-14 });
    expectClose(lineInterval(scatter(8, 0, uneven)).high, Math.sqrt(64 - 1.1) + t * Math.sqrt(1.1), { absolute: 1e-8 });
    expectClose(lineInterval(scatter(8, 0, uneven)).phaseAfter, Math.asin((t * Math.sqrt(0.9)) / 8), { absolute: 1e-8 });
    const six = lineInterval(scatter(0, 6));
    expectClose(six.low, c * riceInterval(6 / c).low, { absolute: 1e-7 });
    expectClose(six.high, c * riceInterval(6 / c).high, { absolute: 1e-7 });
    expect(Math.abs(six.high - Math.sqrt(35) - t)).toBeGreaterThan(1e-4);
  });

  it("is detected beyond √(2 F): 2.8646 standard errors", () => {
    const [no, yes] = [2.8645, 2.8647].map((a) => lineInterval(scatter(a, 0)));
    expect([no.detected, no.low, no.phaseBefore, no.phaseAfter]).toEqual([false, 0, Math.PI, Math.PI]);
    expect(yes.detected).toBe(true);
    expect(yes.low).toBeGreaterThan(0);
    expectClose(yes.phaseAfter, Math.asin(t / 2.8647), { absolute: 1e-8 });
  });

  it("never ends above 0 by less than nothing: so few degrees of freedom that t is 12.706", () => {
    expect(lineInterval(scatter(10, 0, { degreesOfFreedom: 1 })).low).toBe(0);
  });

  it("an error twice as long one way: the law of uneven errors, and the detection limit of the worst direction", () => {
    const long = { varianceOfCosine: 4, varianceOfSine: 1 };
    const [no, yes] = [5.729, 5.73].map((a) => lineInterval(scatter(a, 0, long)));
    expect(no).toMatchObject({ detected: false, low: 0, phaseBefore: Math.PI, phaseAfter: Math.PI, errorAlong: 2, errorAcross: 1 });
    expectClose(no.error, Math.sqrt(2.5), { absolute: 1e-14 });
    expect(yes).toMatchObject({ detected: true, error: 2 });
    for (const got of [no, yes]) expectClose(got.detectionLimit, detectionAmplitude() * c * 2, { relative: 1e-8 });
    const turned = lineInterval(scatter(0, 9, { varianceOfCosine: 1, varianceOfSine: 4, covariance: 0.5 }));
    const law = unevenInterval(scatter(0, 9, { varianceOfCosine: 1, varianceOfSine: 4, covariance: 0.5 }), t, c);
    for (const [value, wanted] of [[turned.low, law.low], [turned.high, law.high], [turned.phaseBefore, law.before], [turned.phaseAfter, law.after]]) expectClose(value, wanted, { absolute: 1e-7 });
    expect(Math.abs(law.before - law.after)).toBeGreaterThan(0.01);
    expect(turned.phase).toBe(Math.PI / 2);
  });
});

describe("constituentOf by hand", () => {
  const of = (name: string, cosine: number, sine: number, longitude: number, variance = 0.01): ReturnType<typeof constituentOf> =>
    constituentOf(named(name), lineCoefficients(named(name), cosine, sine, [variance / 3, variance / 3, 0], 1.5, { ratio: 2, count: 5 }), 0.25, longitude, "hPa");

  it("a quarter turn of S2 is three hours, 30° east are two more; hours stay within the period", () => {
    expectClose(of("S2", 0, 1, 30).maximumAt!.value, 5, { absolute: 1e-12 });
    for (const longitude of [-180, 180]) expectClose(of("S2", 0, 1, longitude).maximumAt!.value, 3, { absolute: 1e-12 });
    expectClose(of("S1", 0, 1, -105).maximumAt!.value, 23, { absolute: 1e-12 });
    expectClose(of("S3", -1, 0, 0).maximumAt!.value, 4, { absolute: 1e-12 });
  });

  it("errors of the hour are those across the vector, and the interval reaches as far as the phase", () => {
    // σ² = 1.5 × ratio 2 × a third of 0.01: standard error 0.1, 10 degrees of freedom.
    const { amplitude, maximumAt, ...rest } = of("S2", 0, 1, 30);
    expectClose(amplitude.standardError, 0.1, { relative: 1e-12 });
    expectClose(maximumAt!.standardError, (0.1 * 12) / (2 * Math.PI), { relative: 1e-12 });
    const reach = (Math.asin(0.2228138852) * 12) / (2 * Math.PI);
    expectClose(maximumAt!.low, 5 - reach, { absolute: 1e-8 });
    expectClose(maximumAt!.high, 5 + reach, { absolute: 1e-8 });
    expect([amplitude.unit, maximumAt!.unit]).toEqual(["hPa", "h"]);
    expectClose(of("S2", 0, 2, 30).maximumAt!.standardError, (0.05 * 12) / (2 * Math.PI), { relative: 1e-12 });
    // K1 counts hours of its own day from the zero of its argument at the epoch, the sun's mean longitude of 279.97° (see argumentAtEpoch).
    expectClose(of("K1", 0, 1, 0).maximumAt!.value, 6 + 279.9736 / 15 - 24, { absolute: 1e-9 });
    expectClose(of("K2", 0, 1, 0).maximumAt!.value, 3 + (2 * 279.9736 - 360) / 30, { absolute: 1e-9 });
    expect(rest).toMatchObject({ name: "S2", cyclesPerDay: 2, detected: true, noiseDensity: 0.25 });
    expect(of("S2", 0, 1, 30, 1)).toMatchObject({ maximumAt: null, detected: false });
    expect(Object.isFrozen(of("S2", 0, 1, 30))).toBe(true);
  });

  it("coefficients: the block of the inverse times σ² times the noise beside the line, two degrees of freedom a side frequency", () => {
    const got = lineCoefficients(named("L2"), 3, 4, [2, 5, -1], 1.5, { ratio: 2, count: 19 });
    expect(got).toMatchObject({ name: "L2", species: 2, cosine: 3, sine: 4, varianceOfCosine: 6, varianceOfSine: 15, covariance: -3, noiseRatio: 2, degreesOfFreedom: 38 });
    expectClose(got.cyclesPerDay, 1.9322736, { absolute: 1e-6 });
    expect(Object.isFrozen(got)).toBe(true);
  });

  it("density of hourly white noise of variance v: 2 v / 24 a cycle per day, and the weather's beside it", () => {
    // Weather that forgets at once is white too: density 1 at every frequency.
    expectClose(noiseDensity(named("S3"), [Math.log(3), 12, 14], 2), (2 / 24) * 2 * (1 + 3), { relative: 1e-6 });
    expectClose(noiseDensity(named("S1"), [Math.log(3), -9, 14], 1) - noiseDensity(named("S2"), [Math.log(3), -9, 14], 1), (2 / 24) * 3, { relative: 0.05 }, "a random walk has 4 times the density at half the frequency");
  });
});
