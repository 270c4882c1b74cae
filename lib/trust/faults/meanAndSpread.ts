/**
 * Mean and standard deviation (n − 1) of the values present, without a copy of them: for millions of values, where a list of numbers beside
 * the array costs more memory than the array.
 *
 * @param values any unit · [n] · NaN is left out
 * @returns      same unit · NaN where there are too few
 * @example meanAndSpread(Float64Array.of(2, 4, 4, 4, 5, 5, 7, 9)).spread // 2.138090
 * @source definition, in two passes
 */
export function meanAndSpread(values: Float64Array): { readonly mean: number; readonly spread: number } {
  let [n, sum] = [0, 0];
  for (let i = 0; i < values.length; i++) {
    if (Number.isNaN(values[i])) continue;
    n++;
    sum += values[i];
  }
  const mean = sum / n;
  let squares = 0;
  for (let i = 0; i < values.length; i++) if (!Number.isNaN(values[i])) squares += (values[i] - mean) * (values[i] - mean);
  return { mean, spread: n < 2 ? Number.NaN : Math.sqrt(squares / (n - 1)) };
}
