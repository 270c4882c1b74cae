/**
 * The smallest difference between neighboring values: the step in which a logger writes, if it rounds.
 *
 * @param values any unit · [n] · NaN is passed over with its neighbors
 * @param above  differences up to this are rounding of sums, not a step · unit of values
 * @returns      unit of values · 0 where nothing differs by more
 * @example leastDifference(Float64Array.of(861.2, 861.3, 861.3, 861.6), 1e-9) // 0.1
 */
export function leastDifference(values: Float64Array, above: number): number {
  let least = Infinity;
  for (let i = 1; i < values.length; i++) {
    const difference = Math.abs(values[i] - values[i - 1]);
    if (difference > above && difference < least) least = difference;
  }
  return Number.isFinite(least) ? least : 0;
}
