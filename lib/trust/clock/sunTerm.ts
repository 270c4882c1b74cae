import { choleskyFactor } from "../../ground/matrixFactors.js";
import type { SunDays } from "./sunDays.js";

/** Hours that one term adds to the day's round, and how well that is known. */
export interface SunTerm {
  readonly value: number;
  readonly standardError: number;
  /** Independent days less the terms. */
  readonly degreesOfFreedom: number;
}

const yearDays = 365.25;
const rounds = 3;

/**
 * By how many hours a round of the day comes later for each unit of a term: of a step at a date, of a slope over the days.
 *
 * Least squares beside a mean and a yearly and a half-yearly turn, which are held to what seasons do: so a short record does not
 * take a drift for the season, nor a long one the season for a drift. The errors allow for the memory of the days.
 *
 * @param sun   from sunDays
 * @param term  the term on a day, its number since 1970
 * @param turns how far the season turns the round by itself · h, one standard deviation of each cosine and sine, yearly and half-yearly
 * @returns    h per unit of the term; null where it does not vary over the days, or where the days are too few
 * @source own method, see README of this room
 */
export function sunTerm({ days, across, anHour }: SunDays, term: (day: number) => number, turns: readonly [year: number, half: number]): SunTerm | null {
  const n = days.length;
  const values = Float64Array.from(days, term);
  const middle = values.reduce((a, b) => a + b, 0) / n;
  const spread = Math.sqrt(values.reduce((a, b) => a + (b - middle) ** 2, 0) / n);
  if (!(spread > 0)) return null;
  const columns = [
    values.map((v) => (v - middle) / spread),
    values.map(() => 1),
    ...[1, 2].flatMap((k) => [Math.cos, Math.sin].map((of) => days.map((d) => of((2 * Math.PI * k * d) / yearDays)))),
  ].map((column) => column.map((v, i) => v * anHour[i]));
  const p = columns.length;
  if (n < p + 8) return null;
  const priors = [0, 0, ...turns.flatMap((sd) => [1 / sd ** 2, 1 / sd ** 2])];
  const products = columns.map((a) => columns.map((b) => dot(a, b)));
  const right = columns.map((a) => dot(a, across));
  let variance = dot(across, across) / n;
  for (let round = 0; ; round++) {
    if (!(variance > 0)) return null;
    const normal = products.map((row, r) => Float64Array.from(row, (v, c) => v / variance + (r === c ? priors[r] : 0)));
    const factor = choleskyFactor(normal);
    const fit = factor.solve(Float64Array.from(right, (v) => v / variance));
    const rest = across.map((y, i) => columns.reduce((left, column, j) => left - fit[j] * column[i], y));
    const { inflation, squares } = memoryOf(days, rest);
    const next = (squares / (n - 2)) * inflation;
    if (round === rounds) {
      const unit = Float64Array.from({ length: p }, (_, j) => (j === 0 ? 1 : 0));
      return { value: fit[0] / spread, standardError: Math.sqrt(factor.solve(unit)[0]) / spread, degreesOfFreedom: Math.max(2, n / inflation - 2) };
    }
    variance = next;
  }
}

/** How much longer memory makes the variance of a slow sum, from neighboring days. */
function memoryOf(days: Float64Array, rest: Float64Array): { inflation: number; squares: number } {
  let [squares, products, pairs] = [0, 0, 0];
  for (let k = 0; k < rest.length; k++) {
    squares += rest[k] ** 2;
    if (k === 0 || days[k] !== days[k - 1] + 1) continue;
    products += rest[k] * rest[k - 1];
    pairs++;
  }
  const n = rest.length;
  const r = pairs === 0 || squares === 0 ? 0 : (products / pairs) * (n / squares);
  const phi = Math.min(0.9, Math.max(0, (n * r + 1) / (n - 4)));
  return { inflation: (1 + phi) / (1 - phi), squares };
}

function dot(a: Float64Array, b: Float64Array): number {
  let sum = 0;
  for (let i = 0; i < a.length; i++) sum += a[i] * b[i];
  return sum;
}
