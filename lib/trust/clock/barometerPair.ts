import { choleskyFactor } from "../../ground/matrixFactors.js";
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
const leastDays = 7;
const leastHours = 20;

/**
 * Lays two barometers on the finest step both have and takes out what would betray the sensors instead of the clocks.
 *
 * Gaps up to 30 minutes are bridged. Mean, slope and the cycles 1–6 a day are fitted out of both over the hours both have: a
 * temperature coefficient of 0.01 hPa/K, or wind on the daily cycle, otherwise moves the offset by 76–130 s in the tropics
 * (measured by simulation). The step before a level shift is dropped, so that no stretch runs across it.
 *
 * @param x, y   station pressure of two places · hPa
 * @returns      see BarometerPair; null when they share under 7 days, or fewer than 20 of the day's hours
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
  const perDay = Math.round(86400 / step);
  const hours = new Set<number>();
  for (let i = 0; i < a.length && hours.size < 24; i++) if (!Number.isNaN(a[i] - b[i])) hours.add(Math.floor(((i % perDay) * step) / 3600));
  if (a.length * step < leastDays * 86400 || hours.size < leastHours) return null;
  const [u, v] = withoutCycles(a, b, perDay);
  const [ta, tb] = grid.columns.map((c) => c.instants);
  const phases: Float64Array = new Float64Array(ta.length);
  for (let i = 0; i < phases.length; i++) phases[i] = tb[i] - ta[i];
  return Object.freeze({ start: grid.start, stepSeconds: step, x: u, y: v, phases });
}

/**
 * Both traces less mean, slope and cycles 1–6 a day, fitted over the shared steps; NaN elsewhere.
 *
 * The cycles repeat with the day, so every sum is gathered by step of the day first: one pass over the traces, whatever the number of cycles.
 */
function withoutCycles(a: Float64Array, b: Float64Array, perDay: number): [Float64Array, Float64Array] {
  // A cycle faster than two steps does not exist on this grid.
  const used = Math.min(cycles, Math.floor(perDay / 2) - 1);
  const p = 2 + 2 * used;
  const traces = [a, b];
  const level = sharedMeans(a, b);
  const slope = (i: number): number => (2 * i) / a.length - 1;
  // By step of the day: how many, sums of slope and of its square, and for each trace of the values and of the values times slope.
  const [count, sloped, squared] = [0, 1, 2].map(() => new Float64Array(perDay));
  const [sum, product] = [0, 1].map(() => traces.map(() => new Float64Array(perDay)));
  for (let i = 0, d = 0; i < a.length; i++, d = d + 1 === perDay ? 0 : d + 1) {
    if (Number.isNaN(a[i] - b[i])) continue;
    const s = slope(i);
    count[d]++;
    sloped[d] += s;
    squared[d] += s * s;
    for (let k = 0; k < 2; k++) {
      const v = traces[k][i] - level[k];
      sum[k][d] += v;
      product[k][d] += v * s;
    }
  }
  const row: Float64Array = new Float64Array(p);
  const fill = (d: number): void => {
    row[0] = 1;
    for (let k = 1; k <= used; k++) {
      row[2 * k] = Math.cos((2 * Math.PI * k * d) / perDay);
      row[2 * k + 1] = Math.sin((2 * Math.PI * k * d) / perDay);
    }
  };
  const normal = Array.from({ length: p }, () => new Float64Array(p));
  const right = traces.map(() => new Float64Array(p));
  for (let d = 0; d < perDay; d++) {
    if (count[d] === 0) continue;
    fill(d);
    for (let r = 0; r < p; r++) {
      for (let c = 0; c <= r; c++) {
        const weight = r === 1 && c === 1 ? squared[d] : r === 1 || c === 1 ? sloped[d] : count[d];
        normal[r][c] += (r === 1 ? 1 : row[r]) * (c === 1 ? 1 : row[c]) * weight;
      }
      for (let k = 0; k < 2; k++) right[k][r] += r === 1 ? product[k][d] : row[r] * sum[k][d];
    }
  }
  const factor = choleskyFactor(normal);
  const left = traces.map((v, k) => {
    const fit = factor.solve(right[k]);
    const day: Float64Array = new Float64Array(perDay);
    for (let d = 0; d < perDay; d++) {
      fill(d);
      day[d] = level[k] + fit.reduce((total, f, r) => total + (r === 1 ? 0 : f * row[r]), 0);
    }
    const out: Float64Array = new Float64Array(v.length);
    for (let i = 0, d = 0; i < v.length; i++, d = d + 1 === perDay ? 0 : d + 1) out[i] = Number.isNaN(a[i] - b[i]) ? Number.NaN : v[i] - day[d] - fit[1] * slope(i);
    return out;
  });
  return [left[0], left[1]];
}

/** Means of two traces over the steps both have. */
function sharedMeans(a: Float64Array, b: Float64Array): [number, number] {
  let [n, x, y] = [0, 0, 0];
  for (let i = 0; i < a.length; i++) {
    if (Number.isNaN(a[i] - b[i])) continue;
    n++;
    x += a[i];
    y += b[i];
  }
  return [x / n, y / n];
}
