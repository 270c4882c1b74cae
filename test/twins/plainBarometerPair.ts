import { choleskyFactor } from "../../lib/ground/matrixFactors.js";
import { mean } from "../../lib/ground/summary.js";
import { regularGrid } from "../../lib/grid/regularGrid.js";
import { niceStep } from "../../lib/grid/step.js";
import { flagBit } from "../../lib/record/flag.js";
import type { BarometerPair } from "../../lib/trust/clock/barometerPair.js";
import type { Series } from "../../lib/record/series.js";

/** Longest gap that is bridged · s. */
const longestBridge = 1800;
const cycles = 6;
const leastStep = 60;
const leastDays = 7;
const leastHours = 20;

/** Two barometers without their daily cycles by the plain text of `barometerPair`: the normal equations summed reading by reading. */
export function plainBarometerPair(x: Series, y: Series): Omit<BarometerPair, "leak" | "halfDay"> | null {
  if (x.seconds.length < 2 || y.seconds.length < 2) return null;
  const step = Math.max(leastStep, niceStep(x.seconds), niceStep(y.seconds));
  const grid = regularGrid([x, y], { step, fillUpTo: longestBridge });
  const values = grid.columns.map((c) => c.values.slice());
  [x, y].forEach((s, k) => {
    for (let i = 1; i < s.flags.length; i++) {
      if (((s.flags[i] ^ s.flags[i - 1]) & flagBit.step) !== 0) values[k][Math.floor((s.start + 1000 * s.seconds[i] - grid.start) / (1000 * step))] = Number.NaN;
    }
  });
  const [a, b] = values;
  const shared = [...a.keys()].filter((i) => !Number.isNaN(a[i]) && !Number.isNaN(b[i]));
  const hours = new Set(shared.map((i) => Math.floor(((i * step) % 86400) / 3600))).size;
  if (a.length * step < leastDays * 86400 || hours < leastHours) return null;
  const [u, v] = withoutCycles(a, b, shared, 86400 / step);
  const [ta, tb] = grid.columns.map((c) => c.instants);
  return Object.freeze({ start: grid.start, stepSeconds: step, x: u, y: v, phases: tb.map((t, i) => t - ta[i]) });
}

/** Both traces less mean, slope and cycles 1–6 a day, fitted over the shared steps; NaN elsewhere. */
function withoutCycles(a: Float64Array, b: Float64Array, shared: readonly number[], perDay: number): [Float64Array, Float64Array] {
  // A cycle faster than two steps does not exist on this grid.
  const used = Math.min(cycles, Math.floor(perDay / 2) - 1);
  const p = 2 + 2 * used;
  const row: Float64Array = new Float64Array(p);
  const fill = (i: number): void => {
    row[0] = 1;
    row[1] = (2 * i) / a.length - 1;
    for (let k = 1; k <= used; k++) {
      row[2 * k] = Math.cos((2 * Math.PI * k * i) / perDay);
      row[2 * k + 1] = Math.sin((2 * Math.PI * k * i) / perDay);
    }
  };
  const level = [mean(shared.map((i) => a[i])), mean(shared.map((i) => b[i]))];
  const normal = Array.from({ length: p }, () => new Float64Array(p));
  const right = [new Float64Array(p), new Float64Array(p)];
  for (const i of shared) {
    fill(i);
    for (let r = 0; r < p; r++) {
      for (let c = 0; c <= r; c++) normal[r][c] += row[r] * row[c];
      right[0][r] += row[r] * (a[i] - level[0]);
      right[1][r] += row[r] * (b[i] - level[1]);
    }
  }
  const factor = choleskyFactor(normal);
  const fits = right.map((side) => factor.solve(side));
  const left = [a, b].map((v) => new Float64Array(v.length).fill(Number.NaN));
  for (const i of shared) {
    fill(i);
    for (const [k, v] of [a, b].entries()) left[k][i] = v[i] - level[k] - row.reduce((sum, x, r) => sum + x * fits[k][r], 0);
  }
  return [left[0], left[1]];
}
