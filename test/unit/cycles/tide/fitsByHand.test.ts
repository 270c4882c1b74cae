import { describe, expect, it } from "vitest";
import type { NoiseTheta } from "../../../../lib/cycles/tide/bandedNoise.js";
import { constituentOf, lineCoefficients, noiseDensity } from "../../../../lib/cycles/tide/constituentOf.js";
import { dailyCycle } from "../../../../lib/cycles/tide/dailyCycle.js";
import { pairsOf } from "../../../../lib/cycles/tide/fittedLines.js";
import { fitAtNoise, fittedNoise } from "../../../../lib/cycles/tide/fittedNoise.js";
import { fitTides } from "../../../../lib/cycles/tide/fitTides.js";
import { fusedPass } from "../../../../lib/cycles/tide/fusedPass.js";
import { lineNoise } from "../../../../lib/cycles/tide/lineNoise.js";
import { tideLines } from "../../../../lib/cycles/tide/lineTable.js";
import { noiseSearch } from "../../../../lib/cycles/tide/noiseSearch.js";
import { stretch, tideChunk } from "../../../../lib/cycles/tide/tideChunk.js";
import type { TideFit } from "../../../../lib/cycles/tide/tideFit.js";
import { noiseOf } from "../../../../lib/cycles/tide/tideOfSeries.js";
import { tideRows } from "../../../../lib/cycles/tide/tideRows.js";
import { tideSteps } from "../../../../lib/cycles/tide/tideSteps.js";
import { usableReadings } from "../../../../lib/cycles/tide/usableReadings.js";
import { RecordError } from "../../../../lib/ground/complaint.js";
import { series, type Series } from "../../../../lib/record/series.js";
import { expectClose } from "../../../close.js";
import { denseFit } from "../../../denseTide.js";
import { changed, tideRecord } from "../../../tideRecord.js";

const start = Date.UTC(2024, 2, 1);
const noise = { name: "both", white: 0.2, ar1: { sd: 3, efolding: 1 } };
const lines = [{ cyclesPerDay: 2, amplitude: 1.1, crest: 2.4 }];
const record = (days: number, stepMinutes = 60, missing = 0.1, at = start + 2 * 3_600_000): Series => tideRecord({ days, stepMinutes, noise, lines, seed: 5, missing, start: at });
const thetaOf = ({ noise: n }: TideFit): NoiseTheta => [Math.log(n.whiteRatio), Math.log(n.slowRate), Math.log(n.fastRate)];
const ofDay = tideLines.slice(0, 4);

