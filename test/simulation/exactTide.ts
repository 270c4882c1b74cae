import { maternStep, type TrueNoise } from "../tideRecord.js";
import { denseInverse } from "../denseTide.js";

/** What generalized least squares with the true noise makes of a record: the bound that no method can pass. */
export interface ExactTide {
  /** cos and sin of S1, S2, S3, S4 in turn · t from the first reading. */
  readonly beta: Float64Array;
  /** Their standard errors. */
  readonly errors: Float64Array;
}

/**
 * Exact generalized least squares of mean, slope and S1…S4 on the readings themselves, by a Kalman filter with the true noise.
 *
 * @param noise  that was drawn
 * @param values even readings · NaN is missing
 * @param h      their spacing · d
 */
export function exactTide(noise: TrueNoise, values: Float64Array, h: number): ExactTide {
  const { ar1, matern } = noise;
  const d = (ar1 === undefined ? 0 : 1) + (matern === undefined ? 0 : 2);
  const turn = Array.from({ length: d }, () => new Float64Array(d));
  const cov = Array.from({ length: d }, () => new Float64Array(d));
  const added = Array.from({ length: d }, () => new Float64Array(d));
  const sees = new Float64Array(d);
  let k0 = 0;
  if (ar1 !== undefined) {
    const a = Math.exp(-h / ar1.efolding);
    turn[0][0] = a;
    cov[0][0] = ar1.sd ** 2;
    added[0][0] = ar1.sd ** 2 * (1 - a * a);
    sees[0] = 1;
    k0 = 1;
  }
  if (matern !== undefined) {
    const { turn: t, noise: l } = maternStep(matern.sd, matern.rate, h);
    const low = [[l[0], 0], [l[1], l[2]]];
    for (const i of [0, 1]) {
      for (const j of [0, 1]) {
        turn[k0 + i][k0 + j] = t[2 * i + j];
        added[k0 + i][k0 + j] = low[i][0] * low[j][0] + low[i][1] * low[j][1];
      }
    }
    cov[k0][k0] = matern.sd ** 2;
    cov[k0 + 1][k0 + 1] = (matern.sd * matern.rate) ** 2;
    sees[k0] = 1;
  }
  const columns = 11;
  const state = Array.from({ length: d }, () => new Float64Array(columns));
  const row = new Float64Array(columns);
  const sums = Array.from({ length: columns }, () => new Float64Array(columns));
  const n = values.length;
  const gain = new Float64Array(d);
  const level = values.find((v) => !Number.isNaN(v)) ?? 0;
  for (let i = 0; i < n; i++) {
    if (i > 0) predict(turn, cov, added, state);
    if (Number.isNaN(values[i])) continue;
    const t = i * h;
    row[0] = 1;
    row[1] = t / (n * h) - 0.5;
    for (let f = 1; f <= 4; f++) {
      row[2 * f] = Math.cos(2 * Math.PI * f * t);
      row[2 * f + 1] = Math.sin(2 * Math.PI * f * t);
    }
    row[10] = values[i] - level;
    let spread = noise.white ** 2;
    for (let a = 0; a < d; a++) {
      gain[a] = 0;
      for (let b = 0; b < d; b++) gain[a] += cov[a][b] * sees[b];
    }
    for (let a = 0; a < d; a++) spread += sees[a] * gain[a];
    for (let c = 0; c < columns; c++) for (let a = 0; a < d; a++) row[c] -= sees[a] * state[a][c];
    for (let c = 0; c < columns; c++) for (let e = 0; e <= c; e++) sums[c][e] += (row[c] * row[e]) / spread;
    for (let a = 0; a < d; a++) for (let c = 0; c < columns; c++) state[a][c] += (gain[a] / spread) * row[c];
    for (let a = 0; a < d; a++) for (let b = 0; b < d; b++) cov[a][b] -= (gain[a] * gain[b]) / spread;
  }
  const p = columns - 1;
  const { inverse } = denseInverse(Array.from({ length: p }, (_, i) => Array.from({ length: p }, (__, j) => sums[Math.max(i, j)][Math.min(i, j)])));
  const beta = inverse.map((r) => r.reduce((sum, v, j) => sum + v * sums[p][j], 0));
  return { beta: Float64Array.from(beta.slice(2)), errors: Float64Array.from(inverse.slice(2), (r, i) => Math.sqrt(r[i + 2])) };
}

/** One step of the filter: state and covariance turned, noise added. */
function predict(turn: readonly Float64Array[], cov: Float64Array[], added: readonly Float64Array[], state: Float64Array[]): void {
  const d = turn.length;
  const half = turn.map((r) => cov.map((_, j) => r.reduce((sum, v, k) => sum + v * cov[k][j], 0)));
  for (let i = 0; i < d; i++) for (let j = 0; j < d; j++) cov[i][j] = added[i][j] + half[i].reduce((sum, v, k) => sum + v * turn[j][k], 0);
  if (d === 0) return;
  for (let c = 0; c < state[0].length; c++) {
    const old = state.map((s) => s[c]);
    for (let i = 0; i < d; i++) {
      let sum = 0;
      for (let k = 0; k < d; k++) sum += turn[i][k] * old[k];
      state[i][c] = sum;
    }
  }
}
