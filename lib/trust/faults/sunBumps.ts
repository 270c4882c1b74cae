import { medianAbsoluteDeviation } from "../../ground/summary.js";

/** A short rise of temperature that is gone again: where it peaks, how far on either side it was measured, how high. */
export interface SunBump {
  /** Step of the peak. */
  readonly at: number;
  /** Steps from the peak to where the flanks begin. */
  readonly reach: number;
  /** Middle less the line between the flanks · K; negative for a dip. */
  readonly size: number;
}

/** Half lengths that are tried, minutes, and how much of the trace makes a flank. */
const halves: readonly number[] = [25, 50, 80, 110];
const flankMinutes = 15;
const least = 1.5;
const timesUsual = 5;
/** Taken off before lengths are compared, as a share of the bound: three times the usual. */
const usualPart = 0.6;

/**
 * Short bumps and dips of a temperature trace: a middle that stands off the line between the flanks before and after it.
 *
 * Half lengths from 25 to 110 minutes are tried and the clearest kept; a bump is at least 1.5 K and five times the usual of
 * its length, and rises on both sides by at least half of itself, so that the roundness of a fair day is none.
 *
 * @param values      air temperature on an even grid · °C · [n] · NaN is missing
 * @param stepMinutes step of the grid · min
 * @returns           bumps and dips in time order, none overlapping another
 */
export function sunBumps(values: Float64Array, stepMinutes: number): SunBump[] {
  const stretches = wholeStretches(values);
  const found: (SunBump & { clear: number })[] = [];
  for (const half of halves) {
    const reach = Math.round(half / stepMinutes);
    const flank = Math.max(1, Math.round(flankMinutes / stepMinutes));
    const middle = Math.floor(reach / 4);
    const sizes: Float64Array = new Float64Array(values.length).fill(Number.NaN);
    const sided: Float64Array = new Float64Array(values.length);
    for (const [from, to] of stretches) {
      const total: Float64Array = new Float64Array(to - from + 1);
      for (let k = from; k < to; k++) total[k - from + 1] = total[k - from] + values[k];
      const mean = (a: number, b: number): number => (total[b - from] - total[a - from]) / (b - a);
      for (let k = from + reach + flank; k + reach + flank < to; k++) {
        const before = mean(k - reach - flank, k - reach);
        const after = mean(k + reach + 1, k + reach + flank + 1);
        const here = mean(k - middle, k + middle + 1);
        sizes[k] = here - (before + after) / 2;
        sided[k] = sizes[k] > 0 ? Math.min(here - before, here - after) : Math.max(here - before, here - after);
      }
    }
    const bound = Math.max(least, timesUsual * 1.4826 * medianAbsoluteDeviation(sizes));
    for (let k = 0; k < sizes.length; k++) {
      if (Math.abs(sizes[k]) >= bound && sided[k] / sizes[k] >= 0.5) found.push({ at: k, reach, size: sizes[k], clear: Math.abs(sizes[k]) - usualPart * bound });
    }
  }
  return clearest(found, values.length);
}

/** Of overlapping ones that which stands highest above the usual of its length. */
function clearest(found: (SunBump & { clear: number })[], length: number): SunBump[] {
  const taken: Uint8Array = new Uint8Array(length);
  const kept: SunBump[] = [];
  for (const bump of found.sort((a, b) => b.clear - a.clear || a.at - b.at)) {
    const from = bump.at - bump.reach;
    const to = bump.at + bump.reach + 1;
    if (taken[from] === 1 || taken[bump.at] === 1 || taken[to - 1] === 1) continue;
    taken.fill(1, from, to);
    kept.push({ at: bump.at, reach: bump.reach, size: bump.size });
  }
  return kept.sort((a, b) => a.at - b.at);
}

/** Longest stretches without a missing step, as [from, to). */
function wholeStretches(values: Float64Array): (readonly [number, number])[] {
  const stretches: (readonly [number, number])[] = [];
  for (let k = 0; k < values.length; k++) {
    if (Number.isNaN(values[k])) continue;
    const from = k;
    while (k < values.length && !Number.isNaN(values[k])) k++;
    stretches.push([from, k]);
  }
  return stretches;
}
