import { type NoiseTheta, precisionWeights } from "./bandedNoise.js";
import { factorInPlace, solveInPlace } from "./smallCholesky.js";
import type { TideRows } from "./tideRows.js";

/** What one evaluation leaves behind; the arrays are overwritten by the next. */
export interface PassState {
  /** L of P = Q + W: entries one and two below the diagonal, and 1/D · [hours] each. */
  readonly below1: Float64Array;
  readonly below2: Float64Array;
  readonly inverseD: Float64Array;
  /** Cholesky factor of A = XᵀΣ⁻¹X (lower half) · [p × p]. */
  readonly factor: Float64Array;
  /** Fitted coefficients, y less its level · [p]. */
  readonly beta: Float64Array;
  /** Scale of the noise, σ². */
  sigma2: number;
}

/** One evaluation of the restricted likelihood, and what it leaves behind. */
export interface FusedPass {
  /** −2 ln restricted likelihood, constants left out; NaN where the normal matrix is not positive definite. */
  evaluate(theta: NoiseTheta): number;
  readonly state: PassState;
}

/** Rows whose products are added at once: the sums are then read and written a quarter as often. */
const block = 4;

/** Entries of D₁ᵀD₁ and D₂ᵀD₂ in row i of n: diagonal, one below, two below. */
function bandOf(i: number, n: number, [q0, q1, q2]: readonly [number, number, number], out: Float64Array): void {
  const ends1 = (i > 0 ? 1 : 0) + (i < n - 1 ? 1 : 0);
  const ends2 = (i <= n - 3 ? 1 : 0) + (i >= 1 && i <= n - 2 ? 4 : 0) + (i >= 2 ? 1 : 0);
  out[0] = q0 + q1 * ends1 + q2 * ends2;
  out[1] = i === 0 ? 0 : -q1 - 2 * q2 * ((i <= n - 2 ? 1 : 0) + (i >= 2 ? 1 : 0));
  out[2] = i < 2 ? 0 : q2;
}

/**
 * Prepares the one-pass evaluation for a record; each evaluation is one loop over the hours and allocates nothing.
 *
 * One loop factors Q and P = Q + W, carries every column of W[X y] through L⁻¹ and sums their products. The rows of the
 * normal matrix that belong to means and slopes are taken from L⁻¹Qv instead of a difference of large numbers.
 *
 * @param rows see `tideRows`
 */
