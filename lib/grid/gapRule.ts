import { requireReadings, requireWithin } from "../ground/complaint.js";

/** A run of missing steps: `from` is its first index, `to` the first index after it. */
export interface Gap {
  readonly from: number;
  readonly to: number;
}

/**
 * Lists the runs of missing (NaN) steps of an even grid.
 *
 * @param values even steps · [n] · NaN is missing
 * @returns      gaps in order; those at the two ends are included
 * @example gaps(Float64Array.of(1, NaN, NaN, 2)) // [{ "from": 1, "to": 3 }]
 */
export function gaps(values: ArrayLike<number>): Gap[] {
  const found: Gap[] = [];
  const n = values.length;
  for (let i = 0; i < n; i++) {
    if (!Number.isNaN(values[i] as number)) continue;
    const from = i;
    while (i < n && Number.isNaN(values[i] as number)) i++;
    found.push({ from, to: i });
  }
  return found;
}

/**
 * The one gap rule: bridges inner gaps of at most `longest` steps by a straight line between their neighbors.
 *
 * Longer gaps and gaps at the two ends stay missing: a bridge never invents weather. Apply the same rule to every
 * column that is fitted to the values, so that nothing is biased.
 *
 * @param values  even steps · [n] · NaN is missing
 * @param longest longest run that is bridged · steps · 0 bridges nothing
 * @returns values  a new array · [n]
 * @returns filled  1 where a step was bridged · [n]
 * @throws RangeError when `longest` is negative or not finite, or a value is infinite
 * @example bridgeGaps(Float64Array.of(1, NaN, 3), 1).values // 1, 2, 3
 */
export function bridgeGaps(values: ArrayLike<number>, longest: number): { values: Float64Array; filled: Uint8Array } {
  requireWithin("bridgeGaps", "longest", longest, 0, Number.MAX_SAFE_INTEGER, "steps");
  requireReadings("bridgeGaps", "values", values, Number.MAX_VALUE);
  const out: Float64Array = new Float64Array(values);
  const filled: Uint8Array = new Uint8Array(out.length);
  for (const { from, to } of gaps(values)) {
    if (from === 0 || to === out.length || to - from > longest) continue;
    const before = out[from - 1] as number;
    const steps = to - from + 1;
    const rise = out[to] - before;
    for (let i = from; i < to; i++) {
      const step = i - from + 1;
      // From the lowest to the highest number there is, the rise is no number; the weighted mean is one.
      out[i] = Number.isFinite(rise) ? before + (rise / steps) * step : before * (1 - step / steps) + out[to] * (step / steps);
      filled[i] = 1;
    }
  }
  return { values: out, filled };
}