describe("a fit of five days beside the covariance written out", () => {
  it("coefficients, their variances, noise, mean; what went into it", () => {
    const s = record(5);
    const fit = fitTides(s, { longitude: 30 });
    const steps = tideSteps(usableReadings(s));
    const rows = tideRows(steps, pairsOf(ofDay, steps.midnight, 0), "bridged");
    const dense = denseFit(rows, thetaOf(fit));
    expectClose(fit.noise.sigma ** 2, dense.sigma2, { relative: 1e-8 });
    const beside = lineNoise(dense.ratioAt, [1, 2, 3, 4], [1, 2, 3, 4], rows.days);
    expect(fit.coefficients.map((c) => c.name)).toEqual(["S1", "S2", "S3", "S4"]);
    fit.coefficients.forEach((c, k) => {
      const [a, b] = [2 + 2 * k, 3 + 2 * k];
      expectClose(c.cosine, dense.beta[a], { absolute: 1e-8 }, c.name);
      expectClose(c.sine, dense.beta[b], { absolute: 1e-8 }, c.name);
      const scale = dense.sigma2 * beside[k].ratio;
      expectClose(c.varianceOfCosine, scale * dense.inverseA[a][a], { relative: 1e-6 });
      expectClose(c.varianceOfSine, scale * dense.inverseA[b][b], { relative: 1e-6 });
      expectClose(c.covariance, scale * dense.inverseA[a][b], { absolute: 1e-6 * scale * dense.inverseA[a][a] });
      expectClose(c.noiseRatio, beside[k].ratio, { relative: 1e-6 });
      const told = fit.constituents[k];
      if (k === 3) expect(told).toBe(undefined);
      else expect(told).toEqual(constituentOf(ofDay[k], c, noiseDensity(ofDay[k], thetaOf(fit), c.noiseRatio * fit.noise.sigma ** 2), 30, "hPa"));
    });
    expectClose(fit.mean, rows.level + dense.beta[0], { absolute: 1e-8 });
    const there = [...s.values].filter((v) => !Number.isNaN(v)).length;
    expect(fit).toMatchObject({ place: s.place, quantity: "surface_air_pressure", unit: "hPa", longitude: 30, means: "hourly", from: start + 2 * 3_600_000, to: start + 122 * 3_600_000, days: 5, hours: there, readings: there, leftOut: 120 - there, averagedOver: 0, epoch: Date.UTC(2000, 0, 1), climatology: [], jumps: [] });
    expectClose(fit.coverage, there / 120, { absolute: 1e-12 });
    expect(fit.method).toMatch(/^Generalized least squares .* beside each line\.$/);
    expect([fit.seasonal.changes, fit.seasonal.pValue]).toEqual([null, null]);
    expect([fit, fit.constituents, fit.coefficients, fit.noise, fit.climatology, fit.jumps, fit.warnings].map(Object.isFrozen).slice(1)).toEqual(new Array(6).fill(true));
    expect(fit.warnings).toEqual([
      "Only 5.0 days: the intervals are wide and less well tried; 20 days or more are better.",
      "This is the mean tide of these 5 days; the place's own may differ from it with the season, by more than the interval (S3 most). Ten months tell.",
    ]);
  });

  it("an event splits it: two means and slopes, the record's mean over its hours; the change has no size", () => {
    const at = start + 4 * 86_400_000;
    const s = changed(record(8), { values: (v, i) => (i >= 94 ? v + 7 : v) });
    const fit = fitTides(s, { longitude: 0, events: [at] });
    // It stands midway between the readings that differ.
    expect(fit.jumps).toEqual([{ at: at - 1_800_000, size: null }]);
    expect(Object.isFrozen(fit.jumps[0])).toBe(true);
    expect(fit.warnings).toContain("The level may have changed at 2024-03-04T23:30Z: each part was given its own mean and slope.");
    const steps = tideSteps(usableReadings(s));
    const rows = tideRows(steps, pairsOf(ofDay, steps.midnight, 0), "bridged", [4 * 86_400 - 1800]);
    const dense = denseFit(rows, thetaOf(fit));
    expectClose(fit.coefficients[1].cosine, dense.beta[rows.smooth + 2], { absolute: 1e-7 });
    let [sum, count] = [0, 0];
    for (let i = 0; i < rows.hours; i++) {
      if (rows.weights[i] === 0) continue;
      count++;
      // The levels of both parts, without their slopes.
      for (const k of [0, 2]) sum += rows.table[k * rows.hours + i] * dense.beta[k];
    }
    expectClose(fit.mean, rows.level + sum / count, { absolute: 1e-6 });
  });

  it("readings every twenty minutes: bridged hours, or plain ones where white noise rules; months where they are asked for or the record is long", () => {
    const fine = fitTides(record(5, 20), { longitude: 0, lines: ["S4"] });
    expect([fine.means, fine.constituents.map((c) => c.name).join()]).toEqual(["bridged", "S1,S2,S3,S4"]);
    expect(fitTides(record(16), { longitude: 0, climatology: true }).climatology.map((m) => m.month)).toEqual([3]);
    const rough = fitTides(tideRecord({ days: 5, stepMinutes: 20, noise: { name: "white", white: 5 }, lines, seed: 5, missing: 0.1, start }), { longitude: 0 });
    expect(rough.means).toBe("plain");
    expect(rough.noise.whiteShare).toBeGreaterThan(0.5);
    expect(fitTides(record(61), { longitude: 0, climatology: false }).climatology).toEqual([]);
  });

  it("what it was made of stands in its warnings and its dates; a day has no more of it than a day", () => {
    const fit = dailyCycle({ ...changed(record(5, 60, 0), { values: (v) => v - 985 }), quantity: "air_temperature", unit: "degC" }, { longitude: 0, averagedOver: 600 });
    expect([fit.unit, fit.coverage, fit.averagedOver, fit.leftOut]).toEqual(["K", 1, 600, 0]);
    expect(fit.warnings[0]).toBe("The daily course of this quantity is not a sine: its lines describe the mean day together; take the hours of highest and lowest from the mean day.");
    expect(dailyCycle({ ...record(5), quantity: "relative_humidity", unit: "%" }, { longitude: 0 }).unit).toBe("%");
  });
});

