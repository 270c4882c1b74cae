import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { bandError } from "../../lib/cycles/swings/bandError.js";
import { bridgedHours } from "../../lib/grid/bridgedHours.js";
import { pressureTendency } from "../../lib/cycles/swings/pressureTendency.js";
import { prominentPeaks } from "../../lib/cycles/swings/prominentPeak.js";
import { swingBand } from "../../lib/cycles/swings/swingBand.js";
import { swingEvents } from "../../lib/cycles/swings/swingEvents.js";
import { tendencyCharacteristic } from "../../lib/cycles/swings/tendencyCharacteristic.js";
import { tendencyTerm } from "../../lib/cycles/swings/tendencyTerm.js";
import { inventedPressure } from "../unit/cycles/swings/inventedPressure.js";

const seeds = fc.integer({ min: 1, max: 1e9 });
const check = <T>(arbitrary: fc.Arbitrary<T>, law: (value: T) => void, numRuns = 60): void => fc.assert(fc.property(arbitrary, law), { seed: 20261125, numRuns });

/** Prominence straight from its definition: the drop to the best of all paths to a higher point or an end. */
function plainProminence(values: Float64Array, index: number): number {
  const side = (step: number): number => {
    let low = values[index];
    for (let i = index + step; i >= 0 && i < values.length; i += step) {
      if (values[i] > values[index]) return low;
      low = Math.min(low, values[i]);
    }
    return low;
  };
  return values[index] - Math.max(side(-1), side(1));
}

describe("swings", () => {
  it("a level and the start's instant change nothing, a factor only scales", () =>
    check(fc.tuple(seeds, fc.integer({ min: 9, max: 60 }), fc.double({ min: 0.1, max: 10, noNaN: true })), ([seed, days, factor]) => {
      const hours = inventedPressure(days, seed);
      const a = swingBand(hours);
      const b = swingBand(hours.map((v) => factor * v - 300));
      let worst = 0;
      for (let i = 0; i < a.hours; i++) worst = Math.max(worst, Math.abs(b.band[i] - factor * a.band[i]));
      expect(worst).toBeLessThan(1e-8 * factor);
      const [early, late] = [0, 1e12].map((at) => swingEvents(a, at));
      expect(late.map((e) => e.at - 1e12)).toEqual(early.map((e) => e.at));
      expect(late.map((e) => e.depth)).toEqual(early.map((e) => e.depth));
    }, 25));

  it("band, slow background and rest add up, whatever is missing", () =>
    check(fc.tuple(seeds, fc.integer({ min: 12, max: 60 }), fc.integer({ min: 1, max: 150 })), ([seed, days, length]) => {
      const hours = inventedPressure(days, seed);
      const from = seed % (hours.length - length);
      hours.fill(Number.NaN, from, from + length);
      const got = swingBand(hours);
      let worst = 0;
      for (let i = 0; i < got.hours; i++) if (got.isReal[i] === 1) worst = Math.max(worst, Math.abs(got.band[i] + got.slow[i] + got.rest[i] - hours[got.first + i]));
      expect(worst).toBeLessThan(1e-9);
    }, 25));

  it("more missing never makes the band's error smaller", () =>
    check(fc.tuple(fc.integer({ min: 300, max: 900 }), fc.integer({ min: 1, max: 80 }), fc.integer({ min: 1, max: 60 })), ([from, length, more]) => {
      const one = new Uint8Array(1300).fill(1).fill(0, from, from + length);
      const two = one.slice().fill(0, from + length, from + length + more);
      const [a, b] = [bandError(one, 1), bandError(two, 1)];
      expect(a.every((v, i) => v <= b[i] + 1e-12)).toBe(true);
    }));

  it("prominence is that of its definition, and positive", () =>
    check(fc.array(fc.integer({ min: 0, max: 9 }), { minLength: 0, maxLength: 60 }), (list) => {
      const values = Float64Array.from(list);
      for (const { index, prominence, saddle } of prominentPeaks(values)) {
        expect(prominence).toBeGreaterThan(0);
        expect(prominence).toBe(plainProminence(values, index));
        expect(values[index] - values[saddle]).toBe(prominence);
      }
    }, 300));

  it("bridges keep what is real and stay between their neighbors", () =>
    check(fc.array(fc.option(fc.double({ min: -50, max: 50, noNaN: true }), { nil: Number.NaN }), { minLength: 1, maxLength: 80 }), (list) => {
      if (list.every(Number.isNaN)) return;
      const got = bridgedHours(list);
      got.values.forEach((v, i) => {
        expect(Number.isFinite(v)).toBe(true);
        if (got.isReal[i] === 1) expect(v).toBe(list[got.first + i]);
      });
      expect([got.isReal[0], got.isReal[got.isReal.length - 1]]).toEqual([1, 1]);
    }, 200));

  it("turning the pressure over turns term and shape over", () =>
    check(fc.tuple(...[1, 2, 3].map(() => fc.double({ min: -5, max: 5, noNaN: true })), fc.double({ min: 0, max: 0.5, noNaN: true })), ([a, b, , error]) => {
      const change = (value: number): { value: number; standardError: number } => ({ value, standardError: error });
      const code = tendencyCharacteristic(change(a), change(b), change(b - a), change(a + b));
      const turned = tendencyCharacteristic(change(-a), change(-b), change(a - b), change(-a - b));
      expect(turned).toBe([5, 6, 7, 8, 4, 0, 1, 2, 3][code]);
      expect(tendencyTerm(-a)).toBe(tendencyTerm(a).replace(/rising|falling/, (w) => (w === "rising" ? "falling" : "rising")));
    }, 500));

  it("the sum of tide-free changes is the change over the whole record", () =>
    check(fc.tuple(seeds, fc.integer({ min: 2, max: 12 })), ([seed, days]) => {
      const values = inventedPressure(days, seed).subarray(0, 24 * days - 23);
      const seconds = Float64Array.from(values, (_, i) => 3600 * i);
      const tide = { valueAt: (at: number): number => Math.sin(at / 1e7), changeVariance: () => 0, isDetected: true };
      const got = pressureTendency({ start: 0, seconds, values }, tide, { reading: 0, dayToDay: 0 });
      const n = values.length - 1;
      const whole = values[n] - tide.valueAt(3.6e6 * n) - (values[0] - tide.valueAt(0));
      expect(Math.abs(got.series.tideFree.reduce((x, y) => x + y, 0) - whole)).toBeLessThan(1e-9);
    }));
});
