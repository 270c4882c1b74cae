import { describe, expect, it } from "vitest";
import { tQuantile } from "../../../lib/ground/distributions.js";
import { bandResponse } from "../../../lib/indoors/bandResponse.js";
import { expectClose } from "../../close.js";
import { madeInside, madeOutside } from "./madeRecord.js";

/** Both places missing for twelve hours in every 120: a tenth of the record. */
const gapped = (values: Float64Array): Float64Array => values.map((v, h) => (h % 120 >= 100 && h % 120 < 112 ? Number.NaN : v));
const quarter = (values: Float64Array): Float64Array => values.map((v) => 0.25 * v + 3);
const hoursOfRadian = (cyclesPerDay: number): number => 24 / (2 * Math.PI * cyclesPerDay);

describe("bandResponse of a house that scales the air outside by a quarter: noise allows nothing, the rules do", () => {
  it("a twentieth for the slowest band of short segments, nothing for the others", () => {
    const outside = madeOutside(960, 3);
    const bands = bandResponse(quarter(outside), outside);
    expect(bands.every((b) => b.gain !== null)).toBe(true);
    bands.forEach(({ gain, lagHours, coherence }, k) => {
      expectClose(gain!.low, 0.25 * (k === 0 ? 0.95 : 1), { absolute: 1e-7 }, `low ${k}`);
      expectClose(gain!.high, 0.25 * (k === 0 ? 1.05 : 1), { absolute: 1e-7 }, `high ${k}`);
      expectClose(gain!.standardError, 0, { absolute: 1e-7 });
      expectClose(lagHours!.high - lagHours!.low, 0, { absolute: 1e-6 });
      expectClose(coherence!, 1, { absolute: 1e-12 });
    });
  });

  it("a tenth of the hours missing: 0.3 times as much of gain and phase besides", () => {
    const outside = gapped(madeOutside(960, 3));
    const seen = bandResponse(quarter(outside), outside).map((b, k) => ({ ...b, k })).filter((b) => b.gain !== null);
    expect(seen.length).toBeGreaterThan(3);
    // The last hour of the record is there; from the first to the last one so many are not.
    const lost = outside.reduce((count, v) => count + (Number.isNaN(v) ? 1 : 0), 0) / 960;
    expectClose(lost, 0.1, { absolute: 1e-12 });
    for (const { gain, lagHours, k, cyclesPerDay } of seen) {
      const share = 0.3 * lost + (k === 0 ? 0.05 : 0);
      expectClose(gain!.low, 0.25 * (1 - share), { absolute: 1e-6 }, `low ${k}`);
      expectClose(gain!.high, 0.25 * (1 + share), { absolute: 1e-6 }, `high ${k}`);
      expectClose(lagHours!.high, 0.3 * lost * hoursOfRadian(cyclesPerDay), { absolute: 1e-4 }, `lag ${k}`);
      expectClose(lagHours!.low, -0.3 * lost * hoursOfRadian(cyclesPerDay), { absolute: 1e-4 }, `lag ${k}`);
    }
    // What is missing before the first hour and after the last is not missing.
    const padded = (v: Float64Array): Float64Array => Float64Array.from({ length: 960 + 96 }, (_, h) => v[h - 48] ?? Number.NaN);
    const later = bandResponse(padded(quarter(outside)), padded(outside));
    for (const { gain, k } of seen) expectClose(later[k].gain!.high, gain!.high, { absolute: 1e-4 }, `padded ${k}`);
  });

  it("from 120 days on longer segments, and 3 in 100 for the outdoor sensor's own slow noise instead", () => {
    const outside = madeOutside(2880, 5);
    const long = bandResponse(quarter(outside), outside);
    const short = bandResponse(quarter(outside).subarray(0, 2879), outside.subarray(0, 2879));
    expect([long[0].segments, short[0].segments, long[4].segments]).toEqual([Math.floor((2879 - 600) / 150) + 1, Math.floor((2878 - 300) / 75) + 1, Math.floor((2879 - 120) / 60) + 1]);
    for (const { gain } of long) expectClose(gain!.high, 0.25 * 1.03, { absolute: 1e-7 });
    expectClose(short[0].gain!.high, 0.25 * 1.05, { absolute: 1e-7 });
    expectClose(short[1].gain!.high, 0.25, { absolute: 1e-7 });
  });
});

