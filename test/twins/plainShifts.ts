import { mean, median, medianAbsoluteDeviation } from "../../lib/ground/summary.js";
import type { Series } from "../../lib/record/series.js";
import type { LevelShift } from "../../lib/trust/faults/levelShifts.js";
import { type PairedReadings, plainPairs as pairedReadings } from "./plainPairs.js";
import { plainReadingStep as readingStep } from "./plainReadings.js";

const hour = 3600000;
/** Present hours on either side that are compared, and the fewest that will do. */
const side = 24;
const fewest = 12;
const least = 0.4;
const timesUsual = 6;
const mostShifts = 20;

/** Level shifts by the plain text of `levelShifts`: two medians of 24 hours at every hour. */
export function plainShifts(a: Series, b: Series, pairs: PairedReadings = pairedReadings(a, b)): LevelShift[] {
  const n = pairs.at.length;
  const found: { k: number; size: number }[] = [];
  const difference = Float64Array.from(pairs.a, (v, k) => v - pairs.b[k]);
  const coarse = 0.7 * Math.max(readingStep(pairs.a), readingStep(pairs.b));
  for (let round = 0; n > 2 * fewest && round < mostShifts; round++) {
    const shift = largestShift(pairs.at, difference, Math.max(least, coarse));
    if (shift === null) break;
    found.push(shift);
    for (let k = shift.k; k < n; k++) difference[k] -= shift.size;
  }
  return found
    .sort((p, q) => p.k - q.k)
    .map(({ k, size }) => {
      const air = Float64Array.from(pairs.a, (v, i) => (v + pairs.b[i]) / 2);
      const isA = Math.abs(suddenStep(pairs.a, air, k, pairs.step)) >= Math.abs(suddenStep(pairs.b, air, k, pairs.step));
      return isA
        ? { place: a.place, index: pairs.indexA[k], size }
        : { place: b.place, index: pairs.indexB[k], size: -size };
    });
}

/** Rise from the half hour (two readings at least) before pair k to that after it, less what the air's slope on both sides makes of it. */
function suddenStep(x: Float64Array, air: Float64Array, k: number, step: number): number {
  const m = Math.max(2, Math.round(1800 / step));
  if (k < m || k + m > x.length) return x[k] - x[k - 1];
  const slope = (air[k - 1] - air[k - m] + air[k + m - 1] - air[k]) / (2 * (m - 1));
  return mean(x.subarray(k, k + m)) - mean(x.subarray(k - m, k)) - m * slope;
}

/** The largest lasting jump that stands clear of the usual contrasts, or null. */
function largestShift(at: Float64Array, difference: Float64Array, floor: number): { k: number; size: number } | null {
  const { levels, firsts } = hourlyMeans(at, difference);
  const contrast = (h: number, width: number): number =>
    median(levels.subarray(h, h + width)) - median(levels.subarray(Math.max(0, h - width), h));
  const all: number[] = [];
  let best = -1;
  let size = 0;
  for (let h = fewest; h + fewest <= levels.length; h++) {
    const c = contrast(h, side);
    all.push(c);
    if (Math.abs(c) > Math.abs(size)) [best, size] = [h, c];
  }
  if (best < 0) return null;
  const bound = Math.max(floor, timesUsual * 1.4826 * medianAbsoluteDeviation(all));
  if (Math.abs(size) < bound) return null;
  // The sharpest place within a day of it: two levels that fit the hours' readings best.
  const from = firsts[Math.max(0, best - side)];
  const to = best + side < firsts.length ? firsts[best + side] : at.length;
  const k = bestSplit(difference, from, to);
  const h = firsts.findLastIndex((first) => first <= k);
  let sharp = 0;
  for (let g = Math.max(3, h - 1); g <= Math.min(levels.length - 3, h + 1); g++) {
    if (Math.abs(contrast(g, 3)) > Math.abs(sharp)) sharp = contrast(g, 3);
  }
  if (Math.sign(sharp) !== Math.sign(size) || Math.abs(sharp) < 0.65 * Math.abs(size)) return null;
  // What is over within a day (a stuck twin, places exchanged) is no lasting jump.
  const later = median(levels.subarray(h + side, h + 3 * side)) - median(levels.subarray(Math.max(0, h - side), h));
  if (later / size < 0.5) return null;
  return { k, size };
}

/** Mean of each hour that has a pair (a mean sees through coarse rounding, a median does not), and the index of its first pair. */
function hourlyMeans(at: Float64Array, difference: Float64Array): { levels: Float64Array; firsts: number[] } {
  const levels: number[] = [];
  const firsts: number[] = [];
  for (let k = 0; k < at.length; ) {
    const first = k;
    const name = Math.floor(at[k] / hour);
    while (k < at.length && Math.floor(at[k] / hour) === name) k++;
    levels.push(mean(difference.subarray(first, k)));
    firsts.push(first);
  }
  return { levels: Float64Array.from(levels), firsts };
}

/** First index of the second of two levels that leave the least sum of squares over [from, to). */
function bestSplit(x: Float64Array, from: number, to: number): number {
  let total = 0;
  for (let k = from; k < to; k++) total += x[k];
  const mean = total / (to - from);
  let left = 0;
  let best = from + 1;
  let gain = -1;
  for (let k = from + 1; k < to; k++) {
    left += x[k - 1] - mean;
    // Between-level sum of squares with the mean taken off: left²(1/n₁ + 1/n₂).
    const between = left * left * (1 / (k - from) + 1 / (to - k));
    if (between > gain) [best, gain] = [k, between];
  }
  return best;
}
