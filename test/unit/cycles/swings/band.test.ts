import { describe, expect, it } from "vitest";
import { bandError, endShare, gapShare } from "../../../../lib/cycles/swings/bandError.js";
import { bandStrength } from "../../../../lib/cycles/swings/bandStrength.js";
import { bridgedHours } from "../../../../lib/grid/bridgedHours.js";
import { lanczosLowPass, lowPassResponse, runLowPass } from "../../../../lib/grid/lanczosLowPass.js";
import { swingBand } from "../../../../lib/cycles/swings/swingBand.js";
import { RecordError } from "../../../../lib/ground/complaint.js";
import { expectClose } from "../../../close.js";
import { inventedPressure } from "./inventedPressure.js";

describe("lanczosLowPass", () => {
  const quick = lanczosLowPass(2, 3);
  const slow = lanczosLowPass(15, 15);

  it("has weights that sum to 1 over both sides", () => {
    for (const { weights } of [quick, slow, lanczosLowPass(2, 3, 6)]) {
      expectClose(weights.reduce((sum, w, k) => sum + (k === 0 ? w : 2 * w), 0), 1, { absolute: 1e-14 });
    }
  });

  it("passes what the printed table says", () => {
    const rows: [period: number, quick: number, slow: number][] = [
      [0.5, 0, 0], [1, 0.001, 0], [1.5, 0.046, 0], [2, 0.501, 0], [2.5, 0.826, 0], [3, 0.956, 0], [5, 1.011, -0.001],
      [8, 1.002, -0.01], [10, 1, 0.047], [12, 1, 0.221], [15, 1, 0.496], [20, 1, 0.771], [30, 1, 0.942], [60, 1, 0.996],
    ];
    for (const [period, a, b] of rows) {
      expectClose(lowPassResponse(quick, period), a, { absolute: 5.5e-4 }, `2 d filter at ${period} d`);
      expectClose(lowPassResponse(slow, period), b, { absolute: 5.5e-4 }, `15 d filter at ${period} d`);
    }
  });

  it("leaves a wave in place, smaller by its response", () => {
    const wave = Float64Array.from({ length: 24 * 60 }, (_, i) => Math.cos((2 * Math.PI * i) / 60));
    const out = runLowPass(quick, wave, 0);
    const gain = lowPassResponse(quick, 2.5);
    for (let i = 200; i < 1200; i++) expectClose(out[i], gain * wave[i], { absolute: 1e-12 });
  });

  it("ends in a decay to the mean", () => {
    const step = new Float64Array(300).fill(10);
    const out = runLowPass(quick, step, 0);
    expectClose(out[150], 10, { absolute: 1e-12 });
    expect(out[0]).toBeLessThan(10);
    expect(out[0]).toBeGreaterThan(5);
    expectClose(out[0], out[299], { absolute: 1e-12 });
  });

  it("refuses what cannot be a filter", () => {
    expect(() => lanczosLowPass(0.1, 3)).toThrow(new RangeError(`lanczosLowPass: cutDays must be from ${4 / 24} to 36600 d (got 0.1 d)`));
    expect(() => lanczosLowPass(2, 0)).toThrow("lanczosLowPass: halfDays must be");
    expect(() => lanczosLowPass(2, 3, Number.NaN)).toThrow("lanczosLowPass: stepHours must be");
    expect(() => lowPassResponse(quick, 0)).toThrow("lowPassResponse: periodDays must be");
  });
});

describe("bridgedHours", () => {
  it("cuts ends, bridges inside, keeps the caller's array", () => {
    const given = Object.freeze([Number.NaN, 1, Number.NaN, Number.NaN, 4, Number.NaN]);
    const got = bridgedHours(given);
    expect(Array.from(got.values)).toEqual([1, 2, 3, 4]);
    expect(Array.from(got.isReal)).toEqual([1, 0, 0, 1]);
    expect([got.first, got.mean, got.realCount]).toEqual([1, 2.5, 2]);
  });

  it("takes a single value and refuses none", () => {
    expect(bridgedHours([3]).mean).toBe(3);
    expect(() => bridgedHours([Number.NaN])).toThrow(new RecordError("bridgedHours: values must hold at least one reading (got none)", "data"));
    expect(() => bridgedHours([])).toThrow(RecordError);
  });
});

