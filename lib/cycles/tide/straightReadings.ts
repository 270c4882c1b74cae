import { leastDifference } from "../../ground/leastDifference.js";
import { tideSteps } from "./tideSteps.js";
import type { UsableReadings } from "./usableReadings.js";

/** The true readings of a record in which lines were drawn between them. */
export interface StraightReadings {
  /** Only the readings at the ends of the lines. */
  readonly readings: UsableReadings;
  /** Spacing of the true readings · s. */
  readonly spacing: number;
}

/** Spacings of true readings that are looked for, longest first · s: twelve hours down to ten minutes. */
const spacings: readonly number[] = [43_200, 21_600, 14_400, 10_800, 7200, 3600, 1800, 1200, 900, 600];
/** Lines are believed when so many of the inner readings lie on them, and so few of the ends. */
const innerShare = 0.95;
const endShare = 0.8;
/** Ends more than three hours apart bend nearly always. The tide's own bends, in whole hPa, come at the same hours of every half day, but seldom. */
const farEndShare = 0.4;
const farSpacing = 10_800;
const leastEach = 12;

/**
 * Finds out whether most readings lie on straight lines between every m-th one, as three-hourly readings joined to hourly
 * ones do (S2 would come out a sixth too small, with too short an interval).
 *
 * Rounded honest data lie on lines too, but at every place alike; here one place in m must stand out. Readings less than hourly have
 * no neighbors to lie on a line with: nothing is found among them.
 *
 * @param readings in time order
 * @returns        the true readings, or null when there are no such lines
 */
export function straightReadings(readings: UsableReadings): StraightReadings | null {
  const { seconds, values } = readings;
  if (seconds.length < 60) return null;
  const { values: v, perHour, firstHour, hours, phase } = tideSteps(readings);
  const step = 3600 / perHour;
  const tolerance = 1.5 * leastDifference(values, 1e-9) + 1e-6;
  const length = hours * perHour;
  const straight: Int8Array = new Int8Array(length).fill(-1);
  for (let k = 1; k + 1 < length; k++) {
    const bend = v[k - 1] - 2 * v[k] + v[k + 1];
    if (!Number.isNaN(bend)) straight[k] = Math.abs(bend) <= tolerance ? 1 : 0;
  }
  for (const spacing of spacings) {
    const m = spacing / step;
    if (m < 2 || !Number.isInteger(m)) continue;
    const end = endOf(straight, m, firstHour * perHour, spacing > farSpacing ? farEndShare : endShare);
    if (end === null) continue;
    const keep: number[] = [];
    for (let i = 0; i < seconds.length; i++) if ((Math.floor((seconds[i] - phase) / step + 0.5) - end) % m === 0) keep.push(i);
    const at: Float64Array = Float64Array.from(keep, (i) => seconds[i]);
    const kept: Float64Array = Float64Array.from(keep, (i) => values[i]);
    return { readings: { ...readings, seconds: at, values: kept, leftOut: readings.leftOut + seconds.length - keep.length, spacing }, spacing };
  }
  return null;
}

/** The one place in m whose readings bend where all the others are straight; counted from the midnight. */
function endOf(straight: Int8Array, m: number, from: number, mostStraight: number): number | null {
  const bent: Float64Array = new Float64Array(m);
  const seen: Float64Array = new Float64Array(m);
  for (let k = 0; k < straight.length; k++) {
    if (straight[k] < 0) continue;
    const place = (from + k) % m;
    seen[place]++;
    if (straight[k] === 0) bent[place]++;
  }
  let end: number | null = null;
  for (let place = 0; place < m; place++) {
    if (seen[place] < leastEach) return null;
    const share = 1 - bent[place] / seen[place];
    if (share >= innerShare) continue;
    if (share > mostStraight || end !== null) return null;
    end = place;
  }
  return end;
}
