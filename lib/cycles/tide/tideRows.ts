import { hourColumns, type TidePair } from "./hourColumns.js";
import { hourMeans, hourWeights, type MeansKind } from "./hourMeans.js";
import type { TideSteps } from "./tideSteps.js";

export type { TidePair } from "./hourColumns.js";

/** The hours of a record as rows of a regression, ready for the banded passes. */
export interface TideRows {
  /** Hours of the grid, missing ones included. */
  readonly hours: number;
  /** Hours with weight. */
  readonly kept: number;
  /** Columns of the design without y. */
  readonly columns: number;
  /** Of these the first `smooth` are means and slopes. */
  readonly smooth: number;
  /** Column after column [(columns + 1) × hours]: means and slopes, pairs, y less `level`; 0 where missing. */
  readonly table: Float64Array;
  /** Means and slopes at every hour, missing ones too, and their D₁ᵀD₁ and D₂ᵀD₂ · [smooth × hours] each. */
  readonly smoothFull: Float64Array;
  readonly smoothFirst: Float64Array;
  readonly smoothSecond: Float64Array;
  /** Share observed of each hour · [hours]. */
  readonly weights: Float64Array;
  /** Plain mean of the hours, taken off y. */
  readonly level: number;
  /** t of the first hour (mean of its instants) · d since the steps' midnight; the others follow at 1/24 d. */
  readonly firstInstant: number;
  /** Length of the grid · d: T of the method. */
  readonly days: number;
}

const secondsADay = 86_400;
const yearDays = 365.25;

/** D₁ᵀD₁ v and D₂ᵀD₂ v of one column, by differences of differences so that smooth columns lose no digits. */
function roughness(v: Float64Array, first: Float64Array, second: Float64Array): void {
  for (let i = 0; i + 1 < v.length; i++) {
    const d = v[i + 1] - v[i];
    first[i] -= d;
    first[i + 1] += d;
  }
  for (let i = 0; i + 2 < v.length; i++) {
    const d = v[i + 2] - v[i + 1] - (v[i + 1] - v[i]);
    second[i] += d;
    second[i + 1] -= 2 * d;
    second[i + 2] += d;
  }
}

/**
 * Builds the regression rows of a record: hourly means of the data and, through the same means, of every column.
 *
 * @param steps  see `tideSteps`
 * @param pairs  cosine and sine pairs, in order
 * @param kind   see `hourMeans`
 * @param breaks instants at which the level jumped · s since the steps' midnight · sorted; each part has its own mean and slope
 */
export function tideRows(steps: TideSteps, pairs: readonly TidePair[], kind: MeansKind, breaks: readonly number[] = []): TideRows {
  const { values, perHour, hours, firstHour, phase } = steps;
  const step = 3600 / perHour;
  const firstInstant = (firstHour * 3600 + phase + (3600 - step) / 2) / secondsADay;
  const days = hours / 24;
  const parts = breaks.length + 1;
  const smooth = 2 * parts;
  const columns = smooth + 2 * pairs.length;
  const table: Float64Array = new Float64Array(hours * (columns + 1));
  const y = hourMeans(values, perHour, kind);
  const weights = hourWeights(values, y);
  let level = 0;
  let kept = 0;
  for (let i = 0; i < hours; i++) {
    if (weights[i] === 0) continue;
    level += y[i];
    kept++;
  }
  level /= kept;
  const columnAt = (at: number): Float64Array => table.subarray(at * hours, (at + 1) * hours);
  for (let i = 0; i < hours; i++) if (weights[i] > 0) table[columns * hours + i] = y[i] - level;
  const means = hourColumns(steps, kind, weights);
  const smoothFull: Float64Array = new Float64Array(hours * smooth);
  const ends = [-Infinity, ...breaks.map((b) => b / secondsADay), Infinity];
  for (let part = 0; part < parts; part++) {
    const from = Math.max(ends[part], firstInstant);
    const to = Math.min(ends[part + 1], firstInstant + (hours - 1) / 24);
    const span = parts === 1 ? days : Math.max(to - from, 1);
    for (let power = 0; power < 2; power++) {
      const at = 2 * part + power;
      const smoothAt = (t: number): number => (t >= ends[part] && t < ends[part + 1] ? (power === 0 ? 1 : (t - (from + to) / 2) / span) : 0);
      means.smooth((seconds) => smoothAt(seconds / secondsADay), breaks, columnAt(at));
      for (let i = 0; i < hours; i++) smoothFull[at * hours + i] = weights[i] > 0 ? table[at * hours + i] : smoothAt(firstInstant + i / 24);
    }
  }
  const smoothFirst: Float64Array = new Float64Array(hours * smooth);
  const smoothSecond: Float64Array = new Float64Array(hours * smooth);
  for (let at = 0; at < smooth; at++) {
    const [v, first, second] = [smoothFull, smoothFirst, smoothSecond].map((a) => a.subarray(at * hours, (at + 1) * hours));
    roughness(v, first, second);
  }
  pairs.forEach((pair, k) => {
    for (const half of [0, 1]) {
      const at = smooth + 2 * k + half;
      if (pair.yearly === undefined) {
        means.wave(pair, half === 1, columnAt(at));
        continue;
      }
      const from = smooth + 2 * pairs.findIndex((other) => other.cyclesPerDay === pair.cyclesPerDay) + half;
      for (let i = 0; i < hours; i++) {
        const year = (2 * Math.PI * (firstInstant + i / 24)) / yearDays;
        table[at * hours + i] = table[from * hours + i] * (pair.yearly === "cos" ? Math.cos(year) : Math.sin(year));
      }
    }
  });
  return { hours, kept, columns, smooth, table, smoothFull, smoothFirst, smoothSecond, weights, level, firstInstant, days };
}
