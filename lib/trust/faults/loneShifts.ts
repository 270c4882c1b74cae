import { median, quantile } from "../../ground/summary.js";
import { medianStep } from "../../grid/step.js";
import { leftOut } from "../../record/flag.js";
import type { Series } from "../../record/series.js";
import type { LevelShift } from "./levelShifts.js";
import { soundReadings } from "./soundReadings.js";

/** Least jump for steps up to ten minutes · hPa; it grows with the root of the step. Fronts jump by 1–2 hPa in minutes. */
const least = 3;
const timesUsual = 4;
/** Where the days are quiet, a jump from here on that lasts a day · hPa, likewise; so many times what 99 % of the steps keep to. */
const leastQuiet = 1.2;
/** How many times the usual change from day to day its day must have moved. */
const timesUsualDay = 4;
/** A jump so many times what 99.9 % of the steps keep to stands alone in its record. */
const timesAlone = 6;
const day = 86400;
const nearHour = 3600;
const farHour = 4 * 3600;

/**
 * Lasting jumps of a barometer that has no twin: a step between two readings that no weather makes and that stays.
 *
 * A jump of at least 3 hPa (for steps up to ten minutes, more beyond), and four times what 99.9 % of this barometer's steps
 * keep to, is a shift when the level of hours 1–4 after stands at least 60 % of it away from that of hours 1–4 before, on the same side.
 * A jump from 1.2 hPa is a shift too when the mean of the whole day after it has moved its way against that of the day before: by as
 * much, and four times farther than days do here; or, where no other step of the record comes near it (six times what 99.9 % keep to), by
 * half of it and twice what days move. Squalls jump as high, but are gone next day, and do not come alone.
 * Smaller shifts, and those that happen inside a gap, cannot be told from weather by one barometer.
 *
 * @param series a barometer · hPa
 * @returns      jumps in time order
 * @source own method; measured by simulation, see README of this room
 */
export function loneShifts(series: Series): LevelShift[] {
  const { at, x, t } = soundReadings(series, leftOut);
  const step = medianStep(t);
  if (step === 0) return [];
  const steps: Float64Array = new Float64Array(x.length - 1);
  let largest = 0;
  for (let k = 1; k < x.length; k++) {
    steps[k - 1] = Math.abs(x[k] - x[k - 1]);
    if (steps[k - 1] > largest) largest = steps[k - 1];
  }
  const byStep = Math.sqrt(Math.max(1, step / 600));
  if (largest < leastQuiet * byStep) return [];
  const rare = quantile(steps, 0.999);
  const bound = Math.max(least * byStep, timesUsual * rare);
  const aloneBound = Math.max(leastQuiet * byStep, timesAlone * rare);
  const quietBound = Math.max(leastQuiet * byStep, timesUsual * quantile(steps, 0.99));
  const usualDay = dayToDay(x, t);
  const found: LevelShift[] = [];
  for (let k = 1; k < x.length; k++) {
    if (steps[k - 1] < Math.min(bound, quietBound, aloneBound) || t[k] - t[k - 1] > 2.5 * step) continue;
    const jump = x[k] - x[k - 1];
    const before = levelBetween(x, t, k - 1, t[k] - farHour, t[k] - nearHour, -1);
    const after = levelBetween(x, t, k, t[k] + nearHour, t[k] + farHour, 1);
    const stays = Math.abs(after - before) >= 0.6 * Math.abs(jump) && Math.sign(after - before) === Math.sign(jump);
    // Five hours apart the tide of the tropics alone moves by 2 hPa, which hides a small jump: whole days decide those.
    const moved = stays && steps[k - 1] >= bound ? Number.NaN : dayMove(x, t, k);
    const isQuiet = steps[k - 1] >= quietBound && Math.abs(moved) >= timesUsualDay * usualDay && moved / jump >= 0.7 && moved / jump <= 1.4;
    const isAlone = steps[k - 1] >= aloneBound && Math.abs(moved) >= 2 * usualDay && moved / jump >= 0.5 && moved / jump <= 2;
    if ((stays && steps[k - 1] >= bound) || isQuiet || isAlone) {
      found.push({ place: series.place, index: at?.[k] ?? k, size: sizeAt(x, t, k, step) });
    }
  }
  return found;
}

/** Jump between the lines through half an hour of readings on either side, two at least: hourly medians would hold an hour of tide. */
function sizeAt(x: Float64Array, t: Float64Array, k: number, step: number): number {
  const count = Math.max(2, Math.round(1800 / step));
  const at = (t[k] + t[k - 1]) / 2;
  return lineAt(x, t, k, Math.min(x.length, k + count), at) - lineAt(x, t, Math.max(0, k - count), k, at);
}

/** Least-squares line through readings [from, to), at an instant; their mean where they are one. */
function lineAt(x: Float64Array, t: Float64Array, from: number, to: number, at: number): number {
  const n = to - from;
  const mean = (a: Float64Array): number => a.subarray(from, to).reduce((sum, v) => sum + v, 0) / n;
  const [middle, level] = [mean(t), mean(x)];
  let [along, across] = [0, 0];
  for (let i = from; i < to; i++) {
    along += (t[i] - middle) * (x[i] - level);
    across += (t[i] - middle) ** 2;
  }
  return across === 0 ? level : level + (along / across) * (at - middle);
}

/** Mean of the whole day after a jump less that of the day before · hPa: whole days, so that the tide is in neither; NaN where either is not whole. */
function dayMove(x: Float64Array, t: Float64Array, k: number): number {
  return meanBetween(x, t, k, t[k], t[k] + day, 1) - meanBetween(x, t, k - 1, t[k] - day, t[k], -1);
}

/** Robust standard deviation of the change of the mean from one day to the next; infinite under ten pairs of days. */
function dayToDay(x: Float64Array, t: Float64Array): number {
  const sums = new Map<number, [number, number]>();
  for (let i = 0; i < x.length; i++) {
    const d = Math.floor((t[i] - t[0]) / day);
    const sum = sums.get(d) ?? [0, 0];
    sum[0] += x[i];
    sum[1]++;
    sums.set(d, sum);
  }
  const mean = (d: number): number => {
    const sum = sums.get(d);
    return sum === undefined ? Number.NaN : sum[0] / sum[1];
  };
  const changes = [...sums.keys()].map((d) => Math.abs(mean(d + 1) - mean(d))).filter((c) => !Number.isNaN(c));
  return changes.length < 10 ? Infinity : 1.4826 * median(changes);
}

/** Mean of the readings in [from, to); NaN where less than nine tenths of the day lie in the record. */
function meanBetween(x: Float64Array, t: Float64Array, k: number, from: number, to: number, direction: 1 | -1): number {
  let [sum, count, reach] = [0, 0, t[k]];
  for (let i = k; i >= 0 && i < x.length && t[i] >= from && t[i] < to; i += direction) {
    sum += x[i];
    count++;
    reach = t[i];
  }
  return Math.abs(reach - t[k]) >= 0.9 * day ? sum / count : Number.NaN;
}

/** Median of the readings in a span, looked for from index k in one direction; NaN when there is none. */
function levelBetween(x: Float64Array, t: Float64Array, k: number, from: number, to: number, direction: 1 | -1): number {
  const inside: number[] = [];
  for (let i = k; i >= 0 && i < x.length && (direction > 0 ? t[i] <= to : t[i] >= from); i += direction) {
    if (t[i] >= from && t[i] <= to) inside.push(x[i]);
  }
  return median(inside);
}
