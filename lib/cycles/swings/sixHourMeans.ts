/**
 * Means over blocks of six hours, each from at least three hours.
 *
 * @param hours hourly values · any unit · [n] · NaN is missing
 * @returns     [⌈n/6⌉] · NaN where fewer than three of the six are present
 * @example sixHourMeans([1, 2, 3, NaN, NaN, NaN]) // 2
 */
export function sixHourMeans(hours: ArrayLike<number>): Float64Array {
  const blocks: Float64Array = new Float64Array(Math.ceil(hours.length / 6));
  for (let b = 0; b < blocks.length; b++) {
    let sum = 0;
    let count = 0;
    for (let i = 6 * b; i < Math.min(hours.length, 6 * b + 6); i++) {
      if (Number.isNaN(hours[i])) continue;
      sum += hours[i];
      count++;
    }
    blocks[b] = count < 3 ? Number.NaN : sum / count;
  }
  return blocks;
}
