import { hourMeans, hourWeights, type MeansKind } from "./hourMeans.js";
import type { TideSteps } from "./tideSteps.js";

/** A cosine and sine pair of the design: cos and sin of 2π(f·t + turn), t in days since the steps' midnight. */
export interface TidePair {
  readonly cyclesPerDay: number;
  /** Turn at the steps' midnight · cycles. */
  readonly turn: number;
  /** Mean over a reading's averaging time: sin(πfτ)/(πfτ). */
  readonly damping: number;
  /** Multiplies the pair by cos 2π(yearly·t) (`"cos"`) or its sine, for the seasonal test. */
  readonly yearly?: "cos" | "sin";
}

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
  /** Row-major [hours × (columns + 1)]: means and slopes, pairs, y less `level`; 0 where missing. */
  readonly table: Float64Array;
  /** Means and slopes at every hour, missing ones too, and their D₁ᵀD₁ and D₂ᵀD₂ · [hours × smooth] each. */
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

/** Fills one step column with cos or sin at the readings' own instants; a table of one day when readings stand regularly. */
function pairColumn(steps: TideSteps, pair: TidePair, sine: boolean): Float64Array {
  const { values, instants, perHour, firstHour, phase } = steps;
  const out: Float64Array = new Float64Array(values.length);
  const { cyclesPerDay: f, turn, damping, yearly } = pair;
  const wave = (t: number): number => {
    const angle = 2 * Math.PI * (f * t + turn);
    return damping * (sine ? Math.sin(angle) : Math.cos(angle));
  };
  const table = steps.regular && Number.isInteger(f) ? Float64Array.from({ length: 24 * perHour }, (_, k) => wave((k / perHour + phase / 3600) / 24)) : null;
  const from = firstHour * perHour;
  for (let k = 0; k < values.length; k++) {
    if (Number.isNaN(values[k])) {
      out[k] = Number.NaN;
      continue;
    }
    out[k] = table === null ? wave(instants[k] / secondsADay) : table[(from + k) % table.length];
    if (yearly !== undefined) {
      const year = (2 * Math.PI * instants[k]) / (secondsADay * yearDays);
      out[k] *= yearly === "cos" ? Math.cos(year) : Math.sin(year);
    }
  }
  return out;
}

/** D₁ᵀD₁ v and D₂ᵀD₂ v of one column, by differences of differences so that smooth columns lose no digits. */
function roughness(full: Float64Array, smooth: number, column: number, first: Float64Array, second: Float64Array): void {
  const n = full.length / smooth;
  const v = (i: number): number => full[i * smooth + column];
  for (let i = 0; i + 1 < n; i++) {
    const d = v(i + 1) - v(i);
    first[i * smooth + column] -= d;
    first[(i + 1) * smooth + column] += d;
  }
  for (let i = 0; i + 2 < n; i++) {
    const d = v(i + 2) - v(i + 1) - (v(i + 1) - v(i));
    second[i * smooth + column] += d;
    second[(i + 1) * smooth + column] -= 2 * d;
    second[(i + 2) * smooth + column] += d;
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
  const { values, instants, perHour, hours, firstHour, phase } = steps;
  const step = 3600 / perHour;
  const firstInstant = (firstHour * 3600 + phase + (3600 - step) / 2) / secondsADay;
  const days = hours / 24;
  const parts = breaks.length + 1;
  const smooth = 2 * parts;
  const columns = smooth + 2 * pairs.length;
  const width = columns + 1;
  const table: Float64Array = new Float64Array(hours * width);
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
  const put = (column: Float64Array, at: number, less = 0): void => {
    for (let i = 0; i < hours; i++) if (weights[i] > 0) table[i * width + at] = column[i] - less;
  };
  put(y, columns, level);
  const smoothFull: Float64Array = new Float64Array(hours * smooth);
  const ends = [-Infinity, ...breaks.map((b) => b / secondsADay), Infinity];
  const column: Float64Array = new Float64Array(values.length);
  for (let part = 0; part < parts; part++) {
    const from = Math.max(ends[part], firstInstant);
    const to = Math.min(ends[part + 1], firstInstant + (hours - 1) / 24);
    const span = parts === 1 ? days : Math.max(to - from, 1);
    for (let power = 0; power < 2; power++) {
      const at = 2 * part + power;
      const smoothAt = (t: number): number => (t >= ends[part] && t < ends[part + 1] ? (power === 0 ? 1 : (t - (from + to) / 2) / span) : 0);
      for (let k = 0; k < column.length; k++) column[k] = Number.isNaN(values[k]) ? Number.NaN : smoothAt(instants[k] / secondsADay);
      put(hourMeans(column, perHour, kind), at);
      for (let i = 0; i < hours; i++) smoothFull[i * smooth + at] = weights[i] > 0 ? table[i * width + at] : smoothAt(firstInstant + i / 24);
    }
  }
  const smoothFirst: Float64Array = new Float64Array(hours * smooth);
  const smoothSecond: Float64Array = new Float64Array(hours * smooth);
  for (let at = 0; at < smooth; at++) roughness(smoothFull, smooth, at, smoothFirst, smoothSecond);
  pairs.forEach((pair, k) => {
    put(hourMeans(pairColumn(steps, pair, false), perHour, kind), smooth + 2 * k);
    put(hourMeans(pairColumn(steps, pair, true), perHour, kind), smooth + 2 * k + 1);
  });
  return { hours, kept, columns, smooth, table, smoothFull, smoothFirst, smoothSecond, weights, level, firstInstant, days };
}
