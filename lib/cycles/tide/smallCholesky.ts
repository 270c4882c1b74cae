/** A pivot below this share of its own diagonal entry means that columns cannot be told apart. */
const leastPivot = 1e-11;

/**
 * Cholesky factor of a small symmetric matrix, in place and without allocation, for the inside of the search.
 *
 * @param matrix row-major [n × n]; the lower half is read and becomes the factor
 * @returns      ln of the determinant, or NaN when the matrix is not positive definite (to eleven digits)
 */
export function factorInPlace(matrix: Float64Array, n: number): number {
  let log = 0;
  for (let j = 0; j < n; j++) {
    const diagonal = matrix[j * n + j];
    let pivot = diagonal;
    for (let k = 0; k < j; k++) pivot -= matrix[j * n + k] * matrix[j * n + k];
    if (!(pivot > leastPivot * diagonal)) return Number.NaN;
    log += Math.log(pivot);
    const root = Math.sqrt(pivot);
    matrix[j * n + j] = root;
    for (let i = j + 1; i < n; i++) {
      let sum = matrix[i * n + j];
      for (let k = 0; k < j; k++) sum -= matrix[i * n + k] * matrix[j * n + k];
      matrix[i * n + j] = sum / root;
    }
  }
  return log;
}

/** Solves L Lᵀ x = b in place. */
export function solveInPlace(factor: Float64Array, n: number, b: Float64Array): void {
  for (let i = 0; i < n; i++) {
    let sum = b[i];
    for (let k = 0; k < i; k++) sum -= factor[i * n + k] * b[k];
    b[i] = sum / factor[i * n + i];
  }
  for (let i = n - 1; i >= 0; i--) {
    let sum = b[i];
    for (let k = i + 1; k < n; k++) sum -= factor[k * n + i] * b[k];
    b[i] = sum / factor[i * n + i];
  }
}

/** Inverse of the factored matrix · row-major [n × n], exactly symmetric. */
export function inverseOf(factor: Float64Array, n: number): Float64Array {
  const inverse: Float64Array = new Float64Array(n * n);
  const unit: Float64Array = new Float64Array(n);
  for (let j = 0; j < n; j++) {
    unit.fill(0);
    unit[j] = 1;
    solveInPlace(factor, n, unit);
    for (let i = j; i < n; i++) {
      inverse[i * n + j] = unit[i];
      inverse[j * n + i] = unit[i];
    }
  }
  return inverse;
}
