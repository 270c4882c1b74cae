import { describe, expect, it } from "vitest";
import { drawnRecords } from "../../../../lib/cycles/swings/drawnRecords.js";
import { redBackground } from "../../../../lib/cycles/swings/redBackground.js";
import { sineTaperSpectrum } from "../../../../lib/cycles/swings/sineTaperSpectrum.js";
import { sixHourMeans } from "../../../../lib/cycles/swings/sixHourMeans.js";
import { swingSpectrum } from "../../../../lib/cycles/swings/swingSpectrum.js";
import { random } from "../../../../lib/ground/random.js";
import { expectClose } from "../../../close.js";
import { inventedPressure } from "./inventedPressure.js";

describe("sixHourMeans", () => {
  it("needs three of six, and takes a short last block", () => {
    const nan = Number.NaN;
    expect(Array.from(sixHourMeans([1, 2, 3, nan, nan, nan, 1, 2, nan, nan, nan, nan, 4, 5, 6]))).toEqual([2, nan, 5]);
    expect(sixHourMeans([]).length).toBe(0);
    expect(Array.from(sixHourMeans([1, 2]))).toEqual([nan]);
  });
});

describe("sineTaperSpectrum", () => {
  it("tapers have unit power and do not overlap", () => {
    for (const n of [40, 157, 360]) {
      const { normal } = random(n);
      const noise = Float64Array.from({ length: n }, normal);
      const density = sineTaperSpectrum(n, 5).of(noise);
      let total = density[0];
      for (let i = 1; i < density.length; i++) total += (2 * i === n ? 1 : 2) * density[i];
      // Parseval for each taper: the sum is n times the tapered power, which is the noise's mean power times n but for chance.
      expectClose(total / n, noise.reduce((s, v) => s + v * v, 0) / n, { relative: 0.25 }, `${n}`);
    }
  });

  it("the power of a wave stands at its frequency", () => {
    const n = 360;
    const wave = Float64Array.from({ length: n }, (_, j) => 3 * Math.cos((2 * Math.PI * 18 * j) / n));
    const density = sineTaperSpectrum(n, 3).of(wave);
    let sum = 0;
    for (let i = 12; i <= 24; i++) sum += density[i];
    expectClose((2 * sum) / n, 4.5, { relative: 0.02 }, "variance of the wave");
  });
});

describe("redBackground", () => {
  it("gives back a background of its own form", () => {
    const background = redBackground(360, 0.25);
    const b = Float64Array.of(3, -2, -0.6);
    const spectrum = Float64Array.from({ length: 181 }, (_, i) => background.at(b, i));
    background.fit(spectrum).forEach((v, k) => {
      expectClose(v, b[k], { absolute: 1e-5 }, `coefficient ${k}`);
    });
  });

  it("is held flat outside the range it is fitted on", () => {
    const background = redBackground(360, 0.25);
    const b = Float64Array.of(3, -2, -0.6);
    expect(background.at(b, 0)).toBe(background.at(b, 2));
    expect(background.at(b, 180)).toBe(background.at(b, 81));
    expect([background.from, background.to]).toEqual([2, 81]);
  });

  it("is pulled little by one high peak", () => {
    const background = redBackground(360, 0.25);
    const b = Float64Array.of(3, -2, -0.6);
    const spectrum = Float64Array.from({ length: 181 }, (_, i) => background.at(b, i) * (i === 18 ? 1e6 : 1));
    expectClose(background.fit(spectrum)[0], 3, { absolute: 0.2 });
  });

  it("refuses too few frequencies", () => expect(() => redBackground(24, 0.25)).toThrow("redBackground: length must leave at least 6 frequencies up to 0.9 cpd (got 4); log longer"));
});

describe("drawnRecords", () => {
  it("have the spectrum asked for, and the gaps bridged", () => {
    const n = 240;
    const gaps = new Float64Array(n);
    gaps.fill(Number.NaN, 100, 110);
    const { normal } = random(8);
    const taper = sineTaperSpectrum(n, 3);
    const mean = new Float64Array(n / 2 + 1);
    let records = 0;
    let before = 0;
    for (const record of drawnRecords(gaps, (f) => 1 / (0.01 + f * f), normal, 301)) {
      expectClose(record[104] - record[103], record[103] - record[102], { absolute: 1e-9 });
      taper.of(record).forEach((v, i) => {
        mean[i] += v / 301;
      });
      // Real and imaginary part are two records, not one twice.
      expect(record[50]).not.toBe(before);
      before = record[50];
      records++;
    }
    expect(records).toBe(301);
    // Level up to a factor; the bridge of 10 in 240 takes a little.
    expectClose(mean[12] / mean[60], (0.01 + 0.25 ** 2) / (0.01 + 0.05 ** 2), { relative: 0.15 });
  });
});