describe("bandResponse, freedom and limits", () => {
  const outside = madeOutside(960, 3);
  const inside = madeInside(outside, 12, 4);

  it("what unrelated places stay below: 1 − 0.05^(1/(ν/2 − 1)), freed of the bias 2/ν (from memory: Goodman's law of coherence)", () => {
    for (const { coherenceLimit, degreesOfFreedom: nu, gain, coherence, lagHours, cyclesPerDay } of bandResponse(inside, outside)) {
      const limit = 1 - 0.05 ** (1 / (nu / 2 - 1));
      expectClose(coherenceLimit!, (limit - 2 / nu) / (1 - 2 / nu), { relative: 1e-12 });
      if (lagHours === null) continue;
      // Relative error of a gain: √((1 − γ²)/(γ² (ν − 2))), γ² as it was averaged (from memory: Bendat and Piersol).
      const raw = coherence! * (1 - 2 / nu) + 2 / nu;
      expectClose(gain!.standardError / gain!.value, Math.sqrt((1 - raw) / (raw * (nu - 2))), { relative: 1e-9 });
      expectClose(lagHours.standardError / hoursOfRadian(cyclesPerDay), gain!.standardError / gain!.value, { relative: 1e-9 });
      // The arc of the phase: sin of it is Student's t times that error, with γ² freed of its bias.
      const arc = Math.asin(Math.min(1, tQuantile(0.975, nu - 2) * Math.sqrt((1 - coherence!) / (coherence! * (nu - 2)))));
      for (const reach of [lagHours.high - lagHours.value, lagHours.value - lagHours.low]) expectClose(reach / hoursOfRadian(cyclesPerDay), arc, { absolute: 1e-9 });
    }
  });

  it("a house that is two hours late is so at every band", () => {
    const late = Float64Array.from({ length: 960 }, (_, h) => outside[Math.max(0, h - 2)]);
    for (const { lagHours, gain, from, to } of bandResponse(late, outside)) {
      // Two of 300 hours leave a segment: a fraction of a degree, which is a good part of an hour where a turn takes a week.
      expectClose(lagHours!.value, 2, { absolute: from < 0.3 ? 0.5 : 0.15 }, `lag at ${from}`);
      // Over the band the phase turns by so much, and the mean of turned arrows is shorter: sin x / x.
      const x = (Math.PI * 2 * (to - from)) / 24;
      expectClose(gain!.value, Math.sin(x) / x, { absolute: 0.03 }, `gain at ${from}`);
    }
  });

  it("overlapping Hann segments share 0.659, 0.167 and 0.0075 of each other: two degrees of freedom a whole segment", () => {
    // Correlations of a Hann window of 300 with itself, moved by 75, 150 and 225.
    const window = Float64Array.from({ length: 300 }, (_, i) => 0.5 - 0.5 * Math.cos((2 * Math.PI * i) / 300));
    const share = (by: number): number => window.reduce((sum, v, i) => sum + v * (window[i + by] ?? 0), 0) / window.reduce((sum, v) => sum + v * v, 0);
    const whole = (segments: number, by: readonly number[]): number => segments / (1 + 2 * by.reduce((sum, shift, j) => sum + share(shift) ** 2 * (1 - (j + 1) / segments), 0));
    // A wave at the center of a bin puts a quarter of its power into each neighbor: (1 + 2/4)² / (1 + 2/16) = 2 bins of even power, of
    // which 1.5 count as one; chance alone makes bins uneven by 1 + 1/S.
    const wave = (cyclesPerDay: number): Float64Array => Float64Array.from({ length: 960 }, (_, h) => 20 * Math.cos((2 * Math.PI * cyclesPerDay * h) / 24) + 0.001 * Math.sin(h * h));
    const [slow, fast] = [bandResponse(wave(0.24), wave(0.24))[1], bandResponse(wave(2.2), wave(2.2))[4]];
    expect([slow.segments, fast.segments]).toEqual([9, 14]);
    // The line that is taken out of each segment takes a little of the wave.
    expectClose(slow.degreesOfFreedom, (2 / 1.5) * 2 * (whole(9, [75, 150, 225]) + 1), { relative: 0.03 }, "slow");
    // Of the day's cycle and faster only 0.6 of the bins count: of 2 even ones less than one, and one is the least.
    expectClose(fast.degreesOfFreedom, 2 * whole(14, [150]), { relative: 0.01 }, "fast");
    // The frequency of the mean period, over the three bins.
    expectClose(slow.cyclesPerDay, 1.5 / (0.25 / 0.16 + 1 / 0.24 + 0.25 / 0.32), { relative: 0.01 });
    expectClose(fast.cyclesPerDay, 1.5 / (0.25 / 2 + 1 / 2.2 + 0.25 / 2.4), { relative: 0.001 });
  });

  it("says how many more days: six stretches of a quarter each and one whole, or four halves", () => {
    const brief = bandResponse(inside.subarray(0, 96), outside.subarray(0, 96));
    for (const [k, days] of [[0, 32], [3, 32], [4, 20], [5, 20]]) {
      const { from, to, says, degreesOfFreedom, cyclesPerDay, segments } = brief[k];
      expect(says).toBe(`Too few whole stretches for ${from} to ${to} cycles per day: log about ${days} more days.`);
      expect([degreesOfFreedom, segments]).toEqual([0, 0]);
      expectClose(cyclesPerDay, Math.sqrt(from * to), { relative: 1e-12 });
    }
    expect(Object.isFrozen(brief[0])).toBe(true);
    // 13 days: one whole segment of 300 hours, and five more of 75 needed, 15.6 days.
    const one = bandResponse(inside.subarray(0, 312), outside.subarray(0, 312))[0];
    expect(one.segments).toBe(1);
    expect(Number(/about (\d+) more/.exec(one.says!)![1])).toBeLessThanOrEqual(16);
  });
});
