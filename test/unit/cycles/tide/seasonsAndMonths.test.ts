import { describe, expect, it } from "vitest";
import { pairsOf } from "../../../../lib/cycles/tide/fittedLines.js";
import { fitAtNoise } from "../../../../lib/cycles/tide/fittedNoise.js";
import { type LineOfTide, tideLines } from "../../../../lib/cycles/tide/lineTable.js";
import { seasonalTest } from "../../../../lib/cycles/tide/seasonalTest.js";
import { tideClimatology } from "../../../../lib/cycles/tide/tideClimatology.js";
import { tideSteps } from "../../../../lib/cycles/tide/tideSteps.js";
import { usableReadings } from "../../../../lib/cycles/tide/usableReadings.js";
import type { NoiseTheta } from "../../../../lib/cycles/tide/bandedNoise.js";
import type { Seasonal } from "../../../../lib/cycles/tide/tideFit.js";
import { fCdf } from "../../../../lib/ground/distributions.js";
import { series, type Series } from "../../../../lib/record/series.js";
import { expectClose } from "../../../close.js";
import { denseInverse } from "../../../denseTide.js";
import { changed, planted, tideRecord } from "../../../tideRecord.js";

const named = (names: readonly string[]): LineOfTide[] => tideLines.filter((l) => names.includes(l.name));
const weather = { name: "weather", white: 0.1, ar1: { sd: 4, efolding: 2 } };
const s2 = { cyclesPerDay: 2, amplitude: 1.1, crest: 2.4 };
/** About the noise of such weather: a random walk and hardly any white noise. */
const theta: NoiseTheta = [-4, -0.7, 6];
const start = Date.UTC(2024, 2, 1);