export function fusedPass(rows: TideRows): FusedPass {
  const { hours: n, kept, columns: p, smooth, table, smoothFull, smoothFirst, smoothSecond, weights } = rows;
  const width = p + 1;
  const gram: Float64Array = gramOf(table, weights, n, width);
  let logWeights = 0;
  for (let i = 0; i < n; i++) if (weights[i] > 0) logWeights += Math.log(weights[i]);
  const sums: Float64Array = new Float64Array((width * (width + 1)) / 2);
  const cross: Float64Array = new Float64Array(smooth * width);
  const normal: Float64Array = new Float64Array(p * p);
  const right: Float64Array = new Float64Array(p);
  const z: Float64Array = new Float64Array((block + 2) * width);
  const v: Float64Array = new Float64Array((block + 2) * smooth);
  const scale: Float64Array = new Float64Array(block);
  const band: Float64Array = new Float64Array(3);
  const state: PassState = {
    below1: new Float64Array(n),
    below2: new Float64Array(n),
    inverseD: new Float64Array(n),
    factor: normal,
    beta: new Float64Array(p),
    sigma2: Number.NaN,
  };
  const { below1, below2, inverseD, beta } = state;

  function evaluate(theta: NoiseTheta): number {
    const rho = Math.exp(theta[0]);
    const q = precisionWeights(Math.exp(theta[1]), Math.exp(theta[2]));
    sums.fill(0);
    cross.fill(0);
    z.fill(0);
    v.fill(0);
    let logP = 0;
    let logQ = 0;
    let productP = 1;
    let productQ = 1;
    let q1 = 0; // 1/D and L of Q, one and two rows back
    let q2 = 0;
    let lq = 0;
    let d1 = 0; // the same of P
    let d2 = 0;
    let lp = 0;
    for (let i = 0; i < n; i++) {
      if (i < 3 || i > n - 3) bandOf(i, n, q, band);
      const e = band[1];
      const f = band[2];
      const w = weights[i] / rho;
      // Q
      const e1 = e - f * lq;
      const dq = band[0] - e1 * e1 * q1 - f * f * q2;
      lq = e1 * q1;
      q2 = q1;
      q1 = 1 / dq;
      productQ *= dq;
      // P
      const g1 = e - f * lp;
      const dp = band[0] + w - g1 * g1 * d1 - f * f * d2;
      lp = g1 * d1;
      const l2 = f * d2;
      d2 = d1;
      d1 = 1 / dp;
      productP *= dp;
      below1[i] = lp;
      below2[i] = l2;
      inverseD[i] = d1;
      if ((i & 15) === 15) {
        logP += Math.log(productP);
        logQ += Math.log(productQ);
        productP = 1;
        productQ = 1;
      }
      const here = i % block;
      scale[here] = d1;
      const to = (here + 2) * width;
      const at = i * width;
      for (let k = 0; k < width; k++) z[to + k] = w * table[at + k] - lp * z[to - width + k] - l2 * z[to - 2 * width + k];
      const into = (here + 2) * smooth;
      const from = i * smooth;
      for (let k = 0; k < smooth; k++) {
        const qv = q[0] * smoothFull[from + k] + q[1] * smoothFirst[from + k] + q[2] * smoothSecond[from + k];
        v[into + k] = qv - lp * v[into - smooth + k] - l2 * v[into - 2 * smooth + k];
      }
      if (here === block - 1 || i === n - 1) {
        scale.fill(0, here + 1);
        addProducts(z, scale, width, sums);
        addCrossProducts(v, z, scale, smooth, width, cross);
        z.copyWithin(0, block * width);
        v.copyWithin(0, block * smooth);
      }
    }
    logP += Math.log(productP);
    logQ += Math.log(productQ);
    return finish(rho, logP - logQ);
  }

  /** From the sums to coefficients, σ² and the restricted likelihood. */
  function finish(rho: number, logPOverQ: number): number {
    let s = 0;
    for (let k = 0; k < p; k++) {
      for (let m = 0; m <= k; m++) {
        normal[k * p + m] = m < smooth ? cross[m * width + k] : gram[s] / rho - sums[s];
        s++;
      }
    }
    for (let k = 0; k < p; k++) {
      right[k] = k < smooth ? cross[k * width + p] : gram[s + k] / rho - sums[s + k];
    }
    const total = gram[s + p] / rho - sums[s + p];
    const logA = factorInPlace(normal, p);
    beta.set(right);
    solveInPlace(normal, p, beta);
    let rss = total;
    for (let k = 0; k < p; k++) rss -= right[k] * beta[k];
    state.sigma2 = rss / (kept - p);
    return (kept - p) * Math.log(state.sigma2) + logPOverQ - logWeights + kept * Math.log(rho) + logA;
  }

  return { evaluate, state };
}

/** Adds Σ z zᵀ/D over a block of four rows to the packed lower half. */
function addProducts(z: Float64Array, scale: Float64Array, width: number, sums: Float64Array): void {
  const d0 = scale[0];
  const d1 = scale[1];
  const d2 = scale[2];
  const d3 = scale[3];
  const r0 = 2 * width;
  const r1 = 3 * width;
  const r2 = 4 * width;
  const r3 = 5 * width;
  let s = 0;
  for (let k = 0; k < width; k++) {
    const z0 = d0 * z[r0 + k];
    const z1 = d1 * z[r1 + k];
    const z2 = d2 * z[r2 + k];
    const z3 = d3 * z[r3 + k];
    for (let m = 0; m <= k; m++, s++) sums[s] += z0 * z[r0 + m] + z1 * z[r1 + m] + z2 * z[r2 + m] + z3 * z[r3 + m];
  }
}

/** Adds Σ v zᵀ/D over a block of four rows · row-major [smooth × width]. */
function addCrossProducts(v: Float64Array, z: Float64Array, scale: Float64Array, smooth: number, width: number, cross: Float64Array): void {
  for (let k = 0; k < smooth; k++) {
    const v0 = scale[0] * v[2 * smooth + k];
    const v1 = scale[1] * v[3 * smooth + k];
    const v2 = scale[2] * v[4 * smooth + k];
    const v3 = scale[3] * v[5 * smooth + k];
    const at = k * width;
    for (let m = 0; m < width; m++) cross[at + m] += v0 * z[2 * width + m] + v1 * z[3 * width + m] + v2 * z[4 * width + m] + v3 * z[5 * width + m];
  }
}

/** Lower half of Σ n_i [x y]ᵀ[x y]. */
function gramOf(table: Float64Array, weights: Float64Array, n: number, width: number): Float64Array {
  const gram: Float64Array = new Float64Array((width * (width + 1)) / 2);
  for (let i = 0; i < n; i++) {
    if (weights[i] === 0) continue;
    let s = 0;
    for (let k = 0; k < width; k++) {
      const x = weights[i] * table[i * width + k];
      for (let m = 0; m <= k; m++) gram[s++] += x * table[i * width + m];
    }
  }
  return gram;
}
