import { RecordError, requireReadings } from "../ground/complaint.js";
import { bridgeGaps } from "./gapRule.js";

/** A record cut to its first and last value, with every inner gap bridged for filtering, and what is real in it. */
export interface BridgedHours {
  /** Index of the first value in the array given. */
  readonly first: number;
  /** Bridged · [n]. */
  readonly values: Float64Array;
  /** 1 where a value was measured, 0 on a bridge · [n]. */
  readonly isReal: Uint8Array;
  /** Mean of the measured values. */
  readonly mean: number;
  /** How many were measured. */
  readonly realCount: number;
}

/**
 * Cuts off missing ends and bridges every inner gap by a straight line, for filters and transforms only.
 *
 * The bridges carry no information: what comes out near them has a wider error (bandError) or is not told at all.
 *
 * @param values even steps · any unit · [n] · NaN is missing
 * @returns      see BridgedHours, frozen
 * @throws RecordError when no value is present
 * @throws RangeError  when a value is infinite or beyond ±1e60
 * @example bridgedHours([NaN, 1, NaN, 3]).values // 1, 2, 3
 */
export function bridgedHours(values: ArrayLike<number>): BridgedHours {
  requireReadings("bridgedHours", "values", values);
  let first = 0;
  let end = values.length;
  while (first < end && Number.isNaN(values[first])) first++;
  while (end > first && Number.isNaN(values[end - 1])) end--;
  if (first === end) throw new RecordError("bridgedHours: values must hold at least one reading (got none)", "data");
  const cut: Float64Array = Float64Array.from(values).subarray(first, end);
  const isReal: Uint8Array = Uint8Array.from(cut, (v) => (Number.isNaN(v) ? 0 : 1));
  let sum = 0;
  let realCount = 0;
  for (const v of cut) {
    if (Number.isNaN(v)) continue;
    sum += v;
    realCount++;
  }
  return Object.freeze({ first, values: bridgeGaps(cut, cut.length).values, isReal, mean: sum / realCount, realCount });
}
