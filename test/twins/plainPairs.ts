import { medianStep } from "../../lib/grid/step.js";
import { leftOut } from "../../lib/record/flag.js";
import type { PairedReadings } from "../../lib/trust/faults/pairedReadings.js";
import type { Series } from "../../lib/record/series.js";
import { plainSoundIndices as soundIndices } from "./plainReadings.js";

export type { PairedReadings };

/** Pairs of readings by the plain text of `pairedReadings`. */
export function plainPairs(a: Series, b: Series): PairedReadings {
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
