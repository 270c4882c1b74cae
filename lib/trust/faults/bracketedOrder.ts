import { kthSmallest } from "../../ground/selection.js";

/** Shorter arrays are not worth a sample. */
const leastLength = 20_000;
const sampleSize = 2048;
/** Places of the sample on either side of the one looked for: three of its standard errors and more. */
const margin = 70;

/**
 * The k-th smallest of a long array that is left as it is: an even sample brackets it, one pass counts what lies below the bracket, and
 * only what lies inside is sorted out.
 *
 * @param values any unit · [n] · without NaN · unchanged
 * @param k      0…n − 1
 * @returns      same unit
 * @example bracketedOrder(Float64Array.of(5, 1, 2, 9), 1) // 2
 * @source Floyd and Rivest 1975, in its plainest form (from memory)
 */
export function bracketedOrder(values: Float64Array, k: number): number {
  const n = values.length;
  if (n < leastLength) return kthSmallest(values.slice(), k);
  const sample: Float64Array = new Float64Array(sampleSize);
  for (let i = 0; i < sampleSize; i++) sample[i] = values[Math.floor((i * n) / sampleSize)];
  sample.sort();
  const middle = (k / n) * sampleSize;
  const low = sample[Math.max(0, Math.floor(middle) - margin)];
  const high = sample[Math.min(sampleSize - 1, Math.ceil(middle) + margin)];
  let [below, inside] = [0, 0];
  for (let i = 0; i < n; i++) {
    const v = values[i];
    if (v < low) below++;
    else if (v <= high) inside++;
  }
  if (k < below || k >= below + inside) return kthSmallest(values.slice(), k);
  if (low === high) return low;
  const found: Float64Array = new Float64Array(inside);
  for (let i = 0, m = 0; i < n; i++) if (values[i] >= low && values[i] <= high) found[m++] = values[i];
  return kthSmallest(found, k - below);
}
