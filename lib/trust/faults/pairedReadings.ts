import { medianStep } from "../../grid/step.js";
import { leftOut } from "../../record/flag.js";
import type { Series } from "../../record/series.js";
import { soundIndices } from "./readingStep.js";

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
  const indexA: Uint32Array = new Uint32Array(ia.length);
  const indexB: Uint32Array = new Uint32Array(ia.length);
  let n = 0;
  let j = 0;
  for (let k = 0; k < ia.length && ib.length > 0; k++) {
    const t = a.seconds[ia[k]] - shift;
    while (j + 1 < ib.length && Math.abs(b.seconds[ib[j + 1]] - t) <= Math.abs(b.seconds[ib[j]] - t)) j++;
    if (Math.abs(b.seconds[ib[j]] - t) > reach || (n > 0 && indexB[n - 1] === ib[j])) continue;
    indexA[n] = ia[k];
    indexB[n++] = ib[j];
  }
  const keptA = indexA.slice(0, n);
  const keptB = indexB.slice(0, n);
  const at = Float64Array.from(keptA, (i) => a.start + 1000 * a.seconds[i]);
  return {
    at,
    a: Float64Array.from(keptA, (i) => a.values[i]),
    b: Float64Array.from(keptB, (i) => b.values[i]),
    indexA: keptA,
    indexB: keptB,
    step: medianStep(at) / 1000,
  };
}