describe("bandError", () => {
  it("steps down away from an end at the limits of its table", () => {
    for (const [days, share] of [[0, 0.56], [0.999, 0.56], [1, 0.4], [1.5, 0.32], [2, 0.23], [3, 0.11], [5, 0.07], [8, 0.06], [15, 0.04], [100, 0.04]]) expect(endShare(days)).toBe(share);
  });

  it("grows with a gap, linear between, one beyond 72 h", () => {
    for (const [hours, share] of [[0, 0], [6, 0.03], [9, 0.05], [12, 0.07], [24, 0.21], [36, 0.415], [48, 0.62], [60, 0.81], [72, 1], [500, 1]]) {
      expectClose(gapShare(hours), share, { absolute: 1e-12 }, `${hours} h`);
    }
  });

  it("is the same through a gap, fades over 12 h, and takes the largest where two meet", () => {
    const isReal = new Uint8Array(24 * 60).fill(1);
    isReal.fill(0, 700, 724);
    isReal.fill(0, 730, 736);
    const got = bandError(isReal, 1);
    const quiet = endShare(20);
    for (const [hour, share] of [[700, 0.21], [723, 0.21], [697, 0.21 * (1 - 3 / 12)], [726, 0.21 * (1 - 3 / 12)], [687, 0], [733, Math.max(0.03, 0.21 * (1 - 10 / 12))], [760, 0]]) {
      expectClose(got[hour], Math.hypot(quiet, share), { absolute: 1e-12 }, `hour ${hour}`);
    }
  });

  it("adds white noise through the 2-day filter", () => {
    expectClose(bandError(new Uint8Array(3).fill(1), 0, 1)[0], 1 / Math.sqrt(24), { absolute: 1e-15 });
    const { weights } = lanczosLowPass(2, 3);
    const exact = Math.sqrt(weights.reduce((s, w, k) => s + (k === 0 ? 1 : 2) * w * w, 0));
    expectClose(1 / Math.sqrt(24), exact, { relative: 0.06 }, "the round figure against the filter's own sum");
  });
});

describe("swingBand", () => {
  it("adds up: band + slow + rest is the data", () => {
    const hours = inventedPressure(50, 11);
    hours.fill(Number.NaN, 300, 330);
    const before = hours.slice();
    const got = swingBand(hours);
    expect(hours).toEqual(before);
    for (let i = 0; i < got.hours; i++) {
      if (Number.isNaN(hours[i])) expect(got.rest[i]).toBeNaN();
      else expectClose(got.band[i] + got.slow[i] + got.rest[i], hours[i], { absolute: 1e-9 });
    }
    expect(Object.isFrozen(got)).toBe(true);
  });

  it("keeps a wave of 5 days, leaves one of 30 days and one of 1 day", () => {
    const wave = (days: number): number => swingBand(Float64Array.from({ length: 24 * 120 }, (_, i) => 1000 + 3 * Math.cos((2 * Math.PI * i) / 24 / days))).sigma / (3 / Math.SQRT2);
    expectClose(wave(5), 1.012, { absolute: 0.02 }, "5 d");
    expect(wave(30)).toBeLessThan(0.1);
    // Its response is 0.001; the rest comes in where the record ends on a crest.
    expect(wave(1)).toBeLessThan(0.03);
  });

  it("takes a straight line under 30 d and tells half the record as the longest swing", () => {
    const short = swingBand(inventedPressure(29.9, 4));
    expect(short.slowBy).toBe("straight line");
    expectClose(short.longestDays, short.hours / 48, { absolute: 1e-12 });
    const bend = short.slow[2] - 2 * short.slow[1] + short.slow[0];
    expectClose(bend, 0, { absolute: 1e-9 });
    const long = swingBand(inventedPressure(30, 4));
    expect([long.slowBy, long.longestDays, long.shortestDays]).toEqual(["15-day filter", 15, 2]);
  });

  it("answers 8 days, refuses less with the days to go", () => {
    expect(swingBand(inventedPressure(8, 5)).hours).toBe(192);
    expect(() => swingBand(inventedPressure(5.5, 5))).toThrow(new RecordError("swingBand: hours must span at least 8 d (got 5.5 d); log 3 more days", "data"));
  });

  it("a constant has no band", () => {
    const got = swingBand(new Float64Array(1000).fill(1013));
    expect(got.sigma).toBeLessThan(1e-9);
  });
});

describe("bandStrength", () => {
  it("is near the planted strength, with the share of all variance", () => {
    const hours = inventedPressure(180, 21, { white: 0 });
    const got = bandStrength(swingBand(hours), 0);
    expect(got.standardDeviation.low).toBeLessThan(got.standardDeviation.value);
    expectClose((got.standardDeviation.low * got.standardDeviation.high) ** 0.5, got.standardDeviation.value, { relative: 1e-12 }, "interval on the logarithm");
    expect(got.share).toBeGreaterThan(0.3);
    expect(got.share).toBeLessThan(1);
    const withTide = bandStrength(swingBand(hours), 50);
    expect(withTide.share).toBeLessThan(got.share);
    expect(withTide.standardDeviation).toEqual(got.standardDeviation);
  });

  it("a straight line has neither strength nor share", () => {
    const got = bandStrength(swingBand(new Float64Array(24 * 20).fill(1000)));
    expectClose(got.standardDeviation.value, 0, { absolute: 1e-9 });
  });

  it("scales with the pressure", () => {
    const hours = inventedPressure(60, 22);
    const one = bandStrength(swingBand(hours)).standardDeviation;
    const two = bandStrength(swingBand(hours.map((v) => 2 * v))).standardDeviation;
    expectClose(two.high, 2 * one.high, { relative: 1e-9 });
  });
});
