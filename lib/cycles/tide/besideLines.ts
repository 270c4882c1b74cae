import { hourInDays } from "./bandedNoise.js";
import type { PassState } from "./fusedPass.js";
import { solveInPlace } from "./smallCholesky.js";
import type { TideRows } from "./tideRows.js";

/** How much noise stands at one frequency beside a line, over what the model says; expectation 1 under the model. */
export type NoiseRatioAt = (cyclesPerDay: number) => number;

/** Rows after which the turning cosine and sine are made afresh, so that rounding does not grow. */
const freshEvery = 64;

/** Σ⁻¹ of the columns and of the residual · column-major [(p + 1) × hours], residual last; 0 at missing hours. */
function weighted(rows: TideRows, state: PassState, rho: number, q: readonly [number, number, number]): Float64Array {
  const { hours: n, columns: p, smooth, table, weights, smoothFull, smoothFirst, smoothSecond } = rows;
  const { below1, below2, inverseD, beta } = state;
  const width = p + 1;
  const out: Float64Array = new Float64Array(n * width);
  const right = (i: number, k: number): number => {
    if (k < smooth) {
      const at = k * n + i;
      return q[0] * smoothFull[at] + q[1] * smoothFirst[at] + q[2] * smoothSecond[at];
    }
    return (weights[i] / rho) * plain(i, k);
  };
  const plain = (i: number, k: number): number => {
    if (k < p) return table[k * n + i];
    // The residual; means and slopes are taken off too.
    let r = table[p * n + i];
    for (let m = 0; m < p; m++) r -= table[m * n + i] * beta[m];
    return r;
  };
  for (let k = 0; k < width; k++) {
    let z1 = 0;
    let z2 = 0;
    for (let i = 0; i < n; i++) {
      const z = right(i, k) - below1[i] * z1 - below2[i] * z2;
      out[k * n + i] = z;
      z2 = z1;
      z1 = z;
    }
    let x1 = 0;
    let x2 = 0;
    let b1 = 0;
    let b2 = 0;
    let c2 = 0;
    for (let i = n - 1; i >= 0; i--) {
      // Lᵀx = D⁻¹z: row i needs L(i+1, i) and L(i+2, i).
      const x = out[k * n + i] * inverseD[i] - b1 * x1 - c2 * x2;
      x2 = x1;
      x1 = x;
      b1 = below1[i];
      c2 = b2;
      b2 = below2[i];
      const w = weights[i] / rho;
      out[k * n + i] = k < smooth ? w * x : w * (plain(i, k) - x);
    }
  }
  return out;
}

/** Fills cos and sin of one frequency at every hour, and their CᵀΣ⁻¹C: cos·cos, sin·sin, cos·sin. */
function turnAndCarry(
  cyclesPerDay: number,
  { hours: n, weights, firstInstant }: TideRows,
  { below1, below2, inverseD }: PassState,
  rho: number,
  cosines: Float64Array,
  sines: Float64Array,
  square: Float64Array,
): void {
  const turn = 2 * Math.PI * cyclesPerDay * hourInDays;
  const ct = Math.cos(turn);
  const st = Math.sin(turn);
  const inverseRho = 1 / rho;
  let c = 0;
  let s = 0;
  let cc = 0;
  let ss = 0;
  let cs = 0;
  let x1 = 0;
  let x2 = 0;
  let y1 = 0;
  let y2 = 0;
  for (let i = 0; i < n; i++) {
    if (i % freshEvery === 0) {
      const angle = 2 * Math.PI * cyclesPerDay * (firstInstant + i * hourInDays);
      c = Math.cos(angle);
      s = Math.sin(angle);
    }
    const wc = weights[i] * inverseRho * c;
    const ws = weights[i] * inverseRho * s;
    const x = wc - below2[i] * x2 - below1[i] * x1;
    const y = ws - below2[i] * y2 - below1[i] * y1;
    x2 = x1;
    x1 = x;
    y2 = y1;
    y1 = y;
    const d = inverseD[i];
    cc += wc * c - d * x * x;
    ss += ws * s - d * y * y;
    cs += wc * s - d * x * y;
    cosines[i] = c;
    sines[i] = s;
    const next = c * ct - s * st;
    s = s * ct + c * st;
    c = next;
  }
  square[0] = cc;
  square[1] = ss;
  square[2] = cs;
}

/** Σ of every known column times cosines, then times sines; two columns at a time, sums kept in registers. */
function products(known: Float64Array, cosines: Float64Array, sines: Float64Array, width: number, sums: Float64Array): void {
  const n = cosines.length;
  for (let k = 0; k < width; k += 2) {
    const a = k * n;
    const b = k + 1 < width ? a + n : a;
    let ac = 0;
    let as = 0;
    let bc = 0;
    let bs = 0;
    for (let i = 0; i < n; i++) {
      const c = cosines[i];
      const s = sines[i];
      const x = known[a + i];
      const y = known[b + i];
      ac += x * c;
      as += x * s;
      bc += y * c;
      bs += y * s;
    }
    sums[k] = ac;
    sums[width + k] = as;
    if (b > a) {
      sums[k + 1] = bc;
      sums[width + k + 1] = bs;
    }
  }
}

/**
 * Prepares the measurement of the noise that really stands beside the lines, after an evaluation at the final noise.
 *
 * For a cosine and sine C at the frequency: zᵀV⁻¹z / (2σ²), z = CᵀΣ⁻¹(y − Xβ), V = CᵀΣ⁻¹C − HᵀA⁻¹H, H = XᵀΣ⁻¹C. It does not
 * change with the scale or phase of C, and is 1 on average under the model whatever the gaps.
 *
 * @param rows  see `tideRows`
 * @param state as `fusedPass` left it at the final noise
 * @param lnRho of that noise
 * @param q     see `precisionWeights`, at that noise
 */
export function besideLines(rows: TideRows, state: PassState, lnRho: number, q: readonly [number, number, number]): NoiseRatioAt {
  const { hours: n, columns: p } = rows;
  const { factor, sigma2 } = state;
  const rho = Math.exp(lnRho);
  const width = p + 1;
  const known = weighted(rows, state, rho, q);
  const sums: Float64Array = new Float64Array(2 * width);
  const solved: Float64Array = new Float64Array(p);
  const cosines: Float64Array = new Float64Array(n);
  const sines: Float64Array = new Float64Array(n);
  const square: Float64Array = new Float64Array(3);
  return (cyclesPerDay) => {
    turnAndCarry(cyclesPerDay, rows, state, rho, cosines, sines, square);
    const [cc, ss, cs] = square;
    products(known, cosines, sines, width, sums);
    const less = (a: number, b: number): number => {
      for (let k = 0; k < p; k++) solved[k] = sums[a * width + k];
      solveInPlace(factor, p, solved);
      let sum = 0;
      for (let k = 0; k < p; k++) sum += solved[k] * sums[b * width + k];
      return sum;
    };
    const v11 = cc - less(0, 0);
    const v22 = ss - less(1, 1);
    const v12 = cs - less(0, 1);
    const z1 = sums[p];
    const z2 = sums[width + p];
    return (z1 * z1 * v22 - 2 * z1 * z2 * v12 + z2 * z2 * v11) / ((v11 * v22 - v12 * v12) * 2 * sigma2);
  };
}
