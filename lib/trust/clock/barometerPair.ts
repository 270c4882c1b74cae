import { choleskyFactor } from "../../ground/matrixFactors.js";
import { bridgeGaps, gaps } from "../../grid/gapRule.js";
import { niceStep } from "../../grid/step.js";
import { flagBit } from "../../record/flag.js";
import type { Series } from "../../record/series.js";
import { type StepFrame, stepFrame, stepMeans } from "../faults/stepMeans.js";

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
  /**
   * By step of the day, what was taken out of x and of y too much · hPa · [steps in a day]: over some weeks the slow weather's rise from end to
   * end passes for cycles, alike in both by their own clocks. It is what the same fit under a Hann window takes out less.
   */
  readonly leak: readonly [Float64Array, Float64Array];
  /** Cosine and sine of the cycle of half a day in x and in y, counted from the first step's edge, under that window · hPa; null where steps are too long. */
  readonly halfDay: readonly [Cycle, Cycle] | null;
}

/** A cycle as its cosine and its sine part · hPa. */
export interface Cycle {
  readonly cosine: number;
  readonly sine: number;
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
  const frame = stepFrame([x, y], step);
  const [a, b] = [x, y].map((s) => bridged(stepMeans(s, frame, "values"), step));
  for (const [s, values] of [[x, a], [y, b]] as const) {
    for (let i = 1; i < s.flags.length; i++) {
      if (((s.flags[i] ^ s.flags[i - 1]) & flagBit.step) !== 0) values[Math.floor((s.start + 1000 * s.seconds[i] - frame.start) / (1000 * step))] = Number.NaN;
    }
  }
  const perDay = Math.round(86400 / step);
  const hours = new Set<number>();
  for (let i = 0; i < a.length && hours.size < 24; i++) if (!Number.isNaN(a[i] - b[i])) hours.add(Math.floor(((i % perDay) * step) / 3600));
  if (a.length * step < leastDays * 86400 || hours.size < leastHours) return null;
  const { leak, halfDay } = takeOutCycles(a, b, perDay);
  return Object.freeze({ start: frame.start, stepSeconds: step, x: a, y: b, phases: phasesOf(x, y, frame), leak, halfDay });
}

/** The pair with its leak put back. */
export function withoutLeak(pair: BarometerPair): BarometerPair {
  const restored = (values: Float64Array, leak: Float64Array): Float64Array => values.map((v, i) => v + leak[i % leak.length]);
  return Object.freeze({ ...pair, x: restored(pair.x, pair.leak[0]), y: restored(pair.y, pair.leak[1]) });
}

/** The gap rule, without a copy where there is nothing to bridge. */
function bridged(values: Float64Array, step: number): Float64Array {
  const longest = Math.floor(longestBridge / step + 1e-9);
  const isNeeded = gaps(values).some(({ from, to }) => from > 0 && to < values.length && to - from <= longest);
  return isNeeded ? bridgeGaps(values, longest).values : values;
}

/** How much later within each step y's reading stands than x's, bridged as the values are. */
function phasesOf(x: Series, y: Series, frame: StepFrame): Float64Array {
  const [phases, other] = [y, x].map((s) => bridged(stepMeans(s, frame, "instants"), frame.stepSeconds));
  for (let i = 0; i < phases.length; i++) phases[i] -= other[i];
  return phases;
}

/** Sums for a fit of mean, slope and cycles to two traces, by step of the day: weights, weights times slope and its square, and those with the values. */
interface DaySums {
  readonly count: Float64Array;
  readonly sloped: Float64Array;
  readonly squared: Float64Array;
  readonly sum: readonly Float64Array[];
  readonly product: readonly Float64Array[];
}

function emptySums(perDay: number): DaySums {
  const [count, sloped, squared] = [0, 1, 2].map(() => new Float64Array(perDay));
  const [sum, product] = [0, 1].map(() => [0, 1].map(() => new Float64Array(perDay)));
  return { count, sloped, squared, sum, product };
}

/**
 * Takes mean, slope and cycles 1–6 a day, fitted over the shared steps, out of both traces in place; NaN elsewhere.
 *
 * The cycles repeat with the day, so every sum is gathered by step of the day first: one pass over the traces, whatever the number of cycles.
 *
 * @returns see BarometerPair
 */
