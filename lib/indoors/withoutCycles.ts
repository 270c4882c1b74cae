import { mustSentence } from "../ground/complaint.js";
import { choleskyFactor } from "../ground/matrixFactors.js";
import { countOf, dailyTurn } from "./pairedHours.js";

/** Columns 1, a slope on −1…1, and cosine and sine of 1…cycles per day, for n hours. */
export function cycleColumns(n: number, cycles: number): Float64Array[] {
  const columns = [new Float64Array(n).fill(1), Float64Array.from({ length: n }, (_, h) => (2 * h) / Math.max(1, n - 1) - 1)];
  for (let c = 1; c <= cycles; c++) {
    columns.push(
      Float64Array.from({ length: n }, (_, h) => Math.cos(dailyTurn * c * h)),
      Float64Array.from({ length: n }, (_, h) => Math.sin(dailyTurn * c * h)),
    );
  }
  return columns;
}

/**
 * Takes columns out of values by least squares over the hours of a mask.
 *
 * @param values  [n] · read only where the mask is 1
 * @param mask    [n] · 1 counts
 * @param columns p columns of n
 * @returns       values less the fit · [n] · NaN outside the mask
 * @throws RangeError when the columns cannot be told apart over the mask
 * @example projectedOut([1, 2, 3], Uint8Array.of(1, 1, 1), [[1, 1, 1]]) // −1, 0, 1
 * @source normal equations, Cholesky
 */
export function projectedOut(values: ArrayLike<number>, mask: Uint8Array, columns: readonly ArrayLike<number>[]): Float64Array {
  const n = values.length;
  const p = columns.length;
  const hours = mask.reduce((count, m) => count + m, 0);
  const packed = [...columns, values].map((column) => {
    const kept = new Float64Array(hours);
    for (let h = 0, i = 0; h < n; h++) if (mask[h] === 1) kept[i++] = column[h];
    return kept;
  });
  const y = packed[p];
  const normal = Array.from({ length: p }, (_, i) => Float64Array.from({ length: p }, (__, j) => (j > i ? 0 : dot(packed[i], packed[j]))));
  const b = choleskyFactor(normal).solve(Float64Array.from({ length: p }, (_, i) => dot(packed[i], y)));
  const left: Float64Array = new Float64Array(n).fill(Number.NaN);
  for (let h = 0, i = 0; h < n; h++) {
    if (mask[h] !== 1) continue;
    let fit = 0;
    for (let j = 0; j < p; j++) fit += packed[j][i] * b[j];
    left[h] = y[i++] - fit;
  }
  return left;
}

function dot(a: Float64Array, b: Float64Array): number {
  let sum = 0;
  for (let i = 0; i < a.length; i++) sum += a[i] * b[i];
  return sum;
}

/**
 * Anomalies: what is left of hourly values when their mean, their slope and the cycles of 1 to 4 per day are taken out.
 *
 * Two houses that share nothing but the sun agree in their daily cycle; whatever asks how the house follows the weather
 * must not see it. All columns are fitted together over the hours that count, so that gaps bias nothing.
 *
 * @param values any unit · hourly · [n], hour 0 a midnight · NaN allowed outside the mask
 * @param mask   hours that count · [n] · 1 counts
 * @param cycles so many a day are taken out · default 4
 * @returns      [n] · NaN outside the mask
 * @throws RangeError when fewer than 48 hours count, or they are too few of the day's hours to tell the cycles apart
 * @example withoutCycles(hourly, mask)[0] // K from what the hour and the season expect
 * @source least squares; indoors README
 */
export function withoutCycles(values: ArrayLike<number>, mask: Uint8Array, cycles: number = 4): Float64Array {
  if (countOf(mask) < 48) throw new RangeError(mustSentence("withoutCycles", "mask", "hold at least 48 hours", `${countOf(mask)} h`, "log longer"));
  return projectedOut(values, mask, cycleColumns(values.length, cycles));
}
