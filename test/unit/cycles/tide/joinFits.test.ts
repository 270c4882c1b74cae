import { beforeAll, describe, expect, it } from "vitest";
import { pairsOf } from "../../../../lib/cycles/tide/fittedLines.js";
import { fitTides } from "../../../../lib/cycles/tide/fitTides.js";
import { joinFits, tideSums, type TideSums } from "../../../../lib/cycles/tide/joinFits.js";
import { tideLines } from "../../../../lib/cycles/tide/lineTable.js";
import type { TideFit } from "../../../../lib/cycles/tide/tideFit.js";
import { tideRows } from "../../../../lib/cycles/tide/tideRows.js";
import { tideSteps } from "../../../../lib/cycles/tide/tideSteps.js";
import { usableReadings } from "../../../../lib/cycles/tide/usableReadings.js";
import { RecordError } from "../../../../lib/ground/complaint.js";
import { series, type Series } from "../../../../lib/record/series.js";
import { expectClose } from "../../../close.js";
import { denseJoined } from "../../../denseTide.js";
import { tideRecord } from "../../../tideRecord.js";

const lines = [{ cyclesPerDay: 1, amplitude: 0.6, crest: 1.5 }, { cyclesPerDay: 2, amplitude: 1.1, crest: 2.4 }];

/** Readings from day `from` up to day `to`. */
function days(s: Series, from: number, to: number): Series {
  const kept = Array.from(s.seconds, (t, i) => ({ t, i })).filter(({ t }) => t >= 86_400 * from && t < 86_400 * to);
  return series({ times: kept.map(({ t }) => s.start + 1000 * t), values: kept.map(({ i }) => s.values[i]), quantity: s.quantity });
}

describe("joinFits against one regression of the same stretches with its covariance written out", () => {
  for (const [what, stepMinutes, white, means] of [["hourly", 60, 0.2, "hourly"], ["20 minutes, bridged", 20, 0.2, "bridged"], ["20 minutes, plain", 20, 5, "plain"]] as const) {
    it(`${what}, saved as JSON in between: 1e-8`, () => {
      const s = tideRecord({ days: 24, stepMinutes, noise: { name: "both", white, ar1: { sd: 3, efolding: 1 } }, lines, seed: 31, missing: 0.1, start: Date.UTC(2024, 2, 1, 5) });
      const like = fitTides(s, { longitude: 20 });
      expect(like.means).toBe(means);
      // Stretches of unlike length that begin within a day, with a gap between the second and the third.
      const parts = [[0.2, 4], [4, 7.5], [9.1, 12.4]].map(([from, to]) => days(s, from, to));
      const joined = joinFits(parts.map((part) => JSON.parse(JSON.stringify(tideSums(part, like)))));
      const fitted = tideLines.filter((l) => ["S1", "S2", "S3", "S4"].includes(l.name));
      const rows = parts.map((part) => {
        const steps = tideSteps(usableReadings(part));
        return tideRows(steps, pairsOf(fitted, steps.midnight, 0), like.means === "plain" ? "plain" : "bridged");
      });
      const dense = denseJoined(rows, [Math.log(like.noise.whiteRatio), Math.log(like.noise.slowRate), Math.log(like.noise.fastRate)]);
      const sigma2 = joined.noise.sigma ** 2;
      for (const [k, c] of joined.coefficients.entries()) {
        const [a, b] = [2 * k, 2 * k + 1];
        const error = Math.sqrt(sigma2 * dense.inverse[a][a]);
        expectClose(c.cosine, dense.beta[a], { absolute: 1e-8 * error, relative: 1e-8 }, `${c.name} cosine`);
        expectClose(c.sine, dense.beta[b], { absolute: 1e-8 * error, relative: 1e-8 }, `${c.name} sine`);
        const scale = c.noiseRatio * sigma2;
        expectClose(c.varianceOfCosine, scale * dense.inverse[a][a], { relative: 1e-8 }, `${c.name} variance of cosine`);
        expectClose(c.varianceOfSine, scale * dense.inverse[b][b], { relative: 1e-8 }, `${c.name} variance of sine`);
        expectClose(c.covariance, scale * dense.inverse[a][b], { absolute: 1e-8 * scale * dense.inverse[a][a] }, `${c.name} covariance`);
      }
    });
  }
});

