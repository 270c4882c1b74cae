import { medianStep } from "../../grid/step.js";
import { kthSmallest } from "../../ground/selection.js";

/** Median of chi-square with one degree of freedom. */
const medianOfSquares = 0.45494;
const longestStep = 300;

/**
 * Noise of the shortest step: how much one reading differs from its neighbors for no reason of weather.
 *
 * From second differences, by their median square, at steps of at most 5 minutes. Fast weather is in it, so it is an upper bound of
 * the sensor's noise; never take it from hourly data, where weather looks like noise. Where the sensor's digits are so coarse
 * that most differences are zero, the digits' own error, last digit/√12, is given.
 *
 * @param seconds instants · s · [n] · non-decreasing
 * @param values  any unit · [n] · NaN is missing
 * @returns       standard deviation of one reading · unit of values · null at steps over 5 min or under 20 second differences
 * @example shortestStepNoise([0, 3600], [1000, 1001]) // null
 * @source σ² = median of squared second differences / (6·0.455), for white noise; common practice, no source
 */
export function shortestStepNoise(seconds: ArrayLike<number>, values: ArrayLike<number>): number | null {
  const kept: Uint32Array = new Uint32Array(values.length);
  const at: Float64Array = new Float64Array(values.length);
  let n = 0;
  for (let i = 0; i < values.length; i++) {
    if (Number.isNaN(values[i])) continue;
    at[n] = seconds[i];
    kept[n++] = i;
  }
  const step = medianStep(at.subarray(0, n));
  if (!(step > 0 && step <= longestStep)) return null;
  const squares: Float64Array = new Float64Array(n);
  let count = 0;
  let digit = Infinity;
  for (let k = 2; k < n; k++) {
    const [a, b, c] = [kept[k - 2], kept[k - 1], kept[k]];
    // Only even steps: a second difference over uneven ones holds the weather's slope.
    if (Math.abs(seconds[c] - 2 * seconds[b] + seconds[a]) > 0.1 * step || seconds[c] - seconds[b] > 1.5 * step) continue;
    squares[count++] = (values[c] - 2 * values[b] + values[a]) ** 2;
    const difference = Math.abs(values[c] - values[b]);
    if (difference > 1e-9) digit = Math.min(digit, difference);
  }
  if (count < 20) return null;
  const middle = kthSmallest(squares.subarray(0, count), count >> 1);
  const fromDigits = Number.isFinite(digit) ? digit / Math.sqrt(12) : 0;
  return Math.max(Math.sqrt(middle / 6 / medianOfSquares), fromDigits);
}
