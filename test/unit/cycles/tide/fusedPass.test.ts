import { describe, expect, it } from "vitest";
import { type NoiseTheta, precisionWeights, weatherDensity, whiteShare } from "../../../../lib/cycles/tide/bandedNoise.js";
import { besideLines } from "../../../../lib/cycles/tide/besideLines.js";
import { fusedPass } from "../../../../lib/cycles/tide/fusedPass.js";
import { factorInPlace, inverseOf, solveInPlace } from "../../../../lib/cycles/tide/smallCholesky.js";
import { type TidePair, tideRows } from "../../../../lib/cycles/tide/tideRows.js";
import { tideSteps } from "../../../../lib/cycles/tide/tideSteps.js";
import { usableReadings } from "../../../../lib/cycles/tide/usableReadings.js";
import { expectClose } from "../../../close.js";
import { denseFit } from "../../../denseTide.js";
import { tideRecord } from "../../../tideRecord.js";

const pairs: TidePair[] = [1, 2, 3, 1.932].map((cyclesPerDay) => ({ cyclesPerDay, turn: 0.1 * (cyclesPerDay % 1), damping: 1 }));
const noise = { name: "both", white: 0.3, ar1: { sd: 3, efolding: 1 } };
const lines = [{ cyclesPerDay: 2, amplitude: 1, crest: 9 }];
const thetas: NoiseTheta[] = [[-3, -1, 3], [2, 1, 0.3], [-6, -3, 4.5], [0, 0.8, 2]];

describe("fusedPass and besideLines against covariances written out", () => {
  for (const [what, stepMinutes, kind, breaks] of [
    ["hourly with gaps", 60, "bridged", []],
    ["20 minutes, bridged", 20, "bridged", []],
    ["20 minutes, plain", 20, "plain", []],
    ["a jump after three days", 60, "bridged", [2.7 * 86_400]],
  ] as const) {
    it(`${what}: 1e-8`, () => {
      const steps = tideSteps(usableReadings(tideRecord({ days: 5, stepMinutes, noise, lines, seed: 4, missing: stepMinutes === 60 ? 0.2 : 0.3, start: Date.UTC(2024, 2, 1, 3, 10) })));
      const rows = tideRows(steps, pairs, kind, breaks);
      const pass = fusedPass(rows);
      expect(rows.kept).toBeLessThan(rows.hours);
      // Enough is lost that hours are missing, and not so much that the readings pass for hourly ones: hours with a part of their weight.
      expect(steps.perHour).toBe(60 / stepMinutes);
      expect(rows.weights.some((w) => w > 0 && w < 1)).toBe(stepMinutes < 60);
      for (const theta of thetas) {
        const dense = denseFit(rows, theta);
        const reml = pass.evaluate(theta);
        expectClose(reml, dense.minusTwoReml, { absolute: 1e-8, relative: 1e-8 }, "−2 REML");
        expectClose(pass.state.sigma2, dense.sigma2, { relative: 1e-8 }, "σ²");
        const inverse = inverseOf(pass.state.factor, rows.columns);
        for (const [i, row] of dense.inverseA.entries()) {
          const error = Math.sqrt(dense.inverseA[i][i]);
          expectClose(pass.state.beta[i], dense.beta[i], { absolute: 1e-8 * Math.sqrt(dense.sigma2) * error, relative: 1e-8 }, `β ${i}`);
          for (const [j, v] of row.entries()) expectClose(inverse[i * rows.columns + j], v, { absolute: 1e-8 * error * Math.sqrt(dense.inverseA[j][j]) }, `A⁻¹ ${i} ${j}`);
        }
        const ratioAt = besideLines(rows, pass.state, theta[0], precisionWeights(Math.exp(theta[1]), Math.exp(theta[2])));
        for (const f of [0.7, 1.4, 2.31, 3.6]) expectClose(ratioAt(f), dense.ratioAt(f), { relative: 1e-7 }, `ratio at ${f}`); // V is a difference of larger numbers
      }
    });
  }

  it("a matrix that is not positive definite is NaN, not an answer", () => {
    const steps = tideSteps(usableReadings(tideRecord({ days: 4, stepMinutes: 60, noise, lines, seed: 4 })));
    const twice = tideRows(steps, [pairs[0], pairs[0]], "bridged");
    expect(fusedPass(twice).evaluate([0, 0, 2])).toBeNaN();
    expect(fusedPass(tideRows(steps, [pairs[0]], "bridged")).evaluate([0, 0, 2])).not.toBeNaN();
    // Columns alike to nine digits, at a noise whose large differences hide it by rounding.
    const month = tideSteps(usableReadings(tideRecord({ days: 20, stepMinutes: 60, noise, lines: [], seed: 4 })));
    const alike = [2, 2 * (1 + 1e-9)].map((cyclesPerDay) => ({ cyclesPerDay, turn: 0.1, damping: 1 }));
    expect(fusedPass(tideRows(month, alike, "bridged")).evaluate([-20, -8, 9])).toBeNaN();
  });
});

describe("the small Cholesky factor", () => {
  it("solves, inverts and gives ln of the determinant", () => {
    const matrix = Float64Array.of(4, 0, 2, 3); // lower half of [[4, 2], [2, 3]]
    expectClose(factorInPlace(matrix, 2), Math.log(8), { absolute: 1e-14 });
    const x = Float64Array.of(8, 7);
    solveInPlace(matrix, 2, x);
    for (const [k, v] of [1.25, 1.5].entries()) expectClose(x[k], v, { absolute: 1e-14 });
    for (const [k, v] of [0.375, -0.25, -0.25, 0.5].entries()) expectClose(inverseOf(matrix, 2)[k], v, { absolute: 1e-15 });
  });
  it("refuses columns that are alike to eleven digits, whatever their size", () => {
    expect(factorInPlace(Float64Array.of(1, 0, 1, 1 + 1e-13), 2)).toBeNaN();
    expect(factorInPlace(Float64Array.of(1e-20, 0, 0, 1e20), 2)).not.toBeNaN();
    expect(factorInPlace(Float64Array.of(1, 0, 2, 1), 2)).toBeNaN();
  });
});

describe("the noise model", () => {
  it("is scaled to 1 at 2 cpd and falls as the fourth power when both rates are slow", () => {
    expectClose(weatherDensity(2, 0.5, 3), 1, { relative: 0.05 }, "differences see a rate (sin x / x) = 0.989 times as fast, to the fourth power at most");
    expectClose(weatherDensity(1, 0.01, 0.01) / weatherDensity(2, 0.01, 0.01), 16, { relative: 0.05 }, "two rates far below");
    expectClose(weatherDensity(1, 0.01, 1e6) / weatherDensity(2, 0.01, 1e6), 4, { relative: 0.05 }, "random walk");
  });

  it("white share is one half where both are alike at 3 cpd", () => {
    const ratio = (4 * Math.PI) ** 2 / (6 * Math.PI) ** 2;
    expectClose(whiteShare([Math.log(ratio), -5, 20]), 0.5, { absolute: 1e-5 });
    expect(whiteShare([9, 0, 2])).toBeGreaterThan(0.999);
    expect(whiteShare([-9, 0, 2])).toBeLessThan(0.001);
  });
});
