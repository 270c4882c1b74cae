import { describe, expect, it } from "vitest";
import { random } from "../../../lib/ground/random.js";
import { bandResponse } from "../../../lib/indoors/bandResponse.js";
import { changeBetween, changeOfMean } from "../../../lib/indoors/changeOfRoom.js";
import { crossSpectrum } from "../../../lib/indoors/crossSpectrum.js";
import { dailyResponse } from "../../../lib/indoors/dailyResponse.js";
import { laggedCorrelation, rawCorrelation } from "../../../lib/indoors/laggedCorrelation.js";
import { dailyDifferences, meanDifference } from "../../../lib/indoors/meanDifference.js";
import { daySums } from "../../../lib/grid/daySums.js";
import { hourlyInfluence, pairedHours } from "../../../lib/indoors/pairedHours.js";
import { coolingTimeConstant, roomFilter, roomResponse } from "../../../lib/indoors/roomFilter.js";
import { roomNuisance, transientStarts } from "../../../lib/indoors/roomNuisance.js";
import { timeConstant } from "../../../lib/indoors/timeConstant.js";
import { timeConstantFit } from "../../../lib/indoors/timeConstantFit.js";
import { varianceRatio } from "../../../lib/indoors/varianceRatio.js";
import { withoutCycles } from "../../../lib/indoors/withoutCycles.js";
import { expectClose } from "../../close.js";
import { madeInside, madeOutside } from "./madeRecord.js";

const outside = madeOutside(24 * 40, 11);
const inside = madeInside(outside, 12, 12);
const gappy = (values: Float64Array, from: number, to: number): Float64Array => values.map((v, h) => (h >= from && h < to ? Number.NaN : v));

describe("pairedHours, daySums", () => {
  it("counts only hours of both, adds by days, and tells lengths and infinities", () => {
    expect([...pairedHours("x", [1, Number.NaN, 3, Number.NaN], [1, 2, Number.NaN, Number.NaN])]).toEqual([1, 0, 0, 0]);
    expect(() => pairedHours("x", [1], [1, 2])).toThrow("x: outside must have the length of inside, 1 h (got 2 h)");
    expect(() => pairedHours("x", [1, 2], [1, Infinity])).toThrow("x: outside must be finite or NaN (got Infinity at index 1)");
    expect([...daySums([...new Array(24).fill(1), ...new Array(24).fill(Number.NaN), 5])]).toEqual([24, Number.NaN, 5]);
    expect(hourlyInfluence(new Float64Array(120))).toBeNull();
    expect(hourlyInfluence(new Float64Array(144))?.varianceOfSum).toBe(0);
  });
});

describe("meanDifference", () => {
  it("needs 20 hours of a day and 6 days", () => {
    const a = new Float64Array(24 * 6).fill(3);
    expect(meanDifference(a, new Float64Array(24 * 6)).difference?.value).toBe(3);
    expect(meanDifference(gappy(a, 0, 4), new Float64Array(24 * 6)).daysUsed).toBe(6);
    expect(meanDifference(gappy(a, 0, 5), new Float64Array(24 * 6))).toMatchObject({ daysUsed: 5, difference: null, isShort: true });
    expect(meanDifference([], [])).toMatchObject({ difference: null, daysUsed: 0 });
    expect(dailyDifferences(new Float64Array(47), new Float64Array(47)).length).toBe(1);
  });
});

