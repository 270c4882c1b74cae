import { median, quantile } from "../../lib/ground/summary.js";
import { medianStep } from "../../lib/grid/step.js";
import { leftOut } from "../../lib/record/flag.js";
import type { Series } from "../../lib/record/series.js";
import type { LevelShift } from "../../lib/trust/faults/levelShifts.js";
import { plainSoundIndices as soundIndices } from "./plainReadings.js";

/** Least jump for steps up to ten minutes · hPa; it grows with the root of the step. Fronts jump by 1–2 hPa in minutes. */
const least = 3;
const timesUsual = 4;
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
  const bound = Math.max(least * Math.sqrt(Math.max(1, step / 600)), timesUsual * quantile(steps, 0.999));
  const found: LevelShift[] = [];
  for (let k = 1; k < x.length; k++) {
    if (steps[k - 1] < bound || t[k] - t[k - 1] > 2.5 * step) continue;
    const jump = x[k] - x[k - 1];
    const before = levelBetween(x, t, k - 1, t[k] - farHour, t[k] - nearHour, -1);
    const after = levelBetween(x, t, k, t[k] + nearHour, t[k] + farHour, 1);
    if (Math.abs(after - before) >= 0.6 * Math.abs(jump) && Math.sign(after - before) === Math.sign(jump)) {
      found.push({ place: series.place, index: at[k], size: median(x.subarray(k, k + 3)) - median(x.subarray(Math.max(0, k - 3), k)) });
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
