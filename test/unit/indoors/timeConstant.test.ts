import { describe, expect, it } from "vitest";
import { random } from "../../../lib/ground/random.js";
import type { DailyResponse } from "../../../lib/indoors/dailyResponse.js";
import { timeConstant } from "../../../lib/indoors/timeConstant.js";
import { madeInside, madeOutside } from "./madeRecord.js";

const n = 24 * 30;
const outside = madeOutside(n, 31);
const inside = madeInside(outside, 9, 32);
const flat = (v: number, length = n): Float64Array => new Float64Array(length).fill(v);

describe("timeConstant, its reasons", () => {
  const line = (real: number, imaginary: number, error = 0): DailyResponse => ({ decrementFactor: null, timeLag: null, real, imaginary, radialError: error, tangentialError: error, t: 2, degreesOfFreedom: 5, daysUsed: 20 });
  const reasonsOf = (l: DailyResponse): readonly string[] => timeConstant(inside, outside, { line: l }).reasons;

  it("the daily line of a room of one constant has Re(1/H) = 1, to a tenth or to its error", () => {
    // 1/H = 1 + iωτ: H = 1/(1 + 2i) = 0.2 − 0.4i.
    expect(reasonsOf(line(0.2, -0.4))).toEqual([]);
    // 1/H = 1.09 + 2i and 1.12 + 2i.
    for (const [re, odd] of [[1.09, false], [1.12, true], [0.91, false], [0.88, true]] as const) {
      const power = re * re + 4;
      expect(reasonsOf(line(re / power, -2 / power)).includes("daily line"), `${re}`).toBe(odd);
      // An error of H of 0.02 each way is 0.02/|H|² = 0.1 of 1/H, twice that at 95 %.
      expect(reasonsOf(line(re / power, -2 / power, 0.02 / 1))).toEqual([]);
    }
  });

  it("tells each reason in a sentence", () => {
    const off = timeConstant(inside, outside, { line: line(0.9, 0) });
    expect(off.says).toEqual(["No time constant: a room of one constant would answer the daily cycle otherwise (sun, heating, or heavy walls behind light ones)."]);
    expect([off.timeConstant, off.reasons]).toEqual([null, ["daily line"]]);
    expect([off, off.reasons, off.says].every(Object.isFrozen)).toBe(true);
    const still = timeConstant(flat(20).map((v, h) => v + 0.01 * Math.sin(h * h)), outside, { line: line(0.2, -0.4) });
    expect(still.reasons).toContain("unexplained");
    expect(still.says).toContain("No time constant: inside hardly follows outside (a thermostat, air conditioning or people hold it); log with the heating off, or in summer.");
    const same = timeConstant(outside, outside, { line: line(0.2, -0.4) });
    expect(same.reasons).toContain("edge");
    expect(same.says).toContain("No time constant: none between 0.7 h and 300 h fits better than the rest.");
    const brief = timeConstant(inside.subarray(0, 96), outside.subarray(0, 96), { line: line(0.2, -0.4) });
    expect(brief.reasons).toContain("short");
    expect(brief.says).toContain("No time constant: fewer than 6 days of both places together; log longer.");
  });

  it("places that never change have no time constant, whatever rounding leaves of them, and nobody calls forty days fewer than six", () => {
    for (let k = 0; k < 12; k++) {
      const found = timeConstant(flat(15 + 0.37 * k), flat(3.3 + 1.1 * k));
      expect(found.timeConstant).toBe(null);
      expect(found.reasons).toContain("unexplained");
      expect([found.swings.explained, found.all.explained]).toEqual([0, 0]);
    }
    const calm = timeConstant(inside, flat(15));
    expect([calm.timeConstant, calm.reasons[0]]).toEqual([null, "short"]);
    expect(calm.says[0]).toBe("No time constant: the hours logged tell too little of it for an interval with an end; log longer, in weather that changes.");
  });

  it("the variants may differ by their errors together, and not by more", () => {
    const long = madeOutside(960, 11);
    const heated = (by: number): ReturnType<typeof timeConstant> => timeConstant(madeInside(long, 12, 12).map((v, h) => v + by * Math.cos((2 * Math.PI * (h - 16)) / 24)), long, { line: line(0.2, -0.4) });
    const seen = [0, 0.1, 0.2, 0.8].map((by) => {
      const { reasons, says, swings, all, timeConstant: tau } = heated(by);
      const apart = Math.abs(Math.log(all.tau!.value / swings.tau!.value));
      const isApart = apart > swings.t * Math.hypot(all.standardErrorOfLog, swings.standardErrorOfLog);
      expect(reasons).toEqual(isApart ? ["variants"] : []);
      expect(says).toEqual(isApart ? [`No time constant: with the daily cycle it would be ${Math.round(all.tau!.value)} h, without it ${Math.round(swings.tau!.value)} h.`] : []);
      expect(tau).toBe(isApart ? null : swings.tau);
      return isApart;
    });
    expect(seen).toEqual([false, false, true, true]);
  });

  it("one variant alone at an end of the search, or without an interval, is enough", () => {
    const made = (days: number, tau: number, seed: number, by = 0): ReturnType<typeof timeConstant> => {
      const air = madeOutside(24 * days, seed);
      return timeConstant(madeInside(air, tau, seed).map((v, h) => v + by * Math.cos((2 * Math.PI * (h - seed)) / 24)), air, { line: line(0.2, -0.4) });
    };
    const [heated, slow, endless] = [made(14, 3, 6, 3), made(8, 250, 4), made(6, 80, 58, 3)];
    expect([heated.swings.isAtEdge, heated.all.isAtEdge, heated.reasons.includes("edge")]).toEqual([false, true, true]);
    expect([slow.swings.isAtEdge, slow.all.isAtEdge, slow.reasons.includes("edge")]).toEqual([true, false, true]);
    expect([endless.swings.tau === null, endless.all.tau, endless.reasons[0]]).toEqual([false, null, "short"]);
  });

  it("eight time constants of record are needed; how many days more is told by the upper end of its interval, unless the value means nothing", () => {
    const short = timeConstant(madeInside(madeOutside(24 * 14, 34), 250, 34).map((v, h) => v + 3 * Math.cos((2 * Math.PI * (h - 10)) / 24)), madeOutside(24 * 14, 34), { line: line(0.2, -0.4) });
    expect([short.reasons.includes("short"), short.swings.isAtEdge]).toEqual([true, false]);
    const days = Math.ceil((8 * short.swings.tau!.high - 24 * 14) / 24);
    expect(short.says).toContain(`No time constant: the record must be 8 times as long as it; log about ${days} more days.`);
    // Noise about 20 °C, and a slow room heated by the clock that lies at an end of the search: short too, but no length can be told.
    const chance = random(63);
    const noisy = timeConstant(flat(20, 144).map((v) => v + 0.3 * chance.normal()), madeOutside(144, 9), { line: line(0.2, -0.4) });
    expect([noisy.swings.isAtEdge, noisy.swings.explained < 0.3]).toEqual([false, true]);
    const air = madeOutside(24 * 8, 74);
    const atEnd = timeConstant(madeInside(air, 250, 74).map((v, h) => v + 3 * Math.cos((2 * Math.PI * (h - 2)) / 24)), air, { line: line(0.2, -0.4) });
    expect([atEnd.swings.isAtEdge, atEnd.swings.explained >= 0.3]).toEqual([true, true]);
    for (const { swings, reasons, says } of [noisy, atEnd]) {
      expect(swings.spanHours).toBeLessThan(8 * swings.tau!.value);
      expect(reasons.at(-1)).toBe("short");
      expect(says.some((sentence) => sentence.includes("8 times"))).toBe(false);
    }
  });
});
