import type { NoiseTheta } from "../lib/cycles/tide/bandedNoise.js";
import type { TideRows } from "../lib/cycles/tide/tideRows.js";

/** Plain Gauss–Jordan inverse with row exchange, and ln |determinant|. */
export function denseInverse(matrix: readonly (readonly number[])[]): { inverse: number[][]; logDeterminant: number } {
  const n = matrix.length;
  const a = matrix.map((row, i) => [...row, ...row.map((_, j) => (i === j ? 1 : 0))]);
  let logDeterminant = 0;
  for (let c = 0; c < n; c++) {
    let pivot = c;
    for (let r = c + 1; r < n; r++) if (Math.abs(a[r][c]) > Math.abs(a[pivot][c])) pivot = r;
    [a[c], a[pivot]] = [a[pivot], a[c]];
    const p = a[c][c];
    logDeterminant += Math.log(Math.abs(p));
    for (let k = 0; k < 2 * n; k++) a[c][k] /= p;
    for (let r = 0; r < n; r++) {
      const f = a[r][c];
      if (r === c || f === 0) continue;
      for (let k = c; k < 2 * n; k++) a[r][k] -= f * a[c][k];
    }
  }
  return { inverse: a.map((row) => row.slice(n)), logDeterminant };
}

const times = (a: readonly (readonly number[])[], b: readonly (readonly number[])[]): number[][] =>
  a.map((row) => b[0].map((_, j) => row.reduce((sum, v, k) => sum + v * b[k][j], 0)));
const turned = (a: readonly (readonly number[])[]): number[][] => a[0].map((_, j) => a.map((row) => row[j]));

/** D of order 1 or 2 over n rows. */
function differences(n: number, order: 1 | 2): number[][] {
  const weights = order === 1 ? [-1, 1] : [1, -2, 1];
  return Array.from({ length: n - order }, (_, i) => Array.from({ length: n }, (__, j) => weights[j - i] ?? 0));
}

/** Hours with weight, and the covariance between them written out, for σ = 1. */
function denseCovariance(rows: TideRows, [lnRho, lnLambda, lnMu]: NoiseTheta): { kept: number[]; covariance: number[][] } {
  const { hours: n, weights } = rows;
  const [rho, lambda, mu] = [lnRho, lnLambda, lnMu].map(Math.exp);
  const dt = 1 / 24;
  const g = (lambda ** 2 + (4 * Math.PI) ** 2) * (1 + (4 * Math.PI) ** 2 / mu ** 2);
  const d1 = differences(n, 1);
  const d2 = differences(n, 2);
  const one = times(turned(d1), d1);
  const two = times(turned(d2), d2);
  const q = one.map((row, i) =>
    row.map((v, j) => ((i === j ? lambda ** 2 : 0) + ((1 + lambda ** 2 / mu ** 2) * v) / dt ** 2 + two[i][j] / (mu ** 2 * dt ** 4)) / g),
  );
  const process = denseInverse(q).inverse;
  const kept = Array.from({ length: n }, (_, i) => i).filter((i) => weights[i] > 0);
  return { kept, covariance: kept.map((i) => kept.map((j) => process[i][j] + (i === j ? rho / weights[i] : 0))) };
}

/**
 * Several stretches in one regression: means and slopes of their own, one tide, no covariance between stretches. The slow
 * plain twin of `joinFits`.
 *
 * @returns coefficients of the pairs, and their covariance for σ = 1
 */
export function denseJoined(stretches: readonly TideRows[], theta: NoiseTheta): { beta: number[]; inverse: number[][] } {
  const smooth = stretches.reduce((sum, r) => sum + r.smooth, 0);
  const tides = stretches[0].columns - stretches[0].smooth;
  const parts = stretches.map((rows) => denseCovariance(rows, theta));
  const total = parts.reduce((sum, p) => sum + p.kept.length, 0);
  const covariance = Array.from({ length: total }, () => new Array<number>(total).fill(0));
  const x = Array.from({ length: total }, () => new Array<number>(smooth + tides).fill(0));
  const y = Array.from({ length: total }, () => [0]);
  let at = 0;
  let column = 0;
  for (const [k, rows] of stretches.entries()) {
    const { kept, covariance: own } = parts[k];
    for (const [i, hour] of kept.entries()) {
      for (const j of kept.keys()) covariance[at + i][at + j] = own[i][j];
      for (let c = 0; c < rows.smooth; c++) x[at + i][column + c] = rows.table[c * rows.hours + hour];
      for (let c = 0; c < tides; c++) x[at + i][smooth + c] = rows.table[(rows.smooth + c) * rows.hours + hour];
      y[at + i][0] = rows.table[rows.columns * rows.hours + hour];
    }
    at += kept.length;
    column += rows.smooth;
  }
  const xs = times(turned(x), denseInverse(covariance).inverse);
  const { inverse } = denseInverse(times(xs, x));
  const beta = times(inverse, times(xs, y)).map((b) => b[0]);
  return { beta: beta.slice(smooth), inverse: inverse.slice(smooth).map((row) => row.slice(smooth)) };
}

/** Generalized least squares with the covariance written out: the slow plain twin of `fusedPass` and `besideLines`. */
export function denseFit(rows: TideRows, theta: NoiseTheta): {
  minusTwoReml: number;
  beta: number[];
  inverseA: number[][];
  sigma2: number;
  ratioAt: (f: number) => number;
} {
  const { hours: n, columns: p, table, firstInstant } = rows;
  const dt = 1 / 24;
  const { kept, covariance } = denseCovariance(rows, theta);
  const { inverse: s, logDeterminant } = denseInverse(covariance);
  const x = kept.map((i) => Array.from({ length: p }, (_, k) => table[k * n + i]));
  const y = kept.map((i) => [table[p * n + i]]);
  const xs = times(turned(x), s);
  const a = denseInverse(times(xs, x));
  const beta = times(a.inverse, times(xs, y));
  const residual = y.map(([v], i) => [v - x[i].reduce((sum, u, k) => sum + u * beta[k][0], 0)]);
  const sigma2 = times(times(turned(residual), s), residual)[0][0] / (kept.length - p);
  const ratioAt = (f: number): number => {
    const c = kept.map((i) => [Math.cos(2 * Math.PI * f * (firstInstant + i * dt)), Math.sin(2 * Math.PI * f * (firstInstant + i * dt))]);
    const cs = times(turned(c), s);
    const z = times(cs, residual);
    const h = times(xs, c);
    const less = times(times(turned(h), a.inverse), h);
    const v = denseInverse(times(cs, c).map((row, i) => row.map((w, j) => w - less[i][j]))).inverse;
    return times(times(turned(z), v), z)[0][0] / (2 * sigma2);
  };
  return {
    minusTwoReml: (kept.length - p) * Math.log(sigma2) + logDeterminant + a.logDeterminant,
    beta: beta.map((b) => b[0]),
    inverseA: a.inverse,
    sigma2,
    ratioAt,
  };
}
