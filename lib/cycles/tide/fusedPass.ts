import { type NoiseTheta, precisionWeights } from "./bandedNoise.js";
import { type BlockProducts, blockProducts, blockRows } from "./blockProducts.js";
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
  /** −2 ln restricted likelihood, constants left out; NaN where the columns cannot be told apart. */
  evaluate(theta: NoiseTheta): number;
  readonly state: PassState;
}

/**
 * Prepares the one-pass evaluation for a record; each evaluation runs once over the hours and allocates nothing.
 *
 * It factors Q and P = Q + W, carries every column of W[X y] through L⁻¹ and sums their products. The rows of the normal
 * matrix that belong to means and slopes are taken from L⁻¹Qv instead of a difference of large numbers. The loops stand
 * outside this function: inside a function that is made anew for every record they run at a third of the speed.
 *
 * @param rows see `tideRows`
 */
export function fusedPass(rows: TideRows): FusedPass {
  const { hours: n, kept, columns: p, smooth, weights } = rows;
  const width = p + 1;
  const products = blockProducts(width + smooth);
  const gram = gramOf(rows);
  const separable = isSeparable(gram, width);
  let logWeights = 0;
  for (let i = 0; i < n; i++) if (weights[i] > 0) logWeights += Math.log(weights[i]);
  const normal: Float64Array = new Float64Array(p * p);
  const right: Float64Array = new Float64Array(p);
  const beta: Float64Array = new Float64Array(p);
  const state: PassState = {
    below1: new Float64Array(n),
    below2: new Float64Array(n),
    inverseD: new Float64Array(n),
    factor: normal,
    beta,
    sigma2: Number.NaN,
  };
  const { sums, size } = products;

  /** Entry of A, c or yᵀΣ⁻¹y: column k against column m ≤ k, y being the last. */
  const entry = (k: number, m: number, rho: number): number => (m < smooth ? sums[(width + m) * size + k] : gram[k * width + m] / rho - sums[k * size + m]);

  function evaluate(theta: NoiseTheta): number {
    if (!separable) return Number.NaN;
    const rho = Math.exp(theta[0]);
    const q = precisionWeights(Math.exp(theta[1]), Math.exp(theta[2]));
    const logPOverQ = factorBands(weights, rho, q, state);
    carryColumns(rows, rho, q, state, products);
    for (let k = 0; k < p; k++) for (let m = 0; m <= k; m++) normal[k * p + m] = entry(k, m, rho);
    for (let k = 0; k < p; k++) right[k] = entry(p, k, rho);
    const logA = factorInPlace(normal, p);
    beta.set(right);
    solveInPlace(normal, p, beta);
    let rss = entry(p, p, rho);
    for (let k = 0; k < p; k++) rss -= right[k] * beta[k];
    state.sigma2 = rss / (kept - p);
    return (kept - p) * Math.log(state.sigma2) + logPOverQ - logWeights + kept * Math.log(rho) + logA;
  }

  return { evaluate, state };
}

/** L, D of P = Q + W into the state; returns ln|P| − ln|Q|. Logarithms are taken of products of sixteen pivots. */
function factorBands(weights: Float64Array, rho: number, [w0, w1, w2]: readonly [number, number, number], state: PassState): number {
  const { below1, below2, inverseD } = state;
  const n = weights.length;
  let log = 0;
  let productP = 1;
  let productQ = 1;
  let q1 = 0; // 1/D of Q, one and two rows back, and its L one below
  let q2 = 0;
  let lq = 0;
  let d1 = 0; // the same of P
  let d2 = 0;
  let lp = 0;
  for (let i = 0; i < n; i++) {
    // Entries of D₁ᵀD₁ and D₂ᵀD₂: fewer differences meet in the rows at both ends.
    const second = i >= 2 ? 1 : 0;
    const before = i >= 1 ? 1 : 0;
    const after = i <= n - 2 ? 1 : 0;
    const ahead = i <= n - 3 ? 1 : 0;
    const diagonal = w0 + w1 * (before + after) + w2 * (ahead + 4 * before * after + second);
    // Read from the second row on: q1 and d1 are 0 before it.
    const e = -w1 - 2 * w2 * (after + second);
    const f = second * w2;
    const e1 = e - f * lq;
    const dq = diagonal - e1 * e1 * q1 - f * f * q2;
    lq = e1 * q1;
    q2 = q1;
    q1 = 1 / dq;
    productQ *= dq;
    const g1 = e - f * lp;
    const dp = diagonal + weights[i] / rho - g1 * g1 * d1 - f * f * d2;
    lp = g1 * d1;
    below1[i] = lp;
    below2[i] = f * d2;
    d2 = d1;
    d1 = 1 / dp;
    productP *= dp;
    inverseD[i] = d1;
    if ((i & 15) === 15 || i === n - 1) {
      log += Math.log(productP) - Math.log(productQ);
      productP = 1;
      productQ = 1;
    }
  }
  return log;
}

/** Carries W[X y] and Qv through L⁻¹, block after block, and sums z zᵀ/D. */
function carryColumns(rows: TideRows, rho: number, [w0, w1, w2]: readonly [number, number, number], state: PassState, products: BlockProducts): void {
  const { hours: n, columns, smooth, table, smoothFull, smoothFirst, smoothSecond, weights } = rows;
  const { block } = products;
  const width = columns + 1;
  const inverseRho = 1 / rho;
  products.clear();
  for (let from = 0; from < n; from += blockRows) {
    const count = Math.min(blockRows, n - from);
    for (let k = 0; k < width; k++) {
      const to = k * blockRows;
      const at = k * n + from;
      for (let i = 0; i < count; i++) block[to + i] = weights[from + i] * inverseRho * table[at + i];
    }
    for (let k = 0; k < smooth; k++) {
      const to = (width + k) * blockRows;
      const at = k * n + from;
      for (let i = 0; i < count; i++) block[to + i] = w0 * smoothFull[at + i] + w1 * smoothFirst[at + i] + w2 * smoothSecond[at + i];
    }
    products.add(state.below1, state.below2, state.inverseD, from, count);
  }
}

/** Σ n_i [x y]ᵀ[x y], lower half · row-major [width × width]. */
function gramOf({ hours: n, columns, table, weights }: TideRows): Float64Array {
  const width = columns + 1;
  const gram: Float64Array = new Float64Array(width * width);
  for (let k = 0; k < width; k++) {
    for (let m = 0; m <= k; m++) {
      let sum = 0;
      for (let i = 0, a = k * n, b = m * n; i < n; i++, a++, b++) sum += weights[i] * table[a] * table[b];
      gram[k * width + m] = sum;
    }
  }
  return gram;
}

/** Whether the columns can be told apart at all at the hours that were observed; later differences would hide it by rounding. */
function isSeparable(gram: Float64Array, width: number): boolean {
  const p = width - 1;
  const copy: Float64Array = new Float64Array(p * p);
  for (let k = 0; k < p; k++) for (let m = 0; m <= k; m++) copy[k * p + m] = gram[k * width + m];
  return !Number.isNaN(factorInPlace(copy, p));
}
