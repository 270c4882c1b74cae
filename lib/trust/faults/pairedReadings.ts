import { medianStep } from "../../grid/step.js";
import { leftOut } from "../../record/flag.js";
import type { Series } from "../../record/series.js";
import { soundIndices } from "./soundReadings.js";

/** Readings of two series at the same time, one pair an entry, in time order. */
export interface PairedReadings {
  /** Epoch ms, UTC, of the first series' reading · [n]. */
  readonly at: Float64Array;
  readonly a: Float64Array;
  readonly b: Float64Array;
  /** Indices in the two series · [n]. */
  readonly indexA: Uint32Array;
  readonly indexB: Uint32Array;
  /** Usual distance between pairs · s. */
  readonly step: number;
}

/**
 * Pairs each sound reading of one series with the nearest of another, at most half the longer usual step away.
 *
 * Readings flagged range, spike, stuck or swapped are left out. Each reading is used once.
 *
 * @param a, b any two series
 * @returns    see PairedReadings; empty when they do not overlap
 */
export function pairedReadings(a: Series, b: Series): PairedReadings {
  const ia = soundIndices(a, leftOut);
  const ib = soundIndices(b, leftOut);
  const reach = Math.max(medianStep(a.seconds), medianStep(b.seconds)) / 2 + 1e-6;
  const shift = (b.start - a.start) / 1000;
  const [ta, tb] = [a.seconds, b.seconds];
  // Pairs are written over the indices they come from: the n-th pair never stands before the n-th index of either.
  const [indexA, indexB] = [ia, ib];
  let n = 0;
  for (let k = 0, j = 0; k < ia.length && ib.length > 0; k++) {
    const t = ta[ia[k]] - shift;
    let off = Math.abs(tb[ib[j]] - t);
    for (; j + 1 < ib.length; j++) {
      const next = Math.abs(tb[ib[j + 1]] - t);
      if (next > off) break;
      off = next;
    }
    if (off > reach || (n > 0 && indexB[n - 1] === ib[j])) continue;
    indexA[n] = ia[k];
    indexB[n++] = ib[j];
  }
  const pairs = { at: new Float64Array(n), a: new Float64Array(n), b: new Float64Array(n), indexA: indexA.subarray(0, n), indexB: indexB.subarray(0, n) };
  for (let k = 0; k < n; k++) {
    pairs.at[k] = a.start + 1000 * ta[indexA[k]];
    pairs.a[k] = a.values[indexA[k]];
    pairs.b[k] = b.values[indexB[k]];
  }
  return { ...pairs, step: medianStep(pairs.at) / 1000 };
}
