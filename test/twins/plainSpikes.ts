import { median, quantile } from "../../lib/ground/summary.js";
import { medianStep } from "../../lib/grid/step.js";
import { flagBit } from "../../lib/record/flag.js";
import type { Quantity } from "../../lib/record/quantity.js";
import type { Series } from "../../lib/record/series.js";
import { plainReadingStep as readingStep, plainSoundIndices as soundIndices } from "./plainReadings.js";

/**
 * Smallest departure called a spike, for steps up to ten minutes; it grows with the root of the step beyond, because an
 * hour of real weather (a shower's outflow, a squall's pressure nose) comes and goes between two hourly readings.
 */
const least: Readonly<Record<Quantity, number>> = Object.freeze({
  air_temperature: 4,
  relative_humidity: 14,
  surface_air_pressure: 2.5,
  air_pressure_at_mean_sea_level: 2.5,
  dew_point_temperature: 5,
  mass_concentration_of_water_vapor_in_air: 3,
});
const longest = 3;
/** A spike is over at once: the reading after it stands this share of the spike from the reading before it, or nearer. */
const comesBack = 0.3;
const timesUsual = 3;
const timesNearby = 8;
const nearby = 24;

/** Spikes by the plain text of `flagSpikes`: every departure of every reading, and the quantile of all of them. */
export function plainSpikes(series: Series): Uint16Array {
  const bits: Uint16Array = new Uint16Array(series.values.length);
  const at = soundIndices(series);
  const n = at.length;
  const x = Float64Array.from(at, (i) => series.values[i]);
  const t = Float64Array.from(at, (i) => series.seconds[i]);
  const step = medianStep(t);
  if (step === 0) return bits;
  const reach = 2.5 * step;
  const departures: Float64Array = new Float64Array(n);
  for (let i = 1; i < n - 1; i++) {
    for (let m = 1; m <= longest; m++) departures[i] = Math.max(departures[i], departure(x, t, i, m, reach));
  }
  const usual = timesUsual * quantile(departures, 0.95);
  const bound = Math.max(least[series.quantity] * Math.sqrt(Math.max(1, step / 600)), usual, 3 * readingStep(x));
  for (let i = 1; i < n - 1; i++) {
    if (departures[i] < bound) continue;
    for (let m = 1; m <= longest; m++) {
      const size = departure(x, t, i, m, reach);
      if (size < bound || Math.abs(x[i + m] - x[i - 1]) > comesBack * size || size < timesNearby * flicker(x, i, m)) continue;
      for (let k = i; k < i + m; k++) bits[at[k]] = flagBit.spike;
      i += m;
      break;
    }
  }
  return bits;
}

/** How far every one of m readings from i on stands outside its two neighbors; 0 where one does not, or across a gap. */
function departure(x: Float64Array, t: Float64Array, i: number, m: number, reach: number): number {
  if (i + m >= x.length) return 0;
  const low = Math.min(x[i - 1], x[i + m]);
  const high = Math.max(x[i - 1], x[i + m]);
  let size = Infinity;
  for (let k = i; k <= i + m; k++) {
    if (t[k] - t[k - 1] > reach) return 0;
    if (k < i + m) size = Math.min(size, Math.max(x[k] - high, low - x[k]));
  }
  return Math.max(0, size);
}

/** Usual departure of a reading from the mean of its two neighbors, around a group but without it. */
function flicker(x: Float64Array, i: number, m: number): number {
  const found: number[] = [];
  for (let k = Math.max(1, i - nearby); k < Math.min(x.length - 1, i + m + nearby); k++) {
    if (k >= i - 1 && k <= i + m) continue;
    found.push(Math.abs(x[k] - (x[k - 1] + x[k + 1]) / 2));
  }
  return found.length === 0 ? 0 : 1.4826 * median(found);
}