describe("dailyResponse", () => {
  it("tells a planted gain and lag exactly, whatever slope and mean", () => {
    const wave = (gain: number, lag: number): Float64Array => Float64Array.from({ length: 24 * 20 }, (_, h) => 7 + 0.02 * h + gain * Math.cos((2 * Math.PI * (h - 14 - lag)) / 24));
    const { decrementFactor, timeLag, daysUsed } = dailyResponse(wave(1.2, 5), wave(4, 0));
    expect(daysUsed).toBe(18);
    expectClose(decrementFactor?.value ?? 0, 0.3, { relative: 1e-9 }, "planted");
    expectClose(timeLag?.value ?? 0, 5, { absolute: 1e-9 }, "planted");
    expectClose(dailyResponse(wave(2, -0.6), wave(4, 0)).timeLag?.value ?? 0, -0.6, { absolute: 1e-9 }, "inside may lead");
  });

  it("drops every day that a gap touches, half a day about it included", () => {
    expect(dailyResponse(inside, outside).daysUsed).toBe(38);
    expect(dailyResponse(gappy(inside, 240, 241), outside).daysUsed).toBe(36);
    expect(dailyResponse(gappy(inside, 252, 253), outside).daysUsed).toBe(36);
    expect(dailyResponse(inside.subarray(0, 24 * 7), outside.subarray(0, 24 * 7)).decrementFactor).toBeNull();
    expect(dailyResponse(inside.subarray(0, 24 * 8), outside.subarray(0, 24 * 8)).decrementFactor).not.toBeNull();
  });

  it("no cycle outside or inside: null, or a gain from 0 without a lag", () => {
    const flat = new Float64Array(outside.length).fill(20);
    expect(dailyResponse(inside, flat)).toMatchObject({ decrementFactor: null, timeLag: null });
    const still = dailyResponse(flat, outside);
    expect(still.timeLag).toBeNull();
    expect(still.decrementFactor?.low).toBe(0);
  });
});

describe("varianceRatio, laggedCorrelation, rawCorrelation", () => {
  it("refuse what is too short or has hours that are never there, with the reason", () => {
    expect(() => varianceRatio(new Float64Array(40), new Float64Array(40))).toThrow("mask must hold at least 48 hours (got 40 h); log longer");
    const twice = outside.map((v, h) => (h % 12 === 3 ? v : Number.NaN));
    expect(() => withoutCycles(twice, pairedHours("x", twice, twice))).toThrow("positive definite");
    expect(() => rawCorrelation(new Float64Array(40), new Float64Array(40))).toThrow("share at least 48 hours (got 40 h)");
  });

  it("a shifted copy has its lag; an end of the range gives none", () => {
    const copy = (lag: number): Float64Array => outside.map((_, h) => outside[(h - lag + outside.length) % outside.length]);
    expectClose(laggedCorrelation(copy(5), outside).lag?.value ?? 0, 5, { absolute: 0.3 }, "departures of a copy keep its lag to parts of an hour");
    expect(laggedCorrelation(copy(36), outside).lag?.value ?? 24).toBeGreaterThan(-13);
    expect(laggedCorrelation(new Float64Array(outside.length).fill(2), outside).correlation).toBeNull();
  });

  it("the raw correlation of two unlike houses with a daily cycle is high, and the fair test does not call it a link", () => {
    let [high, called] = [0, 0];
    for (let k = 0; k < 20; k++) {
      const [a, b] = [madeOutside(24 * 40, 500 + k), madeOutside(24 * 40, 900 + k)];
      const raw = rawCorrelation(a, b);
      if (raw.withCycle > 0.3) high++;
      if (raw.pValue < 0.05) called++;
      expect(raw.effectiveCount).toBeLessThan(0.2 * a.length);
    }
    expect(high).toBeGreaterThanOrEqual(18);
    expect(called).toBeLessThanOrEqual(4);
    expect(rawCorrelation(inside, outside).says).toMatch(/misleads/);
    expect(rawCorrelation(new Float64Array(100), outside.subarray(0, 100)).pValue).toBeNaN();
  });
});

