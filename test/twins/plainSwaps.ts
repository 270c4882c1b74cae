import { median, medianAbsoluteDeviation } from "../../lib/ground/summary.js";
import type { PlaceRecord } from "../../lib/record/airRecord.js";
import { type GridColumn, regularGrid } from "../../lib/grid/regularGrid.js";
import type { SwappedSpan } from "../../lib/trust/faults/swappedSpans.js";
import type { Quantity } from "../../lib/record/quantity.js";


const compared: readonly Quantity[] = ["air_temperature", "relative_humidity", "surface_air_pressure"];
/** By how much crossing must fit better than going straight, in units of log likelihood, at each end of a span and at both together. */
const confirmedGain = { each: 4, together: 10 };
/** The same where the barometers' offset cannot confirm it. */
const bareGain = { each: 8, together: 24 };
const longestHours = 72;
const longestGapHours = 12;

/** Exchanged places by the plain text of `swappedSpans`: a likelihood at every step. */
export function plainSwaps(a: PlaceRecord, b: PlaceRecord): SwappedSpan[] {
  const shared = compared.filter((q) => (a.series[q]?.values.length ?? 0) > 1 && (b.series[q]?.values.length ?? 0) > 1);
  if (!shared.includes("air_temperature")) return [];
  const grid = regularGrid(shared.flatMap((q) => [a.series[q] as never, b.series[q] as never]), { method: "none" });
  const columns = shared.map((_, k) => [grid.columns[2 * k], grid.columns[2 * k + 1]] as const);
  const gains = crossingGains(columns, grid.length, grid.stepSeconds);
  const pressure = shared.indexOf("surface_air_pressure");
  const isConfirmed = offsetTurns(pressure < 0 ? null : columns[pressure], grid.stepSeconds);
  const ends = [...gains.keys()].filter((k) => gains[k] >= confirmedGain.each);
  const spans: SwappedSpan[] = [];
  for (let i = 0; i < ends.length; i++) {
    for (let j = i + 1; j < ends.length && (ends[j] - ends[i]) * grid.stepSeconds <= longestHours * 3600; j++) {
      const confirmed = isConfirmed(ends[i], ends[j]);
      const needed = confirmed === true ? confirmedGain : bareGain;
      const [g, h] = [gains[ends[i]], gains[ends[j]]];
      if (confirmed === false || Math.min(g, h) < needed.each || g + h < needed.together) continue;
      spans.push({ from: grid.start + 1000 * grid.stepSeconds * ends[i], to: grid.start + 1000 * grid.stepSeconds * ends[j] });
      i = j;
      break;
    }
  }
  return spans;
}

/** For each step, how much better the traces fit when they cross into it; 0 where nothing can be said. */
function crossingGains(columns: readonly (readonly [GridColumn, GridColumn])[], length: number, stepSeconds: number): Float64Array {
  const gains: Float64Array = new Float64Array(length);
  const longest = (longestGapHours * 3600) / stepSeconds;
  for (const [{ values: a }, { values: b }] of columns) {
    const scale = usualStep(a, b);
    if (!(scale > 0)) continue;
    let last = -1;
    for (let k = 0; k < length; k++) {
      if (Number.isNaN(a[k]) || Number.isNaN(b[k])) continue;
      if (last >= 0 && k - last <= longest) {
        const s = scale * Math.sqrt(k - last);
        const straight = misfit((a[k] - a[last]) / s) + misfit((b[k] - b[last]) / s);
        const crossed = misfit((b[k] - a[last]) / s) + misfit((a[k] - b[last]) / s);
        gains[k] += straight - crossed;
      }
      last = k;
    }
  }
  return gains;
}

/** Minus log likelihood of a step under Student's t with three degrees of freedom: weather has heavy tails. */
function misfit(z: number): number {
  return 2 * Math.log1p((z * z) / 3);
}

/** Usual step-to-step change of the two traces, never under their rounding. */
function usualStep(a: Float64Array, b: Float64Array): number {
  const steps: number[] = [];
  for (const x of [a, b]) for (let k = 1; k < x.length; k++) if (!Number.isNaN(x[k] - x[k - 1])) steps.push(Math.abs(x[k] - x[k - 1]));
  if (steps.length === 0) return Number.NaN;
  const moving = steps.filter((s) => s > 0);
  return Math.max(1.4826 * median(steps), 0.5 * median(moving));
}

/** A test of steps [from, to): true where the barometers' offset is turned round there, false where not, null where it cannot tell. */
function offsetTurns(columns: readonly [GridColumn, GridColumn] | null, stepSeconds: number): (from: number, to: number) => boolean | null {
  if (columns === null) return () => null;
  const difference = columns[0].values.map((v, k) => v - columns[1].values[k]);
  const around = Math.round((36 * 3600) / stepSeconds);
  return (from, to) => {
    const outside = [...difference.subarray(Math.max(0, from - around), from), ...difference.subarray(to, to + around)];
    const inside = median(difference.subarray(from, to));
    const usual = median(outside);
    const scatter = 1.4826 * medianAbsoluteDeviation(outside);
    if (!(Math.abs(usual) > 3 * scatter) || Number.isNaN(inside)) return null;
    return Math.abs(inside + usual) < 0.5 * Math.abs(usual);
  };
}
