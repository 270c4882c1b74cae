import * as statistics from "simple-statistics";
import { mustSentence, requireWithin } from "./complaint.js";

// The door to simple-statistics, for summaries only: its normal law is a two-decimal table (use distributions.ts).
// One rule for all here: NaN is a missing value and left out; nothing left is told by NaN, never by 0; infinity is refused.

/**
 * Mean of the values present.
 *
 * @param values any unit · [n] · NaN is missing
 * @returns      same unit · NaN when nothing is present
 * @throws RangeError when a value is infinite
 * @example mean([1, 2, NaN, 6]) // 3
 * @source simple-statistics, compensated sum; NIST StRD univariate sets
 */
export function mean(values: ArrayLike<number>): number {
  const kept = present("mean", values);
  return kept.length === 0 ? Number.NaN : statistics.mean(kept);
}

/**
 * Standard deviation of the values present, with n − 1.
 *
 * @param values any unit · [n] · NaN is missing
 * @returns      same unit · NaN under two values
 * @throws RangeError when a value is infinite
 * @example standardDeviation([2, 4, 4, 4, 5, 5, 7, 9]) // 2.138090
 * @source simple-statistics; NIST StRD univariate sets
 */
export function standardDeviation(values: ArrayLike<number>): number {
  const kept = present("standardDeviation", values);
  return kept.length < 2 ? Number.NaN : statistics.sampleStandardDeviation(kept);
}

/**
 * Quantile of the values present, by a straight line between order statistics at (n − 1) p (Hyndman and Fan's type 7).
 *
 * @param values any unit · [n] · NaN is missing
 * @param p      share · 0…1, ends are smallest and largest
 * @returns      same unit · NaN when nothing is present
 * @throws RangeError when p is outside 0…1 or a value is infinite
 * @example quantile([4, 1, 3, 2], 0.25) // 1.75
 * @source simple-statistics
 */
export function quantile(values: ArrayLike<number>, p: number): number {
  requireWithin("quantile", "p", p, 0, 1);
  const kept = present("quantile", values);
  return kept.length === 0 ? Number.NaN : statistics.quantile(kept, p);
}

/**
 * Several quantiles of the values present, by the rule of `quantile`, for the price of little more than one.
 *
 * @param values any unit · [n] · NaN is missing
 * @param shares each 0…1
 * @returns      same unit · one for each share · NaN when nothing is present
 * @throws RangeError when a share is outside 0…1 or a value is infinite
 * @example quantiles([4, 1, 3, 2], [0, 0.25]) // 1, 1.75
 * @source as quantile
 */
export function quantiles(values: ArrayLike<number>, shares: readonly number[]): number[] {
  for (const p of shares) requireWithin("quantiles", "shares", p, 0, 1);
  const kept = present("quantiles", values);
  return kept.length === 0 ? shares.map(() => Number.NaN) : statistics.quantile(kept, [...shares]);
}

/**
 * Median of the values present.
 *
 * @param values any unit · [n] · NaN is missing
 * @returns      same unit · NaN when nothing is present
 * @throws RangeError when a value is infinite
 * @example median([5, 1, NaN, 2]) // 2
 * @source simple-statistics
 */
export function median(values: ArrayLike<number>): number {
  const kept = present("median", values);
  return kept.length === 0 ? Number.NaN : statistics.median(kept);
}

/**
 * Median distance of the values present from their median, not scaled (times 1.4826 it estimates a normal law's deviation).
 *
 * @param values any unit · [n] · NaN is missing
 * @returns      same unit · NaN when nothing is present
 * @throws RangeError when a value is infinite
 * @example medianAbsoluteDeviation([1, 1, 2, 2, 4, 6, 9]) // 1
 * @source simple-statistics
 */
export function medianAbsoluteDeviation(values: ArrayLike<number>): number {
  const kept = present("medianAbsoluteDeviation", values);
  return kept.length === 0 ? Number.NaN : statistics.medianAbsoluteDeviation(kept);
}

function present(at: string, values: ArrayLike<number>): number[] {
  const kept: Float64Array = new Float64Array(values.length);
  let n = 0;
  for (let i = 0; i < values.length; i++) {
    const v = values[i];
    if (Number.isNaN(v)) continue;
    if (!Number.isFinite(v)) throw new RangeError(mustSentence(at, "values", "be finite or NaN", `${v} at index ${i}`));
    kept[n++] = v;
  }
  // The package asks for an array and uses nothing of it that this one lacks.
  return kept.subarray(0, n) as unknown as number[];
}
