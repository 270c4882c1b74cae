/**
 * The straight line of least squares through even steps.
 *
 * @param values gap-free · any unit · [n]
 * @returns      [n]
 * @example leastSquaresLine(Float64Array.of(1, 3, 5)) // 1, 3, 5
 */
export function leastSquaresLine(values: Float64Array): Float64Array {
  const n = values.length;
  const middle = (n - 1) / 2;
  let level = 0;
  let slope = 0;
  for (let i = 0; i < n; i++) {
    level += values[i] / n;
    slope += (i - middle) * values[i];
  }
  if (n > 1) slope /= (n * (n * n - 1)) / 12;
  const line: Float64Array = new Float64Array(n);
  for (let i = 0; i < n; i++) line[i] = level + slope * (i - middle);
  return line;
}

/**
 * Takes mean and slope out of even steps.
 *
 * @param values gap-free · any unit · [n]
 * @returns      what is left · [n]
 * @example withoutLine(Float64Array.of(1, 3, 5)) // 0, 0, 0
 */
export function withoutLine(values: Float64Array): Float64Array {
  const line = leastSquaresLine(values);
  for (let i = 0; i < line.length; i++) line[i] = values[i] - line[i];
  return line;
}