describe("seasonalTest", () => {
  const solar = ["S1", "S2", "S3", "S4"];
  const record = (days: number, share: number): Series =>
    changed(tideRecord({ days, stepMinutes: 60, noise: weather, lines: [s2], seed: 11, start }), {
      values: (v, i) => v + share * Math.cos((2 * Math.PI * i) / 24 / 365.25) * planted([s2], start + 3_600_000 * i),
    });
  /** What the test says, and a second way to its chances. */
  const told = (days: number, share: number, breaks: readonly number[] = [], names: readonly string[] = solar): { seasonal: Seasonal; pValues: () => number[] } => {
    const steps = tideSteps(usableReadings(record(days, share)));
    const pairs = pairsOf(named(names), steps.midnight, 0);
    const seasonal = seasonalTest(steps, pairs, names, breaks, fitAtNoise(steps, pairs, breaks, "bridged", theta));
    // By way of a plain inverse, the noise beside each line at j/T with j = 3…22, and the F distribution of jstat.
    const pValues = (): number[] => {
      const extra = pairs.slice(0, 3).flatMap((p) => (["cos", "sin"] as const).map((yearly) => ({ ...p, yearly })));
      const wide = fitAtNoise(steps, [...pairs, ...extra], breaks, "bridged", theta);
      const p = wide.rows.columns;
      return [1, 2, 3].map((f, k) => {
        // K2 stands 2.0 / 365 d beside S2: the third distance on either side is left out.
        const first = f === 2 && names.includes("K2") ? 4 : 3;
        const sides = Array.from({ length: 23 - first }, (_, j) => (j + first) / wide.rows.days).flatMap((d) => [f - d, f + d]);
        const ratio = sides.reduce((sum, side) => sum + wide.ratioAt(side), 0) / sides.length;
        const at = p - 12 + 4 * k; // the last columns, S1 S2 S3 in order
        const own = [0, 1, 2, 3];
        const { inverse } = denseInverse(own.map((i) => own.map((j) => ratio * wide.sigma2 * wide.inverse[(at + i) * p + at + j])));
        const square = own.reduce((sum, i) => sum + own.reduce((row, j) => row + wide.beta[at + i] * inverse[i][j] * wide.beta[at + j], 0), 0);
        return 1 - fCdf(square / 4, 4, 2 * sides.length);
      });
    };
    return { seasonal, pValues };
  };

  it("gives F's chance of each line's four coefficients, the smallest of the three as its own", () => {
    for (const [days, breaks, names] of [[301, [100.3 * 86_400], solar], [366, [], [...solar, "K2"]]] as const) {
      const { seasonal, pValues } = told(days, 0.12, breaks, names);
      const chances = pValues();
      expect(seasonal.lines.map((l) => l.name)).toEqual(["S1", "S2", "S3"]);
      for (const [k, l] of seasonal.lines.entries()) expectClose(l.pValue, chances[k], { relative: 1e-6, absolute: 1e-12 }, l.name);
      expectClose(seasonal.pValue!, Math.min(...chances), { relative: 1e-6, absolute: 1e-12 });
      expect([seasonal, seasonal.lines, ...seasonal.lines].every((o) => Object.isFrozen(o))).toBe(true);
    }
  });

  it("says it with the digits that a chance deserves, and names only the lines that change", () => {
    for (const [share, digits] of [[0, 2], [0.08, 3], [0.15, 4], [0.3, 0]]) {
      const { pValue, changes, says } = told(365, share).seasonal;
      const p = pValue!;
      const text = digits === 0 ? "< 0.0001" : `= ${p.toFixed(digits)}`;
      expect(digits === 0 ? p < 1e-4 : p < [1, 0.1, 0.01][digits - 2] && p > [0.1, 0.01, 1e-4][digits - 2]).toBe(true);
      expect(changes).toBe(share > 0.1);
      expect(says).toBe(
        changes
          ? `The tide changes with the season (S2, p ${text}): the numbers are the mean over the record, see the months.`
          : `No change of the tide with the season stands out in these 365 days (smallest p ${text} of S1, S2 and S3, each tested at 1 %).`,
      );
    }
  });

  it("names every line that changes", () => {
    const s1 = { cyclesPerDay: 1, amplitude: 3, crest: 4 };
    const both = changed(record(365, 0.3), { values: (v, i) => v + Math.cos((2 * Math.PI * i) / 24 / 365.25) * planted([s1], start + 3_600_000 * i) });
    const steps = tideSteps(usableReadings(both));
    const pairs = pairsOf(named(solar), steps.midnight, 0);
    const { says } = seasonalTest(steps, pairs, solar, [], fitAtNoise(steps, pairs, [], "bridged", theta));
    expect(says).toBe("The tide changes with the season (S1, p < 0.0001; S2, p < 0.0001): the numbers are the mean over the record, see the months.");
  });

  it("needs 300 days, and says how many whole ones there are", () => {
    expect(told(300, 0).seasonal.changes).toBe(false);
    const steps = tideSteps(usableReadings(record(299.96, 0)));
    const pairs = pairsOf(named(solar), steps.midnight, 0);
    const short = seasonalTest(steps, pairs, solar, [], fitAtNoise(steps, pairs, [], "bridged", theta));
    expect(short).toEqual({ changes: null, says: "The tide may change with the season; 300 days are needed to test it and there are 299.", pValue: null, lines: [] });
    expect([short, short.lines].every((o) => Object.isFrozen(o))).toBe(true);
  });
});

