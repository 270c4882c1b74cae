import { tQuantile } from "../../ground/distributions.js";
import { type Estimate, estimate } from "../../ground/estimate.js";

/** Mean of a month as it was, from the days that were measured. */
export interface MonthMean {
  readonly mean: Estimate;
  /** Correlation from one day to the next, 0…0.9. */
  readonly phi: number;
  /** Variance of the daily means about their month · unit squared. */
  readonly gamma: number;
  readonly daysPresent: number;
}

/**
 * Memory of daily values from one day to the next, corrected for what the mean ate: clip((n r + k)/(n − 4k), 0, 0.9).
 *
 * @param stretches lists of daily departures, each from its own mean · NaN is a missing day
 * @returns         0…0.9 · 0 where no two days are neighbors
 */
export function dayMemory(stretches: readonly ArrayLike<number>[]): number {
  let count = 0;
  let squares = 0;
  let products = 0;
  let pairs = 0;
  for (const days of stretches) {
    for (let k = 0; k < days.length; k++) {
      if (Number.isNaN(days[k])) continue;
      count++;
      squares += days[k] ** 2;
      if (k === 0 || Number.isNaN(days[k - 1])) continue;
      products += days[k] * days[k - 1];
      pairs++;
    }
  }
  if (pairs === 0 || squares === 0 || count <= 4 * stretches.length) return 0;
  const r = products / pairs / (squares / count);
  return Math.min(0.9, Math.max(0, (count * r + stretches.length) / (count - 4 * stretches.length)));
}

/**
 * Mean of a month as it was, with an interval for the days that are missing.
 *
 * A complete month is known: its interval has no width. A block of missing days costs far more than scattered ones, since days
 * resemble their neighbors: the usual √(1/n − 1/N) covers 58–79 % there instead of 95. The sensor's own bias is not in it.
 *
 * @param daily        daily means of the whole month · house unit · [N] · NaN is missing
 * @param unit         UDUNITS spelling
 * @param options.phi  memory from one day to the next, from a longer record · default from these days
 * @returns            see MonthMean, frozen; null under 5 days
 * @example monthMean([1, 2, 3, 2, 1, 2], "degC")?.mean.value // 1.8333
 * @source finite-sample variance with an AR(1) correlation, chosen by simulation, see README of this room
 */
export function monthMean(daily: ArrayLike<number>, unit: string, options: { phi?: number } = {}): MonthMean | null {
  const total = daily.length;
  const present = Array.from({ length: total }, (_, k) => k).filter((k) => !Number.isNaN(daily[k]));
  const n = present.length;
  if (n < 5) return null;
  const value = present.reduce((sum, k) => sum + daily[k], 0) / n;
  const away = Float64Array.from(daily, (v) => v - value);
  const phi = options.phi ?? dayMemory([away]);
  const squares = present.reduce((sum, k) => sum + away[k] ** 2, 0);
  const ofMean = remembered(Float64Array.from(daily, (v) => (Number.isNaN(v) ? 0 : 1 / n)), phi);
  const gamma = squares / n / Math.max(1 - ofMean, 0.3);
  const missing = remembered(Float64Array.from(daily, (v) => (Number.isNaN(v) ? 0 : 1 / n) - 1 / total), phi);
  const standardError = Math.sqrt(gamma * Math.max(0, missing));
  const reach = tQuantile(0.975, Math.max(3, n / 3)) * standardError;
  return Object.freeze({ mean: estimate({ value, standardError, low: value - reach, high: value + reach, unit }), phi, gamma, daysPresent: n });
}

/** aᵀRa with R_jk = φ^|j − k|, in one pass. */
function remembered(a: Float64Array, phi: number): number {
  let trail = 0;
  let sum = 0;
  for (const v of a) {
    sum += v * (v + 2 * trail);
    trail = phi * (trail + v);
  }
  return sum;
}
