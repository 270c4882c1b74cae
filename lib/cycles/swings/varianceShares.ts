import { tQuantile } from "../../ground/distributions.js";
import { type Estimate, estimate } from "../../ground/estimate.js";
import { longRunVariance } from "../../ground/longRunVariance.js";
import type { SwingBand } from "./swingBand.js";

/** Parts of the pressure's variance; the four values add up to 1. */
export interface VarianceShares {
  /** The tide that was taken out. */
  readonly tide: Estimate;
  /** Swings of the band. */
  readonly swings: Estimate;
  /** Slower than the band. */
  readonly background: Estimate;
  /** Quicker than the band: quick weather, what the tide leaves, the sensor's noise. */
  readonly quick: Estimate;
}

/** Widening of the interval on the log odds, 1 + 2.2/√days: a record's own mean takes slow waves away (set by simulation on seeds 7 545 000). */
const widening = 2.2;
const names = ["tide", "swings", "background", "quick"] as const;

/**
 * How the variance of pressure parts into tide, swings, slow background and what is quicker.
 *
 * Each share is the variance of one part over the sum of the four, over measured hours. Its interval is laid on the log odds:
 * daily influence of the share with its long-run variance, Student's t, then back. It tells how well these days' weather is an example
 * of weather of this kind; the slow background of a short record holds few independent waves and comes out too small, so its interval
 * is wide.
 *
 * @param swings by swingBand
 * @param tide   the tide at each of its hours · hPa · [hours]
 * @returns      see VarianceShares, unit 1, frozen; null when nothing varies or 5 days or fewer hold a measured hour
 * @throws RangeError when lengths differ
 * @example varianceShares(swingBand(hours), tideOfBand)?.tide.value // 0.560
 * @source delta method on longRunVariance; coverage in README of this room
 */
export function varianceShares(swings: SwingBand, tide: Float64Array): VarianceShares | null {
  const { band, slow, rest, isReal } = swings;
  if (tide.length !== band.length) throw new RangeError(`varianceShares: tide must have the hours of swings, ${band.length} (got ${tide.length})`);
  const parts = [tide, band, slow, rest];
  let count = 0;
  const means = [0, 0, 0, 0];
  for (let i = 0; i < band.length; i++) {
    if (isReal[i] === 0) continue;
    count++;
    for (let k = 0; k < 4; k++) means[k] += parts[k][i];
  }
  const square = (k: number, i: number): number => (parts[k][i] - means[k] / count) ** 2;
  const sums = [0, 0, 0, 0];
  for (let i = 0; i < band.length; i++) if (isReal[i] === 1) for (let k = 0; k < 4; k++) sums[k] += square(k, i);
  const total = sums[0] + sums[1] + sums[2] + sums[3];
  if (!(total > 0)) return null;
  const days = Math.ceil(band.length / 24);
  const shares = names.map((name, k) => {
    const share = sums[k] / total;
    const influence: Float64Array = new Float64Array(days).fill(Number.NaN);
    for (let i = 0; i < band.length; i++) {
      if (isReal[i] === 0) continue;
      const day = Math.floor(i / 24);
      const all = square(0, i) + square(1, i) + square(2, i) + square(3, i);
      influence[day] = (Number.isNaN(influence[day]) ? 0 : influence[day]) + square(k, i) - share * all;
    }
    return [name, withInterval(share, influence, total)] as const;
  });
  if (shares.some(([, e]) => e === null)) return null;
  return Object.freeze(Object.fromEntries(shares)) as unknown as VarianceShares;
}

/** Interval on the log odds, from daily influences on the share times the total. */
function withInterval(value: number, influence: Float64Array, total: number): Estimate | null {
  if (influence.filter((v) => !Number.isNaN(v)).length <= 5) return null;
  const spread = longRunVariance(influence);
  const standardError = Math.sqrt(Math.max(0, spread.varianceOfSum)) / total;
  if (value >= 1 || standardError === 0) return estimate({ value, standardError, low: Math.max(0, value), high: Math.min(1, value), unit: "1" });
  const odds = Math.log(value / (1 - value));
  const reach = ((1 + widening / Math.sqrt(influence.length)) * tQuantile(0.975, spread.terms) * standardError) / (value * (1 - value));
  const back = (x: number): number => 1 / (1 + Math.exp(-x));
  return estimate({ value, standardError, low: back(odds - reach), high: back(odds + reach), unit: "1" });
}