describe("tideClimatology", () => {
  const quiet = { name: "quiet", white: 0.05 };
  const monthsOf = (s: Series, { lines = ["S1", "S2"], reported, longitude = 0, jumps = [] }: { lines?: string[]; reported?: string[]; longitude?: number; jumps?: number[] } = {}): ReturnType<typeof tideClimatology> =>
    tideClimatology(usableReadings(s), named(lines), reported ?? lines, 0, "bridged", [3, -0.7, 6], longitude, "hPa", jumps);
  const hourly = (days: number, from = start): Series => tideRecord({ days, stepMinutes: 60, noise: quiet, lines: [s2], seed: 5, start: from });

  it("divides at midnight of local mean solar time, 4 minutes a degree", () => {
    // 6 hours of February, March, 6 hours and 5 days of April, at Greenwich.
    const s = hourly(0.25 + 31 + 5.25, start - 6 * 3_600_000);
    const days = (longitude: number): (number | string)[][] => monthsOf(s, { longitude }).map((m) => [m.month, m.days]);
    expect(days(0)).toEqual([[3, 31], [4, 5.25]]);
    expect(days(90)).toEqual([[3, 31], [4, 5.5]]);
    expect(days(-90)).toEqual([[3, 31], [4, 5]]);
    expect(days(-97.5)).toEqual([[3, 31]]); // half an hour less of April than five days
    const mean = monthsOf(s)[0];
    expect(mean.constituents.map((c) => c.name)).toEqual(["S1", "S2"]);
    expect(mean.constituents[1].amplitude.unit).toBe("hPa");
    expectClose(mean.constituents[1].amplitude.value, 1.1, { absolute: 0.01 });
    expectClose(mean.constituents[1].maximumAt!.value, 2.4, { absolute: 0.02 });
    expect([mean, mean.constituents].every((o) => Object.isFrozen(o))).toBe(true);
  });

  it("adds the same month of several years, in the order of the calendar", () => {
    const s = hourly(400);
    const months = monthsOf(s);
    expect(months.map((m) => m.month)).toEqual([1, 2, 3, 4, 5, 6, 7, 8, 9, 10, 11, 12]);
    // March of both years, and four days of April in the second.
    expect(months.slice(0, 4).map((m) => m.days)).toEqual([31, 28, 62, 34]);
    expect(months[2].constituents[1].amplitude.standardError).toBeLessThan(0.8 * months[4].constituents[1].amplitude.standardError);
  });

  it("leaves out what a month cannot tell: lines within 1/20 of a cycle a day of an earlier one", () => {
    const lines = ["S1", "S2", "L2", "K1", "P1", "O1", "N2", "T2", "R2", "K2"];
    expect(monthsOf(hourly(31), { lines })[0].constituents.map((c) => c.name)).toEqual(["S1", "S2", "L2", "O1"]);
    expect(monthsOf(hourly(31), { lines: ["S1", "S2"], reported: ["S2"] })[0].constituents.map((c) => c.name)).toEqual(["S2"]);
  });

  it("a jump splits the month it stands in, and no other", () => {
    const s = hourly(61);
    for (const at of [10.5 * 86_400, 45.5 * 86_400]) expect(monthsOf(s, { jumps: [at] }).map((m) => [m.month, m.days])).toEqual([[3, 31], [4, 30]]);
    // The jump of March is no edge of April: its tide is what it is without it.
    expect(monthsOf(s, { jumps: [10.5 * 86_400] })[1]).toEqual(monthsOf(s)[1]);
  });

  it("a jump splits its month: each part has its own level, and a part too short for a tide is left out with its days", () => {
    const at = 14.5 * 86_400;
    const s = changed(hourly(31), { values: (v, i) => v + (3600 * i >= at ? 60 : 0) });
    const [month] = monthsOf(s, { jumps: [-86_400, at, 31 * 86_400] });
    expect(month.days).toBe(31);
    expectClose(month.constituents[1].amplitude.value, 1.1, { absolute: 0.01 });
    expect(monthsOf(s)[0].constituents[1].amplitude.standardError).toBeGreaterThan(10 * month.constituents[1].amplitude.standardError);
    expect(monthsOf(hourly(31), { jumps: [29 * 86_400] })[0].days).toBe(29);
  });

  it("readings of 20 minutes: a month counts the days it was observed, to a hundredth", () => {
    const s = tideRecord({ days: 31, stepMinutes: 20, noise: quiet, lines: [s2], seed: 5, start });
    const thinned = series({ times: Array.from(s.seconds, (t) => s.start + 1000 * t), values: Array.from(s.values, (v, i) => (i > 100 && i < 200 ? Number.NaN : v)), quantity: s.quantity });
    expect(monthsOf(thinned)[0].days).toBe(29.63); // 2133 of 2232 readings, 72 a day
  });
});