describe("sums of stretches and what is told of them joined", () => {
  const start = Date.UTC(2024, 2, 1);
  const day = 86_400_000;
  const s = tideRecord({ days: 24, stepMinutes: 60, noise: { name: "both", white: 0.2, ar1: { sd: 3, efolding: 1 } }, lines, seed: 32, missing: 0.1, start });
  let like: TideFit;
  let sums: TideSums[];
  beforeAll(() => {
    like = fitTides(s, { longitude: 20, averagedOver: 600, lines: ["L2"] });
    sums = [[0, 4], [4, 10], [12, 17]].map(([from, to]) => tideSums(days(s, from, to), like));
  });
  const withoutMoon = (sum: TideSums): TideSums => ({ ...sum, lines: sum.lines.slice(0, 4), reported: ["S1", "S2"], normal: sum.normal.filter((_, i) => i % 10 < 8 && i < 80), right: sum.right.slice(0, 8), beside: sum.beside.slice(0, 4) });

  it("sums keep what they were made with", () => {
    expect(sums[1]).toMatchObject({ kind: "tide-sums", version: 1, place: "here", quantity: "surface_air_pressure", unit: "hPa", longitude: 20, averagedOver: 600, means: "hourly", lines: ["S1", "S2", "S3", "S4", "L2"], reported: ["S1", "S2", "S3", "L2"], noise: like.noise, from: start + 4 * day, to: start + 10 * day, days: 6 });
    expect([sums[1].normal.length, sums[1].right.length, sums[1].beside.length]).toEqual([100, 10, 5]);
    expect([sums[1], sums[1].lines, sums[1].reported].every((o) => Object.isFrozen(o))).toBe(true);
    // An average over ten minutes makes S2 smaller by sin x / x, x = π · 2 · 600 / 86 400.
    const plain = tideSums(days(s, 4, 10), { ...like, averagedOver: 0 });
    expectClose(Math.sqrt(sums[1].normal[22] / plain.normal[22]), Math.sin(Math.PI / 72) / (Math.PI / 72), { absolute: 1e-12 });
  });

  it("says where it is from, how long, and what was assumed", () => {
    const joined = joinFits([sums[2], sums[0], sums[1]]);
    const hours = sums.map((x) => x.hours);
    const total = hours[0] + hours[1] + hours[2];
    expect(joined).toMatchObject({
      place: "here", quantity: "surface_air_pressure", unit: "hPa", longitude: 20, means: "hourly", from: start, to: start + 17 * day, days: 15, hours: total,
      readings: total, leftOut: 0, averagedOver: 600, epoch: Date.UTC(2000, 0, 1), climatology: [], jumps: [],
      method: "Sums of 3 stretches, each fitted by generalized least squares with its own mean and slope at the noise of an earlier fit.",
      seasonal: { changes: null, says: "Whether the tide changes with the season cannot be told from sums.", pValue: null, lines: [] },
      warnings: ["Joined from 3 stretches (15.0 days): one steady tide is assumed in all of them."],
    });
    expectClose(joined.coverage, total / (17 * 24), { absolute: 1e-12 });
    expectClose(joined.mean, sums.reduce((sum, x, k) => sum + x.level * hours[k], 0) / total, { absolute: 1e-9 });
    expectClose(joined.noise.sigma ** 2, (sums[0].sigma2 + sums[1].sigma2 + sums[2].sigma2) / 3, { relative: 1e-12 });
    expectClose(joined.noise.slowRate, like.noise.slowRate, { relative: 1e-12 });
    expect(joined.constituents.map((c) => c.name)).toEqual(["S1", "S2", "S3", "L2"]);
    expect(joined.coefficients.map((c) => c.name)).toEqual(["S1", "S2", "S3", "S4", "L2"]);
    for (const o of [joined, joined.constituents, joined.coefficients, joined.climatology, joined.seasonal, joined.seasonal.lines, joined.jumps, joined.warnings]) expect(Object.isFrozen(o)).toBe(true);
    expect((joined as unknown as Record<symbol, () => Record<string, string>>)[Symbol.for("Jupyter.display")]()["text/plain"]).toContain("S2");
    expect(joinFits([withoutMoon({ ...sums[0], hours: 200 })]).coverage).toBe(1);
  });

  it("stretches that meet may be joined; those that share an hour may not", () => {
    const moonless = sums.map(withoutMoon);
    expect(joinFits([moonless[1], moonless[0]]).days).toBe(10);
    expect(() => joinFits([moonless[2], moonless[1], { ...moonless[0], to: moonless[1].from + 1 }])).toThrow(
      new RecordError("joinFits: sums must not overlap in time (got two that share 2024-03-05T00:00:00.000Z); leave one out", "data"),
    );
    expect(() => joinFits(sums.slice(0, 2))).toThrow(new RecordError("joinFits: lines must be separable over the record (got S2 and L2 in 10.0 d, need 14.8 d (Rayleigh)); drop one or log longer", "data"));
  });

  it("what cannot be added is refused by name", () => {
    const [a, b] = sums;
    const refused = (other: unknown, says: string): void => expect(() => joinFits([a, other as TideSums])).toThrow(new RecordError(`joinFits: ${says}`, "data"));
    for (const other of [null, {}, { ...b, kind: "sums" }]) expect(() => joinFits([a, other as TideSums])).toThrow("joinFits: sums must be made by tideSums, version 1 (got ");
    refused({ ...b, version: 2 }, 'sums must be made by tideSums, version 1 (got "tide-sums")');
    refused({ ...b, place: "there" }, 'place must be "here" in all sums (got "there")');
    refused({ ...b, quantity: "air_temperature" }, 'quantity must be "surface_air_pressure" in all sums (got "air_temperature")');
    refused({ ...b, unit: "K" }, 'unit must be "hPa" in all sums (got "K")');
    refused({ ...b, longitude: 21 }, "longitude must be 20 in all sums (got 21)");
    refused(withoutMoon(b), "lines must be S1, S2, S3, S4, L2 in all sums (got S1, S2, S3, S4)");
    for (const wrong of [{ right: [1] }, { beside: [] }]) refused({ ...b, ...wrong }, "sums must have the size of their lines (got 100 numbers for 5 lines)");
    refused({ ...b, normal: [1] }, "sums must have the size of their lines (got 1 numbers for 5 lines)");
    expect(() => joinFits([{ ...a, lines: ["S1", "S2", "S3", "S4", "X"] }])).toThrow(new RecordError('joinFits: lines must be known (got "X")', "data"));
    expect(() => joinFits([])).toThrow(new RangeError("joinFits: sums must hold at least one stretch (got none)"));
    expect(() => tideSums({ ...s, unit: "K" }, like)).toThrow(new RangeError('tideSums: series must be in the fit\'s unit, hPa (got "K")'));
    const short = days(s, 0, 2);
    expect(() => tideSums(short, like)).toThrow(new RecordError(`tideSums: series must last at least 3 days with readings in most hours (got ${short.seconds.length} readings); take a longer stretch`, "data"));
    let kinds = "";
    for (const bad of [() => joinFits([a, {} as TideSums]), () => joinFits([a, { ...b, place: "x" }]), () => joinFits([a, withoutMoon(b)]), () => joinFits([{ ...a, right: [] }]), () => joinFits([a, a]), () => joinFits([{ ...a, lines: ["S1", "S2", "S3", "S4", "X"] }]), () => tideSums(short, like)]) {
      try {
        bad();
      } catch (error) {
        kinds += `${(error as RecordError).kind} `;
      }
    }
    expect(kinds).toBe("data ".repeat(7));
  });
});