describe("what no fit can carry", () => {
  const caught = (call: () => unknown): unknown => {
    try {
      call();
    } catch (error) {
      return error;
    }
    return undefined;
  };

  it("fewer hours than unknowns and eight, and readings that never change", () => {
    const only = (hours: number, days: number): Series => {
      const times = Array.from({ length: 24 * days }, (_v, i) => start + i * 3_600_000).filter((t) => new Date(t).getUTCHours() < hours);
      return series({ times, values: times.map((_t, i) => 1000 + Math.sin(i * i)), quantity: "surface_air_pressure" });
    };
    const few = caught(() => fitTides(only(4, 4), { longitude: 0 }));
    expect(few).toBeInstanceOf(RecordError);
    expect((few as RecordError).kind).toBe("data");
    expect((few as RecordError).message).toBe("fitTides: series must carry the lines asked for (got 16 hours with readings for 10 unknowns); log longer");
    // Three-hourly readings carry S1 to S3: eight unknowns, so sixteen hours.
    const some = (count: number): Series => {
      const times = Array.from({ length: 24 }, (_v, i) => start + i * 10_800_000).filter((_t, i) => i < 12 || i >= 36 - count);
      return series({ times, values: times.map((_t, i) => 1000 + Math.sin(i * i)), quantity: "surface_air_pressure" });
    };
    expect(fitTides(some(16), { longitude: 0 }).hours).toBe(16);
    expect((caught(() => fitTides(some(15), { longitude: 0 })) as RecordError).message).toBe("fitTides: series must carry the lines asked for (got 15 hours with readings for 8 unknowns); log longer");
    // Six hours of the day, however many days: the lines cannot be told from each other there.
    const part = caught(() => fitTides(only(6, 8), { longitude: 0 }));
    expect((part as RecordError).message).toBe("fitTides: series must carry the lines asked for (got 48 hours with readings that cannot tell the lines apart); log at all hours of the day");
    const still = caught(() => dailyCycle({ ...changed(record(4, 60, 0), { values: () => 7 }), quantity: "air_temperature" }, { longitude: 0 }));
    expect((still as RecordError).message).toBe("dailyCycle: series must carry the lines asked for (got readings that never change); log longer");
  });

  it("another quantity than pressure", () => {
    expect(() => fitTides({ ...record(4), quantity: "air_temperature" }, { longitude: 0 })).toThrow(new TypeError('fitTides: series must hold pressure (got "air_temperature"); use dailyCycle for other quantities'));
    expect(fitTides({ ...record(4), quantity: "air_pressure_at_mean_sea_level" }, { longitude: 0 }).warnings.some((w) => w.startsWith("This is sea-level pressure"))).toBe(true);
  });
});

