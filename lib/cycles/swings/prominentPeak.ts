/** A maximum and how far it stands out of its surroundings. */
export interface ProminentPeak {
  /** Index of the maximum; the middle of a flat top. */
  readonly index: number;
  /** Drop to the higher of the two saddles. */
  readonly prominence: number;
  /** Index of that saddle. */
  readonly saddle: number;
}

/**
 * All maxima of a series with their prominence.
 *
 * Prominence is the drop from a maximum to the higher of its two saddles: on each side the lowest point before the series
 * climbs above the maximum, or before it ends. The two end points are no maxima.
 *
 * @param values gap-free · any unit · [n]
 * @returns      in order of index
 * @example prominentPeaks(Float64Array.of(0, 3, 1, 2, 0)) // 1 (prominence 3), 3 (prominence 1)
 * @source topographic prominence, as in scipy.signal.peak_prominences (held by test/reference)
 */
export function prominentPeaks(values: Float64Array): ProminentPeak[] {
  const found: ProminentPeak[] = [];
  const n = values.length;
  for (let i = 1; i < n - 1; i++) {
    if (!(values[i] > values[i - 1])) continue;
    let flat = i;
    // Beyond the end there is no value, and no comparison with it holds.
    while (values[flat + 1] === values[i]) flat++;
    if (values[flat + 1] < values[i]) {
      const index = (i + flat) >> 1;
      const left = saddleFrom(values, index, -1);
      const right = saddleFrom(values, index, 1);
      const saddle = values[left] >= values[right] ? left : right;
      found.push({ index, prominence: values[index] - values[saddle], saddle });
    }
    i = flat;
  }
  return found;
}

/** The lowest point on one side before the series climbs above the maximum; the nearest of equals. */
function saddleFrom(values: Float64Array, index: number, step: 1 | -1): number {
  let lowest = index;
  for (let i = index; values[i] <= values[index]; i += step) if (values[i] < values[lowest]) lowest = i;
  return lowest;
}
