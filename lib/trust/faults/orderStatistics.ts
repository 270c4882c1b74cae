import { kthSmallest } from "../../ground/selection.js";

/**
 * Median of a scratch array, which is reordered: for the millions of values of a year of minutes, where a sorted copy costs too much.
 *
 * @param scratch any unit · [n] · without NaN · left in another order
 * @returns       same unit; mean of the two middle values for even n; NaN when empty
 * @example medianOf(Float64Array.of(5, 1, 2, 9)) // 3.5
 * @source kthSmallest of lib/ground
 */
export function medianOf(scratch: Float64Array): number {
  const n = scratch.length;
  if (n === 0) return Number.NaN;
  const upper = kthSmallest(scratch, n >> 1);
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
