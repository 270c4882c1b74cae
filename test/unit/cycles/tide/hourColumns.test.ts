import { describe, expect, it } from "vitest";
import { hourColumns } from "../../../../lib/cycles/tide/hourColumns.js";
import { hourMeans, hourWeights } from "../../../../lib/cycles/tide/hourMeans.js";
import type { TidePair } from "../../../../lib/cycles/tide/tideRows.js";
import { type TideSteps, tideSteps } from "../../../../lib/cycles/tide/tideSteps.js";
import { random } from "../../../../lib/ground/random.js";

/** Three days of readings from 05:00, lost one by one and for hours; optionally a wandering clock. */
function stepsOf(spacing: number, loss: number, jitter: number, late = 0): TideSteps {
  const chance = random(spacing + 1000 * loss + jitter);
  const seconds: number[] = [];
  for (let t = 5 * 3600; t < 77 * 3600; t += spacing) if (!(t > 100_000 && t < 112_000) && chance.uniform() >= loss) seconds.push(t + late + jitter * chance.uniform());
  const values = Float64Array.from(seconds, () => chance.normal());
  return tideSteps({ midnight: 0, seconds: Float64Array.from(seconds), values, leftOut: 0, spacing });
}

const pairs: readonly TidePair[] = [
  { cyclesPerDay: 2, turn: 0.1, damping: 0.9 },
  { cyclesPerDay: 1.9322736, turn: 0.3, damping: 1 },
];

describe("hourColumns", () => {
  for (const spacing of [60, 600, 1200, 3600]) {
    for (const loss of [0, 0.2]) {
      for (const [jitter, late] of [[0, 0], [20, 0], [0, 17]] as const) {
        for (const kind of ["bridged", "plain"] as const) {
          it(`gives the means of columns that are laid out step by step: every ${spacing} s, ${loss} lost, ${jitter} s of jitter, ${late} s after the step, ${kind}`, () => {
            const steps = stepsOf(spacing, loss, jitter, late);
            expect(steps.regular).toBe(jitter === 0);
            const weights = hourWeights(steps.values, hourMeans(steps.values, steps.perHour, kind));
            const columns = hourColumns(steps, kind, weights);
            const check = (at: (seconds: number) => number, fill: (into: Float64Array) => void): void => {
              const laid = steps.instants.map((t, k) => (Number.isNaN(steps.values[k]) ? Number.NaN : at(t)));
              const expected = hourMeans(laid, steps.perHour, kind);
              const into = new Float64Array(steps.hours).fill(-99);
              fill(into);
              // Rounding alone: sums of up to sixty values of size 1.
              for (let i = 0; i < steps.hours; i++) {
                if (weights[i] === 0) expect(into[i]).toBe(-99);
                else expect(Math.abs(into[i] - expected[i])).toBeLessThan(1e-13);
              }
            };
            check((t) => (t > 150_000 ? (t - 150_000) / 86_400 : 0), (into) => columns.smooth((t) => (t > 150_000 ? (t - 150_000) / 86_400 : 0), [150_000], into));
            check((t) => t / 86_400, (into) => columns.smooth((t) => t / 86_400, [], into));
            for (const pair of pairs) {
              const angle = (t: number): number => 2 * Math.PI * (pair.cyclesPerDay * (t / 86_400) + pair.turn);
              check((t) => pair.damping * Math.cos(angle(t)), (into) => columns.wave(pair, false, into));
              check((t) => pair.damping * Math.sin(angle(t)), (into) => columns.wave(pair, true, into));
            }
          });
        }
      }
    }
  }
});
