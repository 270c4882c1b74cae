import { mean } from "./summary.js";

/**
 * Correlation of an even series with itself one step later, about its mean.
 *
 * Σ d_i d_(i+1) / Σ d_i²; with gaps, only neighbors that are both present, scaled to a full set of pairs. It runs low in short
 * records, by about (1 + 3r)/n (common practice, no source); where an interval hangs on it, `longRunVariance` corrects for that.
 *
 * @param values any unit · [n], evenly spaced · NaN is missing
 * @returns      −1…1, a little outside with many gaps · NaN without two neighbors present or without any variation
 * @throws RangeError when a value is infinite
 * @example lag1Autocorrelation([1, 2, 3, 4]) // 0.25
 * @source NIST StRD univariate sets, definition of the certified lag-1 autocorrelation
 */
export function lag1Autocorrelation(values: ArrayLike<number>): number {
  const middle = mean(values);
  let squares = 0;
  let products = 0;
  let pairs = 0;
  let count = 0;
  for (let i = 0; i < values.length; i++) {
    const d = values[i] - middle;
    if (Number.isNaN(d)) continue;
    count++;
    squares += d * d;
    const next = i + 1 < values.length ? values[i + 1] - middle : Number.NaN;
    if (Number.isNaN(next)) continue;
    products += d * next;
    pairs++;
  }
  return pairs === 0 || squares === 0 ? Number.NaN : ((products / pairs) * (count - 1)) / squares;
}