describe("the noise that is found", () => {
  it("in numbers: e to the three searched, σ, the white share at 3 cpd", () => {
    const got = noiseOf([Math.log(4 / 9), -30, 30], 2.25);
    expectClose(got.whiteRatio, 4 / 9, { relative: 1e-12 });
    expectClose(got.slowRate, Math.exp(-30), { relative: 1e-12 });
    expectClose(got.fastRate, Math.exp(30), { relative: 1e-12 });
    expectClose(got.whiteShare, 0.5, { absolute: 1e-12 });
    expect([got.sigma, Object.isFrozen(got)]).toEqual([1.5, true]);
  });

  it("a short record is searched by itself", () => {
    const pairs = (steps: { midnight: number }) => pairsOf(tideLines.slice(1, 2), steps.midnight, 0);
    const short = tideSteps(usableReadings(record(5)));
    const rows = tideRows(short, pairs(short), "bridged");
    expect(fittedNoise(short, pairs(short), []).theta).toEqual(noiseSearch(fusedPass(rows).evaluate).theta);
    const at = fitAtNoise(short, pairs(short), [], "bridged", [0, 0.1, 2]);
    const dense = denseFit(rows, [0, 0.1, 2]);
    expect([at.theta, at.kind]).toEqual([[0, 0.1, 2], "bridged"]);
    expectClose(at.sigma2, dense.sigma2, { relative: 1e-8 });
    expectClose(at.ratioAt(1.3), dense.ratioAt(1.3), { relative: 1e-6 });
    expectClose(at.inverse[2 * rows.columns + 3], dense.inverseA[2][3], { absolute: 1e-9 * dense.inverseA[2][2] });
    const got = lineCoefficients(tideLines[1], at.beta[2], at.beta[3], [at.inverse[10], at.inverse[15], at.inverse[11]], at.sigma2, { ratio: 1, count: 10 });
    expectClose(got.varianceOfCosine, dense.sigma2 * dense.inverseA[2][2], { relative: 1e-6 });
  });
});

describe("stretches by hand", () => {
  it("readings from an instant up to another, counted from the midnight before the first", () => {
    const readings = { midnight: start, seconds: Float64Array.of(80_000, 90_000, 100_000, 180_000, 200_000), values: Float64Array.of(1, 2, 3, 4, 5), leftOut: 3, spacing: 600 };
    const cut = (from: number, to: number) => {
      const { midnight, seconds, values, leftOut, spacing } = stretch(readings, from, to);
      return [(midnight - start) / 1000, [...seconds], [...values], leftOut, spacing];
    };
    expect(cut(90_000, 180_000)).toEqual([86_400, [3600, 13_600], [2, 3], 0, 600]);
    expect(cut(90_001, 180_001)).toEqual([86_400, [13_600, 93_600], [3, 4], 0, 600]);
    expect(cut(0, 1e9)).toEqual([0, [80_000, 90_000, 100_000, 180_000, 200_000], [1, 2, 3, 4, 5], 0, 600]);
    expect([cut(110_000, 120_000), cut(300_000, 400_000)]).toEqual([[0, [], [], 0, 600], [0, [], [], 0, 600]]);
  });

  it("a chunk begins at its first hour and carries the noise beside each line; three days and twenty hours more than unknowns", () => {
    const theta: NoiseTheta = [0, 0.1, 2];
    const of = (s: Series) => tideChunk(usableReadings(s), ofDay, 0, "bridged", theta);
    const s = record(5);
    const got = of(s)!;
    const steps = tideSteps(usableReadings(s));
    const fit = fitAtNoise(steps, pairsOf(ofDay, steps.midnight, 0), [], "bridged", theta);
    const beside = lineNoise(fit.ratioAt, [1, 2, 3, 4], [1, 2, 3, 4], fit.rows.days);
    expect([got.from, got.to, got.hours]).toEqual([start + 2 * 3_600_000, start + 122 * 3_600_000, fit.rows.kept]);
    got.beside.forEach(({ sum, count }, k) => {
      expectClose(sum, beside[k].ratio * beside[k].count * fit.sigma2, { relative: 1e-9 });
      expect(count).toBe(beside[k].count);
    });
    expect([of(record(3, 60, 0)) === null, of(record(2, 60, 0)), of(changed(record(5, 60, 0), { values: () => 7 }))]).toEqual([false, null, null]);
    // Ten unknowns: thirty hours spread over five days are enough, twenty-nine are not.
    const some = (count: number): Series => changed(record(5, 60, 0), { values: (v, i) => ((7 * i) % 120 < count || i === 0 || i === 119 ? v : Number.NaN) });
    const hours = (count: number): number => [...some(count).values].filter((v) => !Number.isNaN(v)).length;
    const least = Array.from({ length: 40 }, (_v, i) => i).find((count) => of(some(count)) !== null)!;
    expect([hours(least), hours(least - 1)]).toEqual([30, 29]);
    expect(tideChunk(usableReadings(series({ times: [], values: [], quantity: "surface_air_pressure" })), ofDay, 0, "bridged", theta)).toBe(null);
  });
});
