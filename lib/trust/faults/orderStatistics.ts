/**
 * Median of a scratch array, which is reordered: for the millions of values of a year of minutes, where a sorted copy costs too much.
 *
 * @param scratch any unit · [n] · without NaN · left in another order
 * @returns       same unit; mean of the two middle values for even n; NaN when empty
 * @example medianOf(Float64Array.of(5, 1, 2, 9)) // 3.5
 * @source selection by partition about a median of three (Hoare 1961, from memory)
 */
export function medianOf(scratch: Float64Array): number {
  const n = scratch.length;
  if (n === 0) return Number.NaN;
  const upper = selected(scratch, n >> 1);
  if (n % 2 === 1) return upper;
  let lower = -Infinity;
  for (let i = 0; i < n >> 1; i++) if (scratch[i] > lower) lower = scratch[i];
  return lower + (upper - lower) / 2;
}

/**
 * Median distance of a scratch array's values from their median, not scaled; the array is overwritten.
 *
 * @param scratch any unit · [n] · without NaN · overwritten
 * @returns       same unit; NaN when empty
 * @example deviationOf(Float64Array.of(1, 1, 2, 2, 4, 6, 9)) // 1
 * @source as medianAbsoluteDeviation of lib/ground
 */
export function deviationOf(scratch: Float64Array): number {
  const middle = medianOf(scratch);
  for (let i = 0; i < scratch.length; i++) scratch[i] = Math.abs(scratch[i] - middle);
  return medianOf(scratch);
}

/** The k-th smallest; smaller ones stand before it afterwards, larger ones behind it. */
function selected(x: Float64Array, k: number): number {
  let low = 0;
  let high = x.length - 1;
  while (low < high) {
    const [a, b, c] = [x[low], x[(low + high) >> 1], x[high]];
    const pivot = Math.max(Math.min(a, b), Math.min(Math.max(a, b), c));
    let i = low;
    let j = high;
    while (i <= j) {
      while (x[i] < pivot) i++;
      while (x[j] > pivot) j--;
      if (i > j) break;
      const kept = x[i];
      x[i++] = x[j];
      x[j--] = kept;
    }
    if (k <= j) high = j;
    else if (k >= i) low = i;
    else return x[k];
  }
  return x[k];
}