describe("room of one constant", () => {
  it("filters a ramp exactly: late by τ once the start is forgotten", () => {
    const ramp = Float64Array.from({ length: 200 }, (_, h) => 0.5 * h);
    expectClose(roomFilter(ramp, 6)[199], 0.5 * (199 - 6), { absolute: 1e-9 }, "exact for straight runs");
    expect(roomFilter(new Float64Array(0), 6).length).toBe(0);
    expect(() => roomFilter(ramp, 0)).toThrow("roomFilter: tau must be from 0.001 to 1000000 h (got 0 h)");
    expect(() => roomResponse(-1)).toThrow("tau must be");
    expect(() => coolingTimeConstant(20, 21, 5, 8)).toThrow("after must lie between before and outside (got 21 °C between 20 °C and 5 °C)");
  });

  it("transients start with the record and after gaps longer than 12 h", () => {
    const mask = new Uint8Array(100).fill(1);
    mask.fill(0, 0, 3);
    mask.fill(0, 20, 32);
    mask.fill(0, 50, 63);
    expect(transientStarts(mask)).toEqual([3, 63]);
  });

  it("the nuisance takes level, drift, transient and cycle out, and passes over columns that tell nothing new", () => {
    const mask = new Uint8Array(240).fill(1);
    mask.fill(0, 100, 120);
    const values = Float64Array.from(mask, (m, h) => (m === 1 ? 5 + 0.01 * h + 2 * Math.exp(-h / 10) + Math.cos((2 * Math.PI * h) / 24) + (h >= 120 ? Math.exp(-(h - 120) / 10) : 0) : 0));
    const left = roomNuisance(mask, [0, 120, 120], 3).without(values, 10);
    expect(Math.max(...left.map(Math.abs))).toBeLessThan(1e-9);
  });

  it("finds a planted constant in both variants, gaps in either place", () => {
    for (const [i, o] of [[inside, outside], [gappy(inside, 300, 330), outside], [inside, gappy(outside, 300, 330)]]) {
      for (const variant of ["swings", "all"] as const) {
        const fit = timeConstantFit(i, o, variant);
        expectClose(fit.tau?.value ?? 0, 12, { relative: 0.1 }, variant);
        expect(fit.explained).toBeGreaterThan(0.8);
      }
    }
    expect(() => timeConstantFit(new Float64Array(47), new Float64Array(47), "all")).toThrow("must share at least 48 h (got 47 h)");
  });

  it("two constants at once are refused, and the reasons are sentences", () => {
    const two = outside.map((_, h) => 0.5 * roomFilter(outside, 2)[h] + 0.5 * roomFilter(outside, 120)[h]);
    const { timeConstant: tau, reasons, says } = timeConstant(two, outside);
    expect(tau).toBeNull();
    expect(reasons.length).toBe(says.length);
    expect(reasons).toContain("daily line");
    expect(timeConstant(inside, outside).reasons).toEqual([]);
  });

  it("a record shorter than 8 τ says how many days are missing", () => {
    const slow = madeInside(outside, 150, 3);
    const found = timeConstant(slow, outside);
    expect(found.timeConstant).toBeNull();
    expect(found.reasons).toContain("short");
    expect(found.says.join(" ")).toMatch(/log about \d+ more days/);
  });
});

describe("crossSpectrum and bandResponse", () => {
  it("drops segments with a gap, or counts missing steps as 0 where told", () => {
    const [x, y] = [outside.subarray(0, 480), inside.subarray(0, 480)];
    const hole = gappy(x, 100, 101);
    expect(crossSpectrum(x, y, 120, { stepSeconds: 3600 }).segments).toBe(7);
    expect(crossSpectrum(hole, y, 120, { stepSeconds: 3600 }).segments).toBe(5);
    expect(crossSpectrum(hole, y, 120, { stepSeconds: 3600, leastPresent: 0.7 }).segments).toBe(7);
    expect(crossSpectrum(x.map(() => Number.NaN), y, 120, { stepSeconds: 3600 }).coherence[3]).toBeNaN();
    expect(crossSpectrum(x, y, 480, { stepSeconds: 3600 }).coherence[9]).toBeGreaterThan(1 - 1e-12);
    expect(() => crossSpectrum(x, y, 481, { stepSeconds: 3600 })).toThrow("segmentSteps must be from 4 to 480 steps (got 481 steps)");
    expect(() => crossSpectrum(x, y.subarray(1), 100, { stepSeconds: 3600 })).toThrow("y must have the length of x, 480 (got 479)");
    expect(() => crossSpectrum(x, y, 100.5, { stepSeconds: 3600 })).toThrow("be a whole number");
  });

  it("a delay of y turns the phase back, and scales of x and y come out in the gain", () => {
    const n = 960;
    const x = madeOutside(n + 3, 21);
    const spectrum = crossSpectrum(x.subarray(3), x.subarray(0, n).map((v) => 2 * v), 240, { stepSeconds: 3600 });
    // Bin 10 is 1 cpd: 3 h late is 45° behind.
    expectClose(Math.atan2(spectrum.imaginary[10], spectrum.real[10]), -Math.PI / 4, { absolute: 0.03 }, "3 of 240 steps leave the window");
    expectClose(Math.hypot(spectrum.real[10], spectrum.imaginary[10]) / spectrum.densityX[10], 2, { relative: 0.03 }, "gain");
  });

  it("bands of a room of 12 h, of nothing, and of too few days", () => {
    for (const band of bandResponse(inside, outside)) {
      const truth = roomResponse(12, { cyclesPerDay: band.cyclesPerDay });
      expect(band.cyclesPerDay).toBeGreaterThanOrEqual(band.from);
      expect(band.cyclesPerDay).toBeLessThanOrEqual(band.to);
      if (band.lagHours !== null) expect(Math.abs(band.lagHours.value - truth.lagHours), `lag at ${band.from} cpd`).toBeLessThan(0.6 * truth.lagHours);
      if (band.gain !== null && band.from < 3) expectClose(band.gain.value, truth.gain, { relative: 0.35 }, `gain at ${band.from} cpd`);
    }
    const flat = bandResponse(new Float64Array(outside.length).fill(20), outside);
    expect(flat.every((b) => b.gain === null && b.says !== null)).toBe(true);
    const short = bandResponse(inside.subarray(0, 240), outside.subarray(0, 240));
    expect(short[0]).toMatchObject({ gain: null, lagHours: null, coherence: null, segments: 0 });
    expect(short[0].says).toMatch(/log about \d+ more days/);
    const strangers = bandResponse(madeOutside(24 * 60, 77), madeOutside(24 * 60, 78));
    expect(strangers.filter((b) => b.lagHours === null && b.gain?.low === 0).length).toBeGreaterThanOrEqual(4);
  });
});

