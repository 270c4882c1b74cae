import { mustSentence, requireReadings } from "./complaint.js";
import { orthogonalFactor } from "./matrixFactors.js";

/** What a straight fit of several columns gives. */
export interface LeastSquares {
  /** One per column · unit of y by unit of the column · [p]. */
  readonly coefficients: Float64Array;
  /** Standard errors for white residuals · [p]. */
  readonly standardErrors: Float64Array;
  /** Covariance of the coefficients for white residuals, rows · [p][p]. */
  readonly covariance: readonly Float64Array[];
  /** (XᵀX)⁻¹, rows · [p][p]: covariance before the residual variance. */
  readonly unitCovariance: readonly Float64Array[];
  /** y less the fit · unit of y · [n]. */
  readonly residuals: Float64Array;
  /** Sum of squared residuals / degrees of freedom · unit of y squared. */
  readonly residualVariance: number;
  /** n − p. */
  readonly degreesOfFreedom: number;
}

/**
 * Columns whose part not told by the earlier columns is smaller than this share of their length are refused.
 * Powers 0…10 of a raw x from −9 to −3 (NIST Filip) leave 5e-8 and are answered; proportional columns leave about 1e-16.
 */
const independence = 1e-12;

/**
 * Fits y by a sum of columns, by least squares.
 *
 * Householder's QR on columns brought to unit length: units and size of a column do not matter, and no normal equations
 * are formed. The errors hold for residuals without memory; air has memory, so for daily values use `olsAr1`.
 *
 * @param columns p columns of n numbers · a constant term is a column of ones
 * @param y       what is to be told · any unit · [n]
 * @returns       see LeastSquares, frozen
 * @throws RangeError when lengths differ, there are not more rows than columns, a number is not finite (drop such rows
 *                    first), a y is beyond ±1e60, or a column is a combination of earlier ones
 * @example leastSquares([[1, 1, 1], [0, 1, 2]], [1, 3, 5]).coefficients // 1, 2
 * @source QR decomposition by the package ml-matrix; NIST StRD linear regression sets
 */
export function leastSquares(columns: readonly ArrayLike<number>[], y: ArrayLike<number>): LeastSquares {
  const p = columns.length;
  const n = y.length;
  if (p === 0) throw new RangeError(mustSentence("leastSquares", "columns", "hold at least one column", "none"));
  if (n <= p) throw new RangeError(mustSentence("leastSquares", "y", `have more rows than the ${p} columns`, String(n)));
  for (let i = 0; i < n; i++) {
    if (!Number.isFinite(y[i])) throw new RangeError(mustSentence("leastSquares", "y", "be finite", `${y[i]} at index ${i}`, "drop such rows first"));
  }
  requireReadings("leastSquares", "y", y);
  const scale: Float64Array = new Float64Array(p);
  const scaled = columns.map((column, j) => {
    scale[j] = unitScale(column, j, n);
    return Float64Array.from(column, (v) => v * scale[j]);
  });
  const { coefficients: b, triangle } = orthogonalFactor(scaled, y);
  for (let j = 0; j < p; j++) {
    // Columns have a length from 1 to 2: the scale is a power of two, so that scaling rounds nothing.
    if (Math.abs(triangle[j][j]) > independence) continue;
    const left = Math.abs(triangle[j][j]).toExponential(1);
    throw new RangeError(mustSentence("leastSquares", "columns", "be independent", `column ${j}, of which earlier columns leave ${left}`, "drop or center it"));
  }
  const residuals: Float64Array = new Float64Array(n);
  let sum = 0;
  for (let i = 0; i < n; i++) {
    let fit = 0;
    for (let j = 0; j < p; j++) fit += scaled[j][i] * b[j];
    residuals[i] = y[i] - fit;
    sum += residuals[i] ** 2;
  }
  const residualVariance = sum / (n - p);
  const unitCovariance = inverseSquare(triangle, scale);
  const covariance = unitCovariance.map((row) => row.map((v) => v * residualVariance));
  return Object.freeze({
    coefficients: b.map((v, j) => v * scale[j]),
    standardErrors: Float64Array.from(covariance, (row, j) => Math.sqrt(row[j])),
    covariance: Object.freeze(covariance),
    unitCovariance: Object.freeze(unitCovariance),
    residuals,
    residualVariance,
    degreesOfFreedom: n - p,
  });
}

/** The power of two that brings a column to a length from 1 to 2. */
function unitScale(column: ArrayLike<number>, j: number, n: number): number {
  if (column.length !== n) throw new RangeError(mustSentence("leastSquares", `column ${j}`, `have the length of y, ${n}`, String(column.length)));
  let largest = 0;
  for (let i = 0; i < n; i++) {
    if (!Number.isFinite(column[i])) {
      throw new RangeError(mustSentence("leastSquares", `column ${j}`, "be finite", `${column[i]} at index ${i}`, "drop such rows first"));
    }
    largest = Math.max(largest, Math.abs(column[i]));
  }
  if (largest === 0) throw new RangeError(mustSentence("leastSquares", `column ${j}`, "hold something other than 0", "all zeros", "drop it"));
  let squares = 0;
  for (let i = 0; i < n; i++) squares += (column[i] / largest) ** 2;
  return 2 ** -Math.floor(Math.log2(largest * Math.sqrt(squares)));
}

/** S (RᵀR)⁻¹ S for an upper triangle R and the diagonal S. */
function inverseSquare(triangle: readonly Float64Array[], scale: Float64Array): Float64Array[] {
  const p = triangle.length;
  const inverse = Array.from({ length: p }, () => new Float64Array(p));
  for (let j = 0; j < p; j++) {
    inverse[j][j] = 1 / triangle[j][j];
    for (let i = j - 1; i >= 0; i--) {
      let sum = 0;
      for (let k = i + 1; k <= j; k++) sum += triangle[i][k] * inverse[k][j];
      inverse[i][j] = -sum / triangle[i][i];
    }
  }
  return Array.from({ length: p }, (_, i) =>
    Float64Array.from({ length: p }, (__, j) => {
      let sum = 0;
      for (let k = Math.max(i, j); k < p; k++) sum += inverse[i][k] * inverse[j][k];
      return sum * scale[i] * scale[j];
    }),
  );
}
