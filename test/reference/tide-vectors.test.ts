import { readdirSync, readFileSync } from "node:fs";
import { describe, expect, it } from "vitest";
import { precisionWeights, whiteShare } from "../../lib/cycles/tide/bandedNoise.js";
import { besideLines } from "../../lib/cycles/tide/besideLines.js";
import { fitTides } from "../../lib/cycles/tide/fitTides.js";
import { fusedPass } from "../../lib/cycles/tide/fusedPass.js";
import { lineInterval } from "../../lib/cycles/tide/lineInterval.js";
import { lineNoise } from "../../lib/cycles/tide/lineNoise.js";
import { noiseSearch } from "../../lib/cycles/tide/noiseSearch.js";
import { isUneven } from "../../lib/cycles/tide/unevenInterval.js";
import { detectionAmplitude, riceCdf, riceInterval } from "../../lib/cycles/tide/riceLaw.js";
import { inverseOf } from "../../lib/cycles/tide/smallCholesky.js";
import { tideRows } from "../../lib/cycles/tide/tideRows.js";
import { tideSteps } from "../../lib/cycles/tide/tideSteps.js";
import { usableReadings } from "../../lib/cycles/tide/usableReadings.js";
import { series, type Series } from "../../lib/record/series.js";
import { expectClose } from "../close.js";

// Invented, seeded records and what the method gives for them, written by two other implementations: the C and Python with
// which the method was chosen (numpy 1.24, scipy 1.10) and one in JavaScript (Node 20.20.2), which agree to 1e-10.

interface Line {
  name: string; cyclesPerDay: number; phi: number; nu: number; amplitude: number; standardErrorMean: number; standardErrorRadial: number;
  standardErrorTangential: number; low: number; high: number; detected: boolean; detectionLimit: number; maximumAt: number; halfWidthHours: number;
}
interface Fixed {
  keptHours: number; sumOfWeights: number; theta: [number, number, number]; minusTwoReml: number; sigma2: number; beta: number[]; inverseA: number[][]; lines: Line[];
}
interface Vector {
  name: string; start: string; stepMinutes: number; longitude: number; hours: number; spanDays: number; values: (number | null)[];
  fixed: Record<string, Fixed>;
  optimum: { means: string; whiteShareOfFirstFit: number; evaluations: number; objective: number; bestObjective: number; theta: number[]; beta: number[]; lines: Line[] };
}

const folder = new URL("./vectors/", import.meta.url);
const vectors = readdirSync(folder)
  .filter((f) => /^tide-.*(hourly|10min)\.json$/.test(f))
  .map((f) => JSON.parse(readFileSync(new URL(f, folder), "utf8")) as Vector);
const recordOf = (v: Vector): Series =>
  series({ times: v.values.map((_, i) => Date.parse(v.start) + i * v.stepMinutes * 60_000), values: v.values, quantity: "surface_air_pressure" });
const pairs = [1, 2, 3, 4].map((cyclesPerDay) => ({ cyclesPerDay, turn: 0, damping: 1 }));
const frequencies = [1, 2, 3, 4];

it("all eight records are here", () => expect(vectors.length).toBe(8));

