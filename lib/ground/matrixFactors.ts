import { CholeskyDecomposition, Matrix, QrDecomposition } from "ml-matrix";
import { mustSentence } from "./complaint.js";

// The door to ml-matrix. It lets NaN, proportional columns and indefinite matrices through without a word, and refuses a
// matrix whose two halves differ in the last bit; all four are settled here.

/** Cholesky factor of a symmetric positive matrix, ready to be asked. */
export interface CholeskyFactor {
  /** x with A x = b · [n]. */
  solve(b: ArrayLike<number>): Float64Array;
  /** A⁻¹ as rows · [n][n] · exactly symmetric. */
  inverse(): Float64Array[];
  /** ln |A|. */
  readonly logDeterminant: number;
}

/** Upper triangle R and the coefficients that solve min |y − X b|. */
export interface OrthogonalFactor {
  /** b · [p]. */
  readonly coefficients: Float64Array;
  /** R of X = QR as rows · [p][p]; its diagonal may be negative. */
  readonly triangle: readonly Float64Array[];
}

/**
 * Factors a small symmetric positive matrix.
 *
 * The matrix is first brought to a unit diagonal, so units of its rows do not matter; only its lower half is read.
 * A pivot below 4 n ε of its own diagonal entry means that rounding decides the answer: then it refuses.
 *
 * @param matrix rows · [n][n] · symmetric, positive; only entries on and below the diagonal are read
 * @returns      see CholeskyFactor
 * @throws RangeError when an entry is not finite or the matrix is not positive definite to rounding
 * @example choleskyFactor([[4, 0], [2, 3]]).solve([8, 7]) // 1.25, 1.5
 * @source Cholesky decomposition by the package ml-matrix
 */
export function choleskyFactor(matrix: readonly ArrayLike<number>[]): CholeskyFactor {
  const n = matrix.length;
  const scale: Float64Array = new Float64Array(n);
  const scaled = Matrix.zeros(n, n);
  for (let i = 0; i < n; i++) {
    const diagonal = matrix[i][i];
    if (!(diagonal > 0 && diagonal < Infinity)) {
      throw new RangeError(mustSentence("choleskyFactor", "matrix", "have a positive diagonal", `${diagonal} in row ${i}`));
    }
    scale[i] = 1 / Math.sqrt(diagonal);
    for (let j = 0; j <= i; j++) {
      const entry = matrix[i][j];
      if (!Number.isFinite(entry)) throw new RangeError(mustSentence("choleskyFactor", "matrix", "be finite", `${entry} in row ${i}, column ${j}`));
      scaled.set(i, j, i === j ? 1 : entry * scale[i] * scale[j]);
      scaled.set(j, i, scaled.get(i, j));
    }
  }
  const factor = new CholeskyDecomposition(scaled);
  const lower = factor.lowerTriangularMatrix;
  let logDeterminant = 0;
  for (let i = 0; i < n; i++) {
    const pivot = lower.get(i, i) ** 2;
    // Written so that NaN is refused too; the package clips negative pivots to 0 and goes on.
    if (!(pivot > 4 * n * Number.EPSILON)) {
      throw new RangeError(mustSentence("choleskyFactor", "matrix", "be positive definite", `row ${i} leaves ${pivot.toExponential(1)} of its diagonal`));
    }
    logDeterminant += Math.log(pivot) - 2 * Math.log(scale[i]);
  }
  const solve = (b: ArrayLike<number>): Float64Array => {
    if (b.length !== n) throw new RangeError(mustSentence("choleskyFactor", "right side", `have the matrix's length, ${n}`, String(b.length)));
    const x = factor.solve(Matrix.columnVector(Array.from({ length: n }, (_, i) => b[i] * scale[i])));
    return Float64Array.from({ length: n }, (_, i) => x.get(i, 0) * scale[i]);
  };
  const inverse = (): Float64Array[] => {
    const x = factor.solve(Matrix.eye(n));
    return Array.from({ length: n }, (_, i) => Float64Array.from({ length: n }, (__, j) => (i >= j ? x.get(i, j) : x.get(j, i)) * scale[i] * scale[j]));
  };
  return Object.freeze({ solve, inverse, logDeterminant });
}

/**
 * Householder's orthogonal factors of a tall matrix, with the least-squares coefficients of one right side.
 *
 * For leastSquares: it expects finite columns of about equal length and does not judge their independence.
 *
 * @param columns p columns of n numbers · finite
 * @param y       right side · [n] · finite
 * @returns       see OrthogonalFactor; coefficients are not finite where a diagonal entry of the triangle is 0
 * @source QR decomposition by the package ml-matrix
 */
export function orthogonalFactor(columns: readonly ArrayLike<number>[], y: ArrayLike<number>): OrthogonalFactor {
  const p = columns.length;
  const n = y.length;
  // y rides along as the last column: R then holds Qᵀy there, and the package's own solve (which throws) is not needed.
  const x = Matrix.zeros(n, p + 1);
  for (let i = 0; i < n; i++) {
    for (let j = 0; j < p; j++) x.set(i, j, columns[j][i]);
    x.set(i, p, y[i]);
  }
  const r = new QrDecomposition(x).upperTriangularMatrix;
  const triangle = Array.from({ length: p }, (_, i) => Float64Array.from({ length: p }, (__, j) => r.get(i, j)));
  const coefficients: Float64Array = new Float64Array(p);
  for (let i = p - 1; i >= 0; i--) {
    let sum = r.get(i, p);
    for (let j = i + 1; j < p; j++) sum -= triangle[i][j] * coefficients[j];
    coefficients[i] = sum / triangle[i][i];
  }
  return Object.freeze({ coefficients, triangle: Object.freeze(triangle) });
}
