import { choleskyFactor } from "../ground/matrixFactors.js";
import { median } from "../ground/summary.js";

const fewestDays = 15;
/** Values so many robust spreads away are weather: squalls, fronts. */
const farthest = 4;

/**
 * Hourly values less the mean of so many about each.
 *
 * @param x     [n] · NaN is missing, and makes what is near it missing
 * @param hours odd
 */
export function lessMean(x: Float64Array, hours: number): Float64Array {
  const half = (hours - 1) / 2;
  const out = new Float64Array(x.length).fill(Number.NaN);
  let [sum, missing] = [0, 0];
  const count = (v: number, sign: number): void => {
    if (Number.isNaN(v)) missing += sign;
    else sum += sign * v;
  };
  for (let i = 0; i < x.length; i++) {
    count(x[i], 1);
    if (i >= hours) count(x[i - hours], -1);
    if (i >= hours - 1 && missing === 0) out[i - half] = x[i - half] - sum / hours;
  }
  return out;
}

/**
 * Hourly values less the mean of the same hour of the thirty days about each.
 *
 * @param x [n] · NaN is missing
 */
export function lessUsualDay(x: Float64Array): Float64Array {
  const out = Float64Array.from(x);
  for (let h = 0; h < 24; h++) {
    let [sum, n] = [0, 0];
    const count = (v: number | undefined, sign: number): void => {
      if (v === undefined || Number.isNaN(v)) return;
      sum += sign * v;
      n += sign;
    };
    for (let d = 0; d < 15; d++) count(x[h + 24 * d], 1);
    for (let i = h; i < x.length; i += 24) {
      count(x[i + 24 * 15], 1);
      if (i >= 24 * 16) count(x[i - 24 * 16], -1);
      out[i] = x[i] - sum / n;
    }
  }
  return out;
}

/**
 * Least squares of one or two columns whose errors allow for anything within a day.
 *
 * @param y       hourly · [n] · NaN is missing; values four robust spreads away are left out
 * @param columns one or two · [n]
 * @returns       one entry a column; null under 15 days, or where the columns are alike
 * @source sums over days as clusters: Liang and Zeger 1986, from memory
 */
export function slopes(y: Float64Array, columns: readonly Float64Array[]): { readonly value: number; readonly standardError: number }[] | null {
  const isWhole = (i: number): boolean => !Number.isNaN(y[i]) && columns.every((c) => !Number.isNaN(c[i]));
  const sizes = [...y.keys()].filter(isWhole).map((i) => Math.abs(y[i]));
  if (sizes.length < 24 * fewestDays) return null;
  const limit = farthest * 1.4826 * median(sizes);
  const rows = [...y.keys()].filter((i) => isWhole(i) && Math.abs(y[i]) <= limit);
  const p = columns.length;
  const normal = columns.map((a) => Float64Array.from(columns, (b) => rows.reduce((s, i) => s + a[i] * b[i], 0)));
  if (normal.some((row, k) => !(row[k] > 0)) || (p === 2 && normal[0][1] ** 2 > 0.98 * normal[0][0] * normal[1][1])) return null;
  const factor = choleskyFactor(normal);
  const fit = factor.solve(columns.map((a) => rows.reduce((s, i) => s + a[i] * y[i], 0)));
  const scores = new Map<number, Float64Array>();
  for (const i of rows) {
    const day = Math.floor(i / 24);
    const score = scores.get(day) ?? new Float64Array(p);
    scores.set(day, score);
    const rest = y[i] - columns.reduce((s, c, k) => s + fit[k] * c[i], 0);
    for (let k = 0; k < p; k++) score[k] += columns[k][i] * rest;
  }
  if (scores.size < fewestDays) return null;
  const unit = (k: number): Float64Array => factor.solve(Float64Array.from({ length: p }, (_, j) => (j === k ? 1 : 0)));
  return columns.map((_, k) => {
    const row = unit(k);
    const variance = [...scores.values()].reduce((s, score) => s + score.reduce((t, v, j) => t + v * row[j], 0) ** 2, 0);
    return { value: fit[k], standardError: Math.sqrt((variance * scores.size) / (scores.size - p)) };
  });
}

/**
 * Amplitude of one cycle a day of hourly values.
 *
 * @param x [n] · NaN is missing
 * @returns unit of x; 0 without a whole day
 */
export function dailyAmplitude(x: Float64Array): number {
  let [c, s, n] = [0, 0, 0];
  const mean = lessMean(x, 25);
  for (let i = 0; i < x.length; i++) {
    if (Number.isNaN(mean[i])) continue;
    c += mean[i] * Math.cos((2 * Math.PI * i) / 24);
    s += mean[i] * Math.sin((2 * Math.PI * i) / 24);
    n++;
  }
  return n === 0 ? 0 : (2 * Math.hypot(c, s)) / n;
}
