import { mustSentence, requireReadings, requireWithin } from "../ground/complaint.js";

/** A symmetric low-pass: weight k stands on the values k steps before and after; they sum to 1 over −K…K. */
export interface LowPass {
  /** Period that passes by half · d. */
  readonly cutDays: number;
  /** How far the filter looks to each side · d. */
  readonly halfDays: number;
  readonly stepHours: number;
  /** Weights k = 0…K. */
  readonly weights: Float64Array;
}

const sinc = (x: number): number => (x === 0 ? 1 : Math.sin(Math.PI * x) / (Math.PI * x));

/**
 * Lanczos low-pass weights: slower than `cutDays` passes, faster is held back, nothing is moved in time.
 *
 * w_k ∝ sinc(2fk)·sinc(k/(K + 1)), k = −K…K, f = step/cut, sinc(x) = sin(πx)/(πx). The longer the filter, the sharper its
 * edge and the further it reaches past the ends of a record.
 *
 * @param cutDays   period that passes by half · d · at least 4 steps
 * @param halfDays  half length K · d · at least one step
 * @param stepHours h · default 1
 * @returns         see LowPass, frozen
 * @throws RangeError when one of them is out of range
 * @example lanczosLowPass(2, 3).weights[0] // 0.0417486916
 * @source C. E. Duchon, Journal of Applied Meteorology 18 (1979), 1016 (from memory); weights held by test/reference
 */
export function lanczosLowPass(cutDays: number, halfDays: number, stepHours = 1): LowPass {
  requireWithin("lanczosLowPass", "stepHours", stepHours, 1 / 3600, 24 * 366, "h");
  requireWithin("lanczosLowPass", "cutDays", cutDays, (4 * stepHours) / 24, 36600, "d");
  requireWithin("lanczosLowPass", "halfDays", halfDays, stepHours / 24, 36600, "d");
  const f = stepHours / 24 / cutDays;
  const half = Math.round((halfDays * 24) / stepHours);
  const weights: Float64Array = new Float64Array(half + 1);
  let sum = 0;
  for (let k = 0; k <= half; k++) {
    weights[k] = sinc(2 * f * k) * sinc(k / (half + 1));
    sum += k === 0 ? weights[k] : 2 * weights[k];
  }
  for (let k = 0; k <= half; k++) weights[k] /= sum;
  return Object.freeze({ cutDays, halfDays, stepHours, weights });
}

/**
 * What a low-pass leaves of a wave: 1 passes whole, 0 is held back, a little below 0 comes out upside down.
 *
 * @param filter     by lanczosLowPass
 * @param periodDays d · from 1e-9
 * @returns          share of the amplitude · signed
 * @throws RangeError when periodDays is under 1e-9 or not finite
 * @example lowPassResponse(lanczosLowPass(2, 3), 2) // 0.501
 */
export function lowPassResponse(filter: LowPass, periodDays: number): number {
  requireWithin("lowPassResponse", "periodDays", periodDays, 1e-9, Number.MAX_VALUE, "d");
  const turn = (2 * Math.PI * filter.stepHours) / 24 / periodDays;
  let sum = filter.weights[0];
  for (let k = 1; k < filter.weights.length; k++) sum += 2 * filter.weights[k] * Math.cos(k * turn);
  return sum;
}

/**
 * Runs a low-pass over a record without gaps, which ends on each side in a decay to its mean.
 *
 * Beyond an end the record is taken to go on as mean + (end − mean)·exp(−distance/decay): of the ways tried by simulation the one
 * with the smallest error near the ends (the odd mirror that forward-and-back routines use was the worst), see README of lib/cycles/swings.
 *
 * @param filter     by lanczosLowPass
 * @param values     gap-free · any unit · [n], n ≥ 1
 * @param mean       level to which the ends decay · unit of values
 * @param decayHours default 48
 * @returns          filtered · [n]
 * @throws RangeError when a value is missing, infinite or beyond ±1e60, mean is not finite, or decayHours not above 0
 * @example runLowPass(lanczosLowPass(2, 3), new Float64Array(200).fill(5), 5)[0] // 5
 */
export function runLowPass(filter: LowPass, values: Float64Array, mean: number, decayHours = 48): Float64Array {
  const n = values.length;
  requireReadings("runLowPass", "values", values);
  const gap = values.findIndex(Number.isNaN);
  if (gap >= 0) throw new RangeError(mustSentence("runLowPass", "values", "be without gaps", `NaN at index ${gap}`, "bridge them first, see bridgedHours"));
  requireWithin("runLowPass", "mean", mean, -1e60, 1e60);
  requireWithin("runLowPass", "decayHours", decayHours, 1e-9, Number.MAX_VALUE, "h");
  const half = filter.weights.length - 1;
  const long: Float64Array = new Float64Array(n + 2 * half);
  long.set(values, half);
  for (let k = 1; k <= half; k++) {
    const left = Math.exp((-k * filter.stepHours) / decayHours);
    long[half - k] = mean + (values[0] - mean) * left;
    long[half + n - 1 + k] = mean + (values[n - 1] - mean) * left;
  }
  const out: Float64Array = new Float64Array(n);
  for (let i = 0; i < n; i++) {
    let sum = filter.weights[0] * long[i + half];
    for (let k = 1; k <= half; k++) sum += filter.weights[k] * (long[i + half - k] + long[i + half + k]);
    out[i] = sum;
  }
  return out;
}