describe("swingSpectrum", () => {
  const six = (days: number, seed: number, cycle?: { days: number; size: number }): Float64Array => sixHourMeans(inventedPressure(days, seed, { cycle }));

  it("finds a planted beat and says its period", () => {
    const got = swingSpectrum(six(90, 51, { days: 5, size: 8 }), random(1).normal);
    expect(got.peaks[0].significant).toBe(true);
    expectClose(got.peaks[0].periodDays, 5, { absolute: 0.3 });
    expect(got.peaks[0].periodLow).toBeLessThan(5);
    expect(got.peaks[0].periodHigh).toBeGreaterThan(5);
    expect(got.says).toMatch(/^The swings tend to return every (4|5)\.\d days \(4\.\d to 5\.\d\): chance alone does this in fewer than 1 of 100/);
  });

  it("tells no beat and prints no period where there is none", () => {
    const got = swingSpectrum(six(90, 52), random(1).normal);
    expect(got.peaks[0].significant).toBe(false);
    expect(got.says).toMatch(/^The swings come at no fixed beat: a spectrum like this appears by chance in about \d+ of 100 records/);
    expect(got.says).not.toMatch(/days/);
    expect(got.peaks.length).toBeLessThanOrEqual(3);
    for (let i = 1; i < got.peaks.length; i++) expect(got.peaks[i].pValue).toBeGreaterThanOrEqual(got.peaks[i - 1].pValue);
  });

  it("asks for p below 0.05, below 0.03 from 180 days on", () => {
    for (const [days, seed, pValue, significant] of [[90, 103, 0.03, true], [90, 132, 0.06, false], [180, 103, 0.03, false]] as const) {
      const [first] = swingSpectrum(six(days, seed), random(1).normal, { draws: 99 }).peaks;
      expect([first.pValue, first.significant], `${days} d, seed ${seed}`).toEqual([pValue, significant]);
    }
  });

  it("the smallest p of 99 draws is 1 in 100, and peaks keep four bins apart", () => {
    const got = swingSpectrum(six(90, 51, { days: 5, size: 8 }), random(1).normal, { draws: 99 });
    expect(got.peaks[0].pValue).toBe(0.01);
    for (let seed = 70; seed < 76; seed++) {
      const bins = swingSpectrum(six(90, seed), random(1).normal, { draws: 99 }).peaks.map((p) => 90 / p.periodDays);
      expect(bins.length).toBeGreaterThan(1);
      for (const [i, a] of bins.entries()) for (const b of bins.slice(0, i)) expect(Math.abs(a - b)).toBeGreaterThan(4.5);
      for (const bin of bins) expect(bin >= 90 / 12 && bin <= 45.001).toBe(true);
    }
  });

  it("is the same for the same seed, and hardly another for another", () => {
    const values = six(60, 53);
    const [a, b, c] = [1, 1, 2].map((seed) => swingSpectrum(values, random(seed).normal));
    expect(a).toEqual(b);
    expectClose(c.peaks[0].pValue, a.peaks[0].pValue, { absolute: 0.12 });
  });

  it("level and slope do not matter, scale neither", () => {
    const values = six(60, 54);
    const a = swingSpectrum(values, random(3).normal, { draws: 99 });
    const b = swingSpectrum(values.map((v, i) => 3 * v + 500 - i), random(3).normal, { draws: 99 });
    expectClose(b.peaks[0].ratio, a.peaks[0].ratio, { relative: 1e-8 });
    expect(b.peaks[0].pValue).toBe(a.peaks[0].pValue);
  });

  it("under 40 days tells the days to go and no p", () => {
    const got = swingSpectrum(six(30.5, 55), random(1).normal);
    expect(got.peaks).toEqual([]);
    expect(got.says).toBe("Too short to tell a beat of the swings from chance: log 10 more days.");
    expect(got.background).not.toBeNull();
    expect(swingSpectrum(six(40, 55), random(1).normal, { draws: 99 }).peaks.length).toBeGreaterThan(0);
    expect(swingSpectrum(six(39.25, 55), random(1).normal).says).toMatch(/log 1 more day\.$/);
    expect(swingSpectrum(six(3, 55), random(1).normal).background).toBeNull();
  });

  it("a constant has no swings", () => expect(swingSpectrum(new Float64Array(200).fill(1000), random(1).normal).says).toBe("The pressure did not change: there are no swings to look at."));

  it("densities for a figure hold the variance", () => {
    const got = swingSpectrum(six(60, 56), random(1).normal, { draws: 99 });
    expect(got.cyclesPerDay.length).toBe(got.density.length);
    expect(got.backgroundDensity.length).toBe(got.density.length);
    const values = six(60, 56);
    const mean = values.reduce((a, b) => a + b, 0) / values.length;
    const variance = values.reduce((s, v) => s + (v - mean) ** 2, 0) / values.length;
    expectClose(got.density.reduce((a, b) => a + b, 0) / 60, variance, { relative: 0.5 }, "one-sided density times 1/T summed, tapers weigh the middle");
  });

  it("refuses a strange number of draws", () => {
    expect(() => swingSpectrum(six(60, 57), random(1).normal, { draws: 10.5 })).toThrow(new RangeError("swingSpectrum: draws must be a whole number from 99 to 99999 (got 10.5)"));
  });
});

describe("swingSpectrum where no beat is asked for", () => {
  it("says why, tells no peak, and draws no number", () => {
    let drawn = 0;
    const values = Float64Array.from({ length: 400 }, (_, i) => Math.sin(i) + Math.sin(i / 7) + (i % 13) / 10);
    const got = swingSpectrum(values, () => drawn++, { untested: "Too few readings." });
    expect([got.says, got.peaks.length, drawn]).toEqual(["Too few readings.", 0, 0]);
    expect(got.background).not.toBeNull();
    expect(got.density.length).toBeGreaterThan(100);
  });
});
