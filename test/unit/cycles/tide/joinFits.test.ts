import { describe, it } from "vitest";
import { pairsOf } from "../../../../lib/cycles/tide/fittedLines.js";
import { fitTides } from "../../../../lib/cycles/tide/fitTides.js";
import { joinFits, tideSums } from "../../../../lib/cycles/tide/joinFits.js";
import { tideLines } from "../../../../lib/cycles/tide/lineTable.js";
import { tideRows } from "../../../../lib/cycles/tide/tideRows.js";
import { tideSteps } from "../../../../lib/cycles/tide/tideSteps.js";
import { usableReadings } from "../../../../lib/cycles/tide/usableReadings.js";
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
  for (const [what, stepMinutes] of [["hourly", 60], ["20 minutes, bridged", 20]] as const) {
    it(`${what}, saved as JSON in between: 1e-8`, () => {
      const s = tideRecord({ days: 24, stepMinutes, noise: { name: "both", white: 0.2, ar1: { sd: 3, efolding: 1 } }, lines, seed: 31, missing: 0.1, start: Date.UTC(2024, 2, 1, 5) });
      const like = fitTides(s, { longitude: 20 });
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
