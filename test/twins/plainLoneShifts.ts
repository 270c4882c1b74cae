import { median, quantile } from "../../lib/ground/summary.js";
import { medianStep } from "../../lib/grid/step.js";
import { leftOut } from "../../lib/record/flag.js";
import type { Series } from "../../lib/record/series.js";
import type { LevelShift } from "../../lib/trust/faults/levelShifts.js";
import { plainSoundIndices as soundIndices } from "./plainReadings.js";

/** Least jump for steps up to ten minutes · hPa; it grows with the root of the step. Fronts jump by 1–2 hPa in minutes. */
const least = 3;
const timesUsual = 4;
/** The quiet rule: a jump from here on that lasts a day, where the days move less. */
const leastQuiet = 1.2;
const timesUsualDay = 4;
const timesAlone = 6;
const day = 86400;
const nearHour = 3600;
const farHour = 4 * 3600;

/** Shifts of a lone barometer by the plain text of `loneShifts`. */
export function plainLoneShifts(series: Series): LevelShift[] {
  const at = soundIndices(series, leftOut);
  const x = Float64Array.from(at, (i) => series.values[i]);
  const t = Float64Array.from(at, (i) => series.seconds[i]);
  const step = medianStep(t);
  if (step === 0) return [];
  const steps = Float64Array.from({ length: x.length - 1 }, (_, k) => Math.abs(x[k + 1] - x[k]));
  const byStep = Math.sqrt(Math.max(1, step / 600));
  const bound = Math.max(least * byStep, timesUsual * quantile(steps, 0.999));
  const aloneBound = Math.max(leastQuiet * byStep, timesAlone * quantile(steps, 0.999));
  const quietBound = Math.max(leastQuiet * byStep, timesUsual * quantile(steps, 0.99));
  const whole = (from: number, to: number): number[] => [...x].filter((_, i) => t[i] >= from && t[i] < to);
  const mean = (found: readonly number[]): number => found.reduce((sum, v) => sum + v, 0) / found.length;
  const days = Array.from({ length: Math.floor((t[t.length - 1] - t[0]) / day) + 1 }, (_, d) => mean(whole(t[0] + d * day, t[0] + (d + 1) * day)));
  const changes = days.slice(1).map((m, d) => Math.abs(m - days[d])).filter((c) => !Number.isNaN(c));
  const usualDay = changes.length < 10 ? Infinity : 1.4826 * median(changes);
  const lastsADay = (k: number): boolean => {
    const inDayBefore = [...t].slice(0, k).find((s) => s >= t[k] - day) ?? Number.NaN;
    const lastOfDayAfter = [...t].slice(k).filter((s) => s < t[k] + day).pop() ?? Number.NaN;
    if (!(t[k - 1] - inDayBefore >= 0.9 * day && lastOfDayAfter - t[k] >= 0.9 * day)) return false;
    const moved = mean(whole(t[k], t[k] + day)) - mean(whole(t[k] - day, t[k]));
    const share = moved / (x[k] - x[k - 1]);
    if (steps[k - 1] >= aloneBound && Math.abs(moved) >= 2 * usualDay && share >= 0.5 && share <= 2) return true;
    return steps[k - 1] >= quietBound && Math.abs(moved) >= timesUsualDay * usualDay && share >= 0.7 && share <= 1.4;
  };
  const lineAt = (indices: readonly number[], instant: number): number => {
    const [n, tm, xm] = [indices.length, mean(indices.map((i) => t[i])), mean(indices.map((i) => x[i]))];
    const slope = indices.reduce((sum, i) => sum + (t[i] - tm) * x[i], 0) / indices.reduce((sum, i) => sum + (t[i] - tm) * t[i], 0);
    return n === 1 ? xm : xm + slope * (instant - tm);
  };
  const sizeAt = (k: number): number => {
    const count = Math.max(2, Math.round(1800 / step));
    const near = [...x.keys()].filter((i) => i >= k - count && i < k + count);
    const instant = (t[k] + t[k - 1]) / 2;
    return lineAt(near.filter((i) => i >= k), instant) - lineAt(near.filter((i) => i < k), instant);
  };
  const found: LevelShift[] = [];
  for (let k = 1; k < x.length; k++) {
    if ((steps[k - 1] < bound && steps[k - 1] < quietBound && steps[k - 1] < aloneBound) || t[k] - t[k - 1] > 2.5 * step) continue;
    const jump = x[k] - x[k - 1];
    const before = levelBetween(x, t, k - 1, t[k] - farHour, t[k] - nearHour, -1);
    const after = levelBetween(x, t, k, t[k] + nearHour, t[k] + farHour, 1);
    const stays = Math.abs(after - before) >= 0.6 * Math.abs(jump) && Math.sign(after - before) === Math.sign(jump);
    if ((stays && steps[k - 1] >= bound) || lastsADay(k)) {
      found.push({ place: series.place, index: at[k], size: sizeAt(k) });
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