describe.each(vectors)("$name", (vector) => {
  const steps = tideSteps(usableReadings(recordOf(vector)));

  for (const [kind, fixed] of Object.entries(vector.fixed)) {
    it(`at the stated noise, ${kind} means: 1e-8, intervals 1e-6`, () => {
      const rows = tideRows(steps, pairs, kind === "plain" ? "plain" : "bridged");
      const pass = fusedPass(rows);
      const reml = pass.evaluate(fixed.theta);
      const { state } = pass;
      expect([rows.hours, rows.kept]).toEqual([vector.hours, fixed.keptHours]);
      expectClose(rows.weights.reduce((a, b) => a + b, 0), fixed.sumOfWeights, { relative: 1e-11 }, "sum of weights");
      expectClose(reml, fixed.minusTwoReml, { relative: 1e-8 }, "−2 REML");
      expectClose(state.sigma2, fixed.sigma2, { relative: 1e-8 }, "σ²");
      for (const [k, b] of fixed.beta.entries()) expectClose(state.beta[k] + (k === 0 ? rows.level : 0), b, { absolute: 1e-8 * Math.max(...fixed.beta.slice(1).map(Math.abs)) }, `β ${k}`);
      const inverse = inverseOf(state.factor, 10);
      for (let i = 0; i < 10; i++) {
        for (let j = 0; j < 10; j++) {
          expectClose(inverse[10 * i + j], fixed.inverseA[i][j], { absolute: 1e-8 * Math.sqrt(fixed.inverseA[i][i] * fixed.inverseA[j][j]) }, `A⁻¹ ${i} ${j}`);
        }
      }
      const [lnRho, lnLambda, lnMu] = fixed.theta;
      const ratioAt = besideLines(rows, state, lnRho, precisionWeights(Math.exp(lnLambda), Math.exp(lnMu)));
      const noise = lineNoise(ratioAt, frequencies, frequencies, rows.days);
      fixed.lines.forEach((line, k) => {
        const a = 2 + 2 * k;
        const scale = noise[k].ratio * state.sigma2;
        expectClose(noise[k].ratio, line.phi, { relative: 1e-8 }, `φ of ${line.name}`);
        expect(2 * noise[k].count).toBe(line.nu);
        const got = lineInterval({
          cosine: state.beta[a],
          sine: state.beta[a + 1],
          varianceOfCosine: scale * inverse[11 * a],
          varianceOfSine: scale * inverse[11 * (a + 1)],
          covariance: scale * inverse[10 * a + a + 1],
          degreesOfFreedom: line.nu,
        });
        expect(got.detected).toBe(line.detected);
        const s0 = line.standardErrorMean;
        for (const [value, wanted, bound] of [
          [got.amplitude, line.amplitude, 1e-8 * s0], [got.errorMean, s0, 1e-8 * s0], [got.errorAlong, line.standardErrorRadial, 1e-8 * s0],
          [got.errorAcross, line.standardErrorTangential, 1e-8 * s0], [got.low, line.low, 1e-6 * s0], [got.high, line.high, 1e-6 * s0],
          [got.detectionLimit, line.detectionLimit, 1e-6 * s0], [(got.phaseAfter * 12) / Math.PI / line.cyclesPerDay, line.halfWidthHours, 1e-6],
        ]) {
          expectClose(value, wanted, { absolute: bound }, line.name);
        }
      });
    });
  }

  it("the search ends where the other implementation's did", () => {
    const search = (kind: "bridged" | "plain"): ReturnType<typeof noiseSearch> => noiseSearch(fusedPass(tideRows(steps, pairs, kind)).evaluate);
    let found = search("bridged");
    expectClose(whiteShare(found.theta), vector.optimum.whiteShareOfFirstFit, { absolute: 1e-8 }, "white share");
    if (vector.optimum.means === "plain") found = search("plain");
    expectClose(found.objective, vector.optimum.objective, { absolute: 1e-6 }, "objective");
    expect(found.objective).toBeLessThan(vector.optimum.bestObjective + 0.05);
    expect(found.objective).toBeGreaterThan(vector.optimum.bestObjective - 0.01); // nothing can be better than the best
    expect(found.evaluations).toBe(vector.optimum.evaluations);
  });

  it("fitTides gives the same lines", () => {
    const fit = fitTides(recordOf(vector), { longitude: vector.longitude, lines: ["S4"] });
    expect(fit.means).toBe(vector.optimum.means);
    expectClose(fit.days, vector.hours / 24, { absolute: 1e-12 });
    expectClose(fit.mean, vector.optimum.beta[0], { absolute: 0.002 }, "mean"); // a thousandth of its own error
    vector.optimum.lines.forEach((line, k) => {
      const { amplitude, maximumAt, detected, detectionLimit } = fit.constituents[k];
      const s0 = line.standardErrorMean;
      expect(fit.constituents[k].name).toBe(line.name);
      if (line.name !== "S1" || vector.name !== "tide-ar1-10min") expect(detected).toBe(line.detected);
      expectClose(amplitude.value, line.amplitude, { absolute: 0.02 * s0 }, line.name);
      expectClose(amplitude.low, line.low, { absolute: 0.02 * s0 }, line.name);
      expectClose(amplitude.high, line.high, { absolute: 0.02 * s0 }, line.name);
      expectClose(detectionLimit, line.detectionLimit, { relative: 0.005 }, line.name);
      if (maximumAt === null) return;
      expectClose(maximumAt.value, line.maximumAt, { absolute: 0.001 }, `${line.name} maximum`);
      expectClose(maximumAt.high - maximumAt.low, 2 * line.halfWidthHours, { relative: 0.01 }, `${line.name} width`);
    });
  });
});

describe("tide-intervals", () => {
  interface Case { a: number; b: number; covariance: number[][]; nu: number; cyclesPerDay: number; longitude: number; amplitude: number; low: number; high: number; detected: boolean; detectionLimit: number; maximumAt: number; halfWidthHours: number }
  const file = JSON.parse(readFileSync(new URL("tide-intervals.json", folder), "utf8")) as {
    riceCdf: { rows: number[][] }; inversion: { rows: number[][] }; detectionMu: number; cases: Case[];
  };

  it("Rice law: 1e-9", () => {
    for (const [x, mu, p] of file.riceCdf.rows) expectClose(riceCdf(x, mu), p, { absolute: 1e-12, relative: 1e-9 }, `${x}, ${mu}`);
  });

  it("its inversion: 1e-9", () => {
    for (const [r, low, high] of file.inversion.rows) {
      const got = riceInterval(r);
      expectClose(got.low, low, { absolute: 1e-9 }, `low at ${r}`);
      expectClose(got.high, high, { absolute: 1e-9 }, `high at ${r}`);
    }
    expectClose(detectionAmplitude(), file.detectionMu, { absolute: 1e-9 });
  });

  it("20 whole cases of round errors: 1e-6; the 16 with uneven errors have a law of their own (unit test of unevenInterval)", () => {
    expect(file.cases.length).toBe(36);
    let round = 0;
    for (const c of file.cases) {
      const [[varianceOfCosine, covariance], [, varianceOfSine]] = c.covariance;
      if (isUneven({ cosine: c.a, sine: c.b, varianceOfCosine, varianceOfSine, covariance })) continue;
      round++;
      const got = lineInterval({ cosine: c.a, sine: c.b, varianceOfCosine, varianceOfSine, covariance, degreesOfFreedom: c.nu });
      const what = JSON.stringify(c);
      const hours = 12 / Math.PI / c.cyclesPerDay;
      const period = 24 / c.cyclesPerDay;
      const turn = (got.phase * hours + c.longitude / 15 - c.maximumAt) / period;
      expect(got.detected, what).toBe(c.detected);
      expectClose(got.amplitude, c.amplitude, { absolute: 1e-9 }, what);
      expectClose(got.low, c.low, { absolute: 1e-6 * got.errorMean }, what);
      expectClose(got.high, c.high, { absolute: 1e-6 * got.errorMean }, what);
      expectClose(got.detectionLimit, c.detectionLimit, { relative: 1e-6 }, what);
      expectClose(turn - Math.round(turn), 0, { absolute: 1e-9 }, what);
      expectClose(got.phaseAfter * hours, c.halfWidthHours, { absolute: 1e-6 }, what);
    }
    expect(round).toBe(20);
  });
});
