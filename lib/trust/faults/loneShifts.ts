import { median, quantile } from "../../ground/summary.js";
import { medianStep } from "../../grid/step.js";
import { leftOut } from "../../record/flag.js";
import type { Series } from "../../record/series.js";
import type { LevelShift } from "./levelShifts.js";
import { soundReadings } from "./soundReadings.js";

/** Least jump for steps up to ten minutes · hPa; it grows with the root of the step. Fronts jump by 1–2 hPa in minutes. */
const least = 3;
const timesUsual = 4;
const nearHour = 3600;
const farHour = 4 * 3600;

/**
 * Lasting jumps of a barometer that has no twin: a step between two readings that no weather makes and that stays.
 *
 * A jump of at least 3 hPa (for steps up to ten minutes, more beyond), and four times what 99.9 % of this barometer's steps
 * keep to, is a shift when the level of hours 1–4 after stands at least 60 % of it away from that of hours 1–4 before, on the same side.
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
  const floor = least * Math.sqrt(Math.max(1, step / 600));
  if (largest < floor) return [];
  const bound = Math.max(floor, timesUsual * quantile(steps, 0.999));
  const found: LevelShift[] = [];
  for (let k = 1; k < x.length; k++) {
    if (steps[k - 1] < bound || t[k] - t[k - 1] > 2.5 * step) continue;
    const jump = x[k] - x[k - 1];
    const before = levelBetween(x, t, k - 1, t[k] - farHour, t[k] - nearHour, -1);
    const after = levelBetween(x, t, k, t[k] + nearHour, t[k] + farHour, 1);
    if (Math.abs(after - before) >= 0.6 * Math.abs(jump) && Math.sign(after - before) === Math.sign(jump)) {
      found.push({ place: series.place, index: at?.[k] ?? k, size: median(x.subarray(k, k + 3)) - median(x.subarray(Math.max(0, k - 3), k)) });
    }
  }
  return found;
}

/** Median of the readings in a span, looked for from index k in one direction; NaN when there is none. */
function levelBetween(x: Float64Array, t: Float64Array, k: number, from: number, to: number, direction: 1 | -1): number {
  const inside: number[] = [];
  for (let i = k; i >= 0 && i < x.length && (direction > 0 ? t[i] <= to : t[i] >= from); i += direction) {
    if (t[i] >= from && t[i] <= to) inside.push(x[i]);
  }
  return median(inside);
}