describe("changes", () => {
  it("Welch's degrees of freedom between the smaller and the sum", () => {
    const side = (value: number, standardError: number, degreesOfFreedom: number) => ({ value, standardError, degreesOfFreedom });
    const { change, degreesOfFreedom } = changeBetween(side(1, 0.3, 4), side(2, 0.4, 8), { unit: "h" });
    expect([change.value, change.standardError, change.unit]).toEqual([1, 0.5, "h"]);
    // (0.09 + 0.16)² / (0.09²/4 + 0.16²/8)
    expectClose(degreesOfFreedom, 0.0625 / (0.0081 / 4 + 0.0256 / 8), { relative: 1e-12 }, "by hand");
    expect(changeBetween(side(1, 0, 3), side(1, 0, 5)).degreesOfFreedom).toBe(3);
    expect(() => changeBetween(side(1, -1, 3), side(1, 1, 3))).toThrow("before must have a standard error and degrees of freedom (got -1 and 3)");
  });

  it("needs 10 days a side and an outside that varies; a season alone is no change", () => {
    const chance = random(5);
    const outdoor = Array.from({ length: 40 }, (_, k) => 15 - 0.2 * k + chance.normal());
    const daily = outdoor.map((v, k) => 20 - v + 0.1 * Math.cos(3 * k));
    const same = changeOfMean(daily, outdoor, 20).change;
    expect(same !== null && same.low < 0 && same.high > 0).toBe(true);
    const step = changeOfMean(daily.map((v, k) => v + (k >= 20 ? 1 : 0)), outdoor, 20).change;
    expectClose(step?.value ?? 0, 1, { absolute: 0.15 }, "planted");
    expect(changeOfMean(daily, outdoor, 9).change).toBeNull();
    expect(changeOfMean(daily, outdoor, 10).change).not.toBeNull();
    expect(changeOfMean(daily, outdoor, 30).change).not.toBeNull();
    expect(changeOfMean(daily, outdoor, 31).change).toBeNull();
    expect(changeOfMean(daily, new Array(40).fill(3), 20).change).toBeNull();
    // A room that follows two days late, and a season: only the earlier days tell that nothing was done.
    const late = outdoor.map((v, k) => (k < 2 ? v : outdoor[k - 2]) - v + 0.02 * Math.cos(5 * k));
    const told = changeOfMean(late, outdoor, 20).change;
    expect(told !== null && told.low < 0 && told.high > 0 && told.high - told.low < 0.2).toBe(true);
    expect(changeOfMean(late, outdoor, 20, { daysBefore: 0 }).change?.standardError).toBeGreaterThan(0.2);
    expect(() => changeOfMean(daily, outdoor, 20, { daysBefore: 8 })).toThrow("daysBefore must be from 0 to 7 d (got 8 d)");
    expect(() => changeOfMean(daily, [1], 20)).toThrow("outdoor must have the length of daily, 40 d (got 1 d)");
  });
});
