import { mustSentence } from "./complaint.js";

/** A symmetric positive matrix with five diagonals, factored as L D Lᵀ and ready to be asked. */
export interface PentadiagonalFactor {
  /** x with A x = b · [n] · O(n). */
  solve(b: ArrayLike<number>): Float64Array;
  /** L⁻¹ b · [n] · forward half only; Σ zᵢ²/Dᵢ of it is bᵀA⁻¹b. */
  forward(b: ArrayLike<number>): Float64Array;
  /** D · [n] · all positive. */
  readonly pivots: Float64Array;
  /** ln |A|. */
  readonly logDeterminant: number;
}

/**
 * Factors a symmetric positive matrix with five diagonals in one pass.
 *
 * For records of thousands of steps whose inverse covariance knows only near neighbors. No pivoting: positive matrices need
 * none, and anything else is refused. NaN in any diagonal is refused.
 *
 * @param diagonal A_ii · [n]
 * @param first    A_(i, i+1) · [n − 1], longer is cut
 * @param second   A_(i, i+2) · [n − 2], longer is cut
 * @returns        see PentadiagonalFactor, frozen
 * @throws RangeError when diagonals are too short or a pivot is not positive
 * @example pentadiagonalFactor([2, 2, 2], [1, 1], [0]).solve([3, 4, 3]) // 1, 1, 1
 * @source L D Lᵀ of a banded matrix, textbook
 */
export function pentadiagonalFactor(diagonal: ArrayLike<number>, first: ArrayLike<number>, second: ArrayLike<number>): PentadiagonalFactor {
  const n = diagonal.length;
  if (n === 0) throw new RangeError(mustSentence("pentadiagonalFactor", "diagonal", "hold at least one number", "none"));
  if (first.length < n - 1) throw new RangeError(mustSentence("pentadiagonalFactor", "first", `hold ${n - 1} numbers`, String(first.length)));
  if (second.length < n - 2) throw new RangeError(mustSentence("pentadiagonalFactor", "second", `hold ${n - 2} numbers`, String(second.length)));
  const pivots: Float64Array = new Float64Array(n);
  // l1[i] = L_(i, i−1), l2[i] = L_(i, i−2)
  const l1: Float64Array = new Float64Array(n);
  const l2: Float64Array = new Float64Array(n);
  let logDeterminant = 0;
  for (let i = 0; i < n; i++) {
    const a2 = i > 1 ? second[i - 2] : 0;
    let a1 = i > 0 ? first[i - 1] : 0;
    let d = diagonal[i];
    if (i > 1) {
      l2[i] = a2 / pivots[i - 2];
      a1 -= a2 * l1[i - 1];
      d -= a2 * l2[i];
    }
    if (i > 0) {
      l1[i] = a1 / pivots[i - 1];
      d -= a1 * l1[i];
    }
    if (!(d > 0 && d < Infinity)) {
      throw new RangeError(mustSentence("pentadiagonalFactor", "matrix", "be positive definite and finite", `pivot ${d} in row ${i}`));
    }
    pivots[i] = d;
    logDeterminant += Math.log(d);
  }
  const forward = (b: ArrayLike<number>): Float64Array => {
    if (b.length !== n) throw new RangeError(mustSentence("pentadiagonalFactor", "right side", `have the matrix's length, ${n}`, String(b.length)));
    const z: Float64Array = Float64Array.from(b);
    for (let i = 1; i < n; i++) z[i] -= l1[i] * z[i - 1] + (i > 1 ? l2[i] * z[i - 2] : 0);
    return z;
  };
  const solve = (b: ArrayLike<number>): Float64Array => {
    const x = forward(b);
    for (let i = n - 1; i >= 0; i--) {
      x[i] /= pivots[i];
      if (i + 1 < n) x[i] -= l1[i + 1] * x[i + 1];
      if (i + 2 < n) x[i] -= l2[i + 2] * x[i + 2];
    }
    return x;
  };
  return Object.freeze({ solve, forward, pivots, logDeterminant });
}
