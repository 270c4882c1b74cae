import { mean, median } from "../../ground/summary.js";
import type { Series } from "../../record/series.js";
import { deviationOf, medianOf } from "./orderStatistics.js";
import { type PairedReadings, pairedReadings } from "./pairedReadings.js";
import { readingStep } from "./readingStep.js";

/** A lasting jump in the level of one sensor. */
export interface LevelShift {
  /** Whose sensor jumped. */
  readonly place: string;
  /** Its first reading on the new level: index in its series. */
  readonly index: number;
  /** After minus before, the weather taken out · unit of the series. */
  readonly size: number;
}

const hour = 3600000;
/** Present hours on either side that are compared, and the fewest that will do. */
const side = 24;
const fewest = 12;
const least = 0.4;
const timesUsual = 6;
const mostShifts = 20;

/**
 * Lasting jumps of one barometer against its twin: air pressure is the same in both places, so their difference should be still.
 *
 * Medians of 24 hours on either side of each hour are compared; a jump is at least 0.4 hPa, six times the usual contrast
 * and 0.7 reading steps, and two thirds of it must happen within 6 hours, so that a slow drift is not called a jump. The sensor
 * whose own trace moved more at that moment is the one that jumped. After a long gap that may be the wrong one of the two.
 *
 * @param a, b  two barometers, house units
 * @param pairs their paired readings, where the caller has them already
 * @returns    jumps in time order
 * @source own method; measured by simulation, see README of this room
 */
export function levelShifts(a: Series, b: Series, pairs: PairedReadings = pairedReadings(a, b)): LevelShift[] {
  const n = pairs.at.length;
  const found: { k: number; size: number }[] = [];
  const difference: Float64Array = new Float64Array(n);
  for (let k = 0; k < n; k++) difference[k] = pairs.a[k] - pairs.b[k];
  const coarse = 0.7 * Math.max(readingStep(pairs.a), readingStep(pairs.b));
  for (let round = 0; n > 2 * fewest && round < mostShifts; round++) {
    const shift = largestShift(pairs.at, difference, Math.max(least, coarse));
    if (shift === null) break;
    found.push(shift);
    for (let k = shift.k; k < n; k++) difference[k] -= shift.size;
  }
  if (found.length === 0) return [];
  const air = pairs.a.map((v, k) => (v + pairs.b[k]) / 2);
  return found
    .sort((p, q) => p.k - q.k)
    .map(({ k, size }) => {
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
  const ahead = mediansAhead(levels);
  const all: Float64Array = new Float64Array(Math.max(0, levels.length - 2 * fewest + 1));
  let best = -1;
  let size = 0;
  for (let h = fewest; h + fewest <= levels.length; h++) {
    const c = ahead[h] - (h < side ? median(levels.subarray(0, h)) : ahead[h - side]);
    all[h - fewest] = c;
    if (Math.abs(c) > Math.abs(size)) {
      best = h;
      size = c;
    }
  }
  if (best < 0) return null;
  const bound = Math.max(floor, timesUsual * 1.4826 * deviationOf(all));
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

/** Median of each hour and the 23 after it, fewer at the end: what lies ahead of hour h, and behind hour h + 24. */
function mediansAhead(levels: Float64Array): Float64Array {
  const scratch: Float64Array = new Float64Array(side);
  const medians: Float64Array = new Float64Array(levels.length);
  for (let h = 0; h < levels.length; h++) {
    const width = Math.min(side, levels.length - h);
    for (let k = 0; k < width; k++) scratch[k] = levels[h + k];
    medians[h] = medianOf(width === side ? scratch : scratch.subarray(0, width));
  }
  return medians;
}

/** Mean of each hour that has a pair (a mean sees through coarse rounding, a median does not), and the index of its first pair. */
function hourlyMeans(at: Float64Array, difference: Float64Array): { levels: Float64Array; firsts: number[] } {
  const levels: number[] = [];
  const firsts: number[] = [];
  for (let k = 0; k < at.length; ) {
    const first = k;
    const end = (Math.floor(at[k] / hour) + 1) * hour;
    let sum = 0;
    for (; k < at.length && at[k] < end; k++) sum += difference[k];
    levels.push(sum / (k - first));
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
