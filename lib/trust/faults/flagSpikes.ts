import { median, quantile } from "../../ground/summary.js";
import { medianStep } from "../../grid/step.js";
import { flagBit } from "../../record/flag.js";
import type { Quantity } from "../../record/quantity.js";
import type { Series } from "../../record/series.js";
import { readingStep } from "./readingStep.js";
import { soundReadings } from "./soundReadings.js";

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

/**
 * Marks spikes: one to three readings that leave the trace and are back at once.
 *
 * A group is a spike when every reading of it stands outside its two neighbors by more than four bounds: the least size
 * for the quantity and the step, three times what 95 % of this series' own such departures keep to, eight times the
 * flicker of the 24 readings on either side, and three reading steps; and when the neighbors agree within 30 % of it. An opened
 * window or a hand on the sensor comes back slowly and is left alone; so are fronts, which do not come back.
 * Readings already flagged range are treated as absent; readings beside a gap are not judged.
 *
 * @param series any quantity
 * @returns      bits of `flagBit`, 0 or spike · [n]
 * @example flagSpikes(series({ times: [0, 1, 2, 3, 4].map((k) => 300000 * k), values: [20, 20, 31, 20, 20], quantity: "air_temperature" })) // 0, 0, 2, 0, 0
 * @source own method; hits and false alarms measured by simulation, see README of this room
 */
export function flagSpikes(series: Series): Uint16Array {
  const bits: Uint16Array = new Uint16Array(series.values.length);
  const { at, x, t } = soundReadings(series);
  const step = medianStep(t);
  if (step === 0) return bits;
  const reach = 2.5 * step;
  const floor = least[series.quantity] * Math.sqrt(Math.max(1, step / 600));
  const seen = departuresOver(x, t, reach, floor / timesUsual);
  if (!(seen.largest >= floor)) return bits;
  // Where hardly any departure passes a third of the least size, three times the usual one is no bound.
  const isCalm = seen.count < 0.05 * (x.length - 1) - 1;
  const usual = isCalm ? 0 : timesUsual * quantile(allDepartures(x, t, reach), 0.95);
  const bound = Math.max(floor, usual, 3 * readingStep(x));
  for (let i = 1; i < x.length - 1; i++) {
    if (!(Math.abs(x[i] - x[i - 1]) >= bound)) continue;
    for (let m = 1; m <= longest; m++) {
      const size = departure(x, t, i, m, reach);
      if (size < bound || Math.abs(x[i + m] - x[i - 1]) > comesBack * size || size < timesNearby * flicker(x, i, m)) continue;
      for (let k = i; k < i + m; k++) bits[at?.[k] ?? k] = flagBit.spike;
      i += m;
      break;
    }
  }
  return bits;
}

/** How many readings depart by more than a limit, in a group of one to three, and the largest departure there is. */
function departuresOver(x: Float64Array, t: Float64Array, reach: number, limit: number): { count: number; largest: number } {
  let count = 0;
  let largest = 0;
  for (let i = 1; i < x.length - 1; i++) {
    // A reading cannot depart by more than it stands off the one before it.
    if (!(Math.abs(x[i] - x[i - 1]) > limit)) continue;
    const size = largestDeparture(x, t, i, reach);
    if (size > limit) count++;
    if (size > largest) largest = size;
  }
  return { count, largest };
}

function allDepartures(x: Float64Array, t: Float64Array, reach: number): Float64Array {
  const found: Float64Array = new Float64Array(x.length);
  for (let i = 1; i < x.length - 1; i++) found[i] = largestDeparture(x, t, i, reach);
  return found;
}

function largestDeparture(x: Float64Array, t: Float64Array, i: number, reach: number): number {
  let largest = 0;
  for (let m = 1; m <= longest; m++) largest = Math.max(largest, departure(x, t, i, m, reach));
  return largest;
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
