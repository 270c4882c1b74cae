import { leastSquares } from "../../ground/leastSquares.js";
import { regularGrid } from "../../grid/regularGrid.js";
import { niceStep } from "../../grid/step.js";
import { flagBit } from "../../record/flag.js";
import type { Series } from "../../record/series.js";

/** Two barometers on one even grid, the daily cycles taken out of both. */
export interface BarometerPair {
  /** Epoch ms, UTC, of the first step. */
  readonly start: number;
  readonly stepSeconds: number;
  /** Departures from mean, slope and cycles 1–6 cpd · hPa · [n] · NaN where either is missing. */
  readonly x: Float64Array;
  readonly y: Float64Array;
  /** How much later within a step y's reading stands than x's · s · [n] · NaN where either is missing. */
  readonly phases: Float64Array;
}

/** Longest gap that is bridged · s. */
const longestBridge = 1800;
const cycles = 6;
const leastStep = 60;

/**
 * Lays two barometers on the finest step both have and takes out what would betray the sensors instead of the clocks.
 *
 * Gaps up to 30 minutes are bridged. Mean, slope and the cycles 1–6 a day are fitted out of both over the hours both have: a
 * temperature coefficient of 0.01 hPa/K, or wind on the daily cycle, otherwise moves the offset by 76–130 s in the tropics
 * (measured by simulation). The step before a level shift is dropped, so that no stretch runs across it.
 *
 * @param x, y   station pressure of two places · hPa
 * @returns      see BarometerPair; null when they share under 20 steps
 */
export function barometerPair(x: Series, y: Series): BarometerPair | null {
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
  if (shared.length < 20) return null;
  const perDay = 86400 / step;
  const columns = [new Float64Array(shared.length).fill(1), Float64Array.from(shared, (i) => i / perDay - a.length / perDay / 2)];
  for (let k = 1; k <= cycles; k++) {
    const angle = (2 * Math.PI * k) / perDay;
    // A cycle faster than two steps does not exist on this grid.
    if (k > perDay / 2 - 1) break;
    columns.push(Float64Array.from(shared, (i) => Math.cos(angle * i)), Float64Array.from(shared, (i) => Math.sin(angle * i)));
  }
  const without = (v: Float64Array): Float64Array => {
    const { residuals } = leastSquares(columns, Float64Array.from(shared, (i) => v[i]));
    const out: Float64Array = new Float64Array(v.length).fill(Number.NaN);
    shared.forEach((i, k) => { out[i] = residuals[k]; });
    return out;
  };
  const [ta, tb] = grid.columns.map((c) => c.instants);
  return Object.freeze({ start: grid.start, stepSeconds: step, x: without(a), y: without(b), phases: tb.map((t, i) => t - ta[i]) });
}