function takeOutCycles(a: Float64Array, b: Float64Array, perDay: number): Pick<BarometerPair, "leak" | "halfDay"> {
  // A cycle faster than two steps does not exist on this grid.
  const used = Math.min(cycles, Math.floor(perDay / 2) - 1);
  const p = 2 + 2 * used;
  const traces = [a, b];
  const level = sharedMeans(a, b);
  const slope = (i: number): number => (2 * i) / a.length - 1;
  const [flat, hann] = [0, 1].map(() => emptySums(perDay));
  const add = ({ count, sloped, squared, sum, product }: DaySums, i: number, d: number, weight: number): void => {
    const s = weight * slope(i);
    count[d] += weight;
    sloped[d] += s;
    squared[d] += s * slope(i);
    for (let k = 0; k < 2; k++) {
      const v = traces[k][i] - level[k];
      sum[k][d] += v * weight;
      product[k][d] += v * s;
    }
  };
  for (let i = 0, d = 0; i < a.length; i++, d = d + 1 === perDay ? 0 : d + 1) {
    if (Number.isNaN(a[i] - b[i])) continue;
    add(flat, i, d, 1);
    add(hann, i, d, Math.sin((Math.PI * (i + 0.5)) / a.length) ** 2);
  }
  const [fits, windowed] = [flat, hann].map((sums) => cyclesOf(sums, p));
  const row: Float64Array = new Float64Array(p);
  const dayOf = (of: (r: number, k: number) => number, k: number): Float64Array => {
    const day: Float64Array = new Float64Array(perDay);
    for (let d = 0; d < perDay; d++) {
      fillRow(row, d, perDay);
      for (let r = 0; r < p; r++) day[d] += of(r, k) * row[r];
    }
    return day;
  };
  const days = [0, 1].map((k) => dayOf((r) => (r === 1 ? 0 : fits[k][r]), k));
  for (let i = 0, d = 0; i < a.length; i++, d = d + 1 === perDay ? 0 : d + 1) {
    const isShared = !Number.isNaN(a[i] - b[i]);
    a[i] = isShared ? a[i] - level[0] - days[0][d] - fits[0][1] * slope(i) : Number.NaN;
    b[i] = isShared ? b[i] - level[1] - days[1][d] - fits[1][1] * slope(i) : Number.NaN;
  }
  const [x, y] = [0, 1].map((k) => dayOf((r) => (r < 2 ? 0 : fits[k][r] - windowed[k][r]), k));
  const cycle = (k: number): Cycle => ({ cosine: windowed[k][4], sine: windowed[k][5] });
  return { leak: [x, y], halfDay: used < 2 ? null : [cycle(0), cycle(1)] };
}

/** One row of mean (0; slope stays out, at 1) and cycles at a step of the day. */
function fillRow(row: Float64Array, d: number, perDay: number): void {
  row[0] = 1;
  for (let k = 1; 2 * k < row.length; k++) {
    row[2 * k] = Math.cos((2 * Math.PI * k * d) / perDay);
    row[2 * k + 1] = Math.sin((2 * Math.PI * k * d) / perDay);
  }
}

/** Mean, slope and cycles of both traces, by least squares. */
function cyclesOf({ count, sloped, squared, sum, product }: DaySums, p: number): Float64Array[] {
  const perDay = count.length;
  const row: Float64Array = new Float64Array(p);
  const normal = Array.from({ length: p }, () => new Float64Array(p));
  const right = sum.map(() => new Float64Array(p));
  for (let d = 0; d < perDay; d++) {
    if (count[d] === 0) continue;
    fillRow(row, d, perDay);
    for (let r = 0; r < p; r++) {
      for (let c = 0; c <= r; c++) {
        const weight = r === 1 && c === 1 ? squared[d] : r === 1 || c === 1 ? sloped[d] : count[d];
        normal[r][c] += (r === 1 ? 1 : row[r]) * (c === 1 ? 1 : row[c]) * weight;
      }
      for (let k = 0; k < 2; k++) right[k][r] += r === 1 ? product[k][d] : row[r] * sum[k][d];
    }
  }
  const factor = choleskyFactor(normal);
  return right.map((side) => Float64Array.from(factor.solve(side)));
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
