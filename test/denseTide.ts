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

/** Generalized least squares with the covariance written out: the slow plain twin of `fusedPass` and `besideLines`. */
export function denseFit(rows: TideRows, [lnRho, lnLambda, lnMu]: NoiseTheta): {
  minusTwoReml: number;
  beta: number[];
  inverseA: number[][];
  sigma2: number;
  ratioAt: (f: number) => number;
} {
  const { hours: n, columns: p, table, weights, firstInstant } = rows;
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
  const covariance = kept.map((i) => kept.map((j) => process[i][j] + (i === j ? rho / weights[i] : 0)));
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
