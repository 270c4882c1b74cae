import { describe, expect, it } from "vitest";
import { leastSquares } from "../../../lib/ground/leastSquares.js";
import { roomFilter } from "../../../lib/indoors/roomFilter.js";
import { timeConstantFit } from "../../../lib/indoors/timeConstantFit.js";
import { expectClose } from "../../close.js";
import { madeInside, madeOutside } from "./madeRecord.js";

const hours = 240;
const flat = (v: number): Float64Array => new Float64Array(hours).fill(v);
const gone = (values: Float64Array, from: number, to: number): Float64Array => values.map((v, h) => (h >= from && h < to ? Number.NaN : v));

/** Squared misfit of a room of one constant beside level, drift, cycles and a transient, by one regression with columns written out. */
function squaredMisfit(inside: Float64Array, outside: Float64Array, tau: number, cycles: number): number {
  const room = roomFilter(outside, tau);
  const kept = Array.from(inside.keys()).filter((h) => !Number.isNaN(inside[h]));
  const columns = [
    kept.map(() => 1),
    kept.map((h) => h - 120),
    kept.map((h) => Math.exp(-h / tau)),
    ...Array.from({ length: cycles }, (_, c) => [Math.cos, Math.sin].map((f) => kept.map((h) => f((2 * Math.PI * (c + 1) * h) / 24)))).flat(),
  ];
  return leastSquares(columns, kept.map((h) => inside[h] - room[h])).residuals.reduce((sum, e) => sum + e * e, 0);
}

describe("timeConstantFit", () => {
  it("finds a planted constant, with an interval that holds it", () => {
    for (const planted of [4, 12, 30]) {
      const outside = madeOutside(hours, 51);
      const inside = roomFilter(outside, planted).map((v) => v + 2);
      for (const variant of ["swings", "all"] as const) {
        const fit = timeConstantFit(inside, outside, variant);
        // The search is a parabola through trials 15 % apart.
        expectClose(fit.firstFitTau, planted, { relative: 0.02 }, `${variant} of ${planted}`);
        expectClose(fit.tau!.value, planted, { relative: 0.02 }, `${variant} of ${planted}`);
        expect(fit.explained).toBeGreaterThan(0.999);
        expect(fit).toMatchObject({ isAtEdge: false, spanHours: 240, tau: { unit: "h" } });
        expect(Object.isFrozen(fit)).toBe(true);
      }
    }
  });

  it("the first fit is the least of a regression with columns written out, and explains what it says", () => {
    const outside = madeOutside(hours, 52);
    const inside = gone(madeInside(outside, 9, 53), 100, 108);
    for (const [variant, cycles] of [["swings", 3], ["all", 0]] as const) {
      const { firstFitTau, explained } = timeConstantFit(inside, outside, variant);
      const cost = (share: number): number => squaredMisfit(inside, outside, firstFitTau * share, cycles);
      expect(cost(1)).toBeLessThan(cost(1.06));
      expect(cost(1)).toBeLessThan(cost(1 / 1.06));
      const without = squaredMisfit(inside, flat(0), firstFitTau, cycles);
      expectClose(explained, 1 - cost(1) / without, { absolute: 1e-9 }, variant);
    }
  });

  it("the interval is Student's about ln τ, with a hundredth for hourly steps and four constants' share of the record", () => {
    const outside = madeOutside(hours, 52);
    const { tau, standardErrorOfLog, t, degreesOfFreedom, phi } = timeConstantFit(madeInside(outside, 9, 53), outside, "swings");
    expectClose(tau!.low, tau!.value * Math.exp(-t * standardErrorOfLog), { relative: 1e-12 });
    expectClose(tau!.high, tau!.value * Math.exp(t * standardErrorOfLog), { relative: 1e-12 });
    expectClose(tau!.standardError, tau!.value * standardErrorOfLog, { relative: 1e-12 });
    expect(standardErrorOfLog).toBeGreaterThan(0.01);
    expect(degreesOfFreedom).toBeGreaterThanOrEqual(1);
    // Unrest that keeps 0.95 from hour to hour, less what the nuisance takes of it.
    expect(phi > 0.6 && phi < 0.97).toBe(true);
    const exact = timeConstantFit(roomFilter(outside, 9), outside, "swings");
    expectClose(exact.standardErrorOfLog, 0.01, { absolute: 0.002 }, "no noise: the steps' hundredth alone");
  });

  it("at an end of 0.7…300 h there is no constant: a room that is the air outside, and one that hardly begins to follow", () => {
    const outside = madeOutside(hours, 54);
    const [quick, slow] = [timeConstantFit(outside, outside, "all"), timeConstantFit(roomFilter(outside, 5000), outside, "all")];
    expect([quick.isAtEdge, slow.isAtEdge]).toEqual([true, true]);
    expect(quick.firstFitTau).toBeLessThan(0.75);
    expect(slow.firstFitTau).toBeGreaterThan(270);
    expect(quick.firstFitTau).toBeGreaterThan(0.59);
    expect(slow.firstFitTau).toBeLessThan(345);
  });

  it("bridges what is missing outside, at its ends too, and starts anew after more than twelve hours without an inside", () => {
    const outside = madeOutside(hours, 55);
    const inside = roomFilter(outside, 8).map((v) => v + 1);
    for (const [i, o, span] of [
      [inside, gone(outside, 0, 9), 231],
      [inside, gone(outside, 230, 240), 230],
      [gone(inside, 100, 130), gone(outside, 60, 62), 240],
    ] as const) {
      const fit = timeConstantFit(i, o, "all");
      expect(fit.spanHours).toBe(span);
      expectClose(fit.tau!.value, 8, { relative: 0.06 });
      expect(fit.explained).toBeGreaterThan(0.99);
    }
  });

  it("refuses under 48 hours, and what is longer than the other", () => {
    const outside = madeOutside(hours, 56);
    const inside = gone(outside, 47, hours);
    expect(() => timeConstantFit(inside, outside, "all")).toThrow(new RangeError("timeConstantFit: inside and outside must share at least 48 h (got 47 h); log longer"));
    expect(() => timeConstantFit(flat(Number.NaN), outside, "all")).toThrow("must share at least 48 h (got 0 h)");
    expect(timeConstantFit(gone(outside, 48, hours), outside, "all")).toMatchObject({ tau: null, degreesOfFreedom: 0, spanHours: 48 });
    expect(() => timeConstantFit(inside, outside.subarray(1), "all")).toThrow("timeConstantFit: outside must have the length of inside, 240 h (got 239 h)");
  });
});
