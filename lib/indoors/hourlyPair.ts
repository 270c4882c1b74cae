import { requireWithin } from "../ground/complaint.js";
import { regularGrid } from "../grid/regularGrid.js";
import { medianStep } from "../grid/step.js";
import type { Series } from "../record/series.js";
import { remembered } from "../ground/remembered.js";
import { evenReadings } from "./evenReadings.js";
import { hoursADay } from "./pairedHours.js";

/** A stretch of time that does not count, epoch ms; the end is not part of it. */
export interface LeftOut {
  readonly from: number;
  readonly to: number;
}

/** Where hour 0 lies, and how many there are: whole days of the record's standard time. */
export interface HourAxis {
  /** Epoch ms, UTC, of a midnight of the standard time. */
  readonly start: number;
  readonly hours: number;
  /** An hour takes the readings from so many seconds after its beginning · default 0. Midway between readings, so that none stands at the edge. */
  readonly edge?: number;
  /** Coarse readings are moved to the middle of an hour by nearly so many seconds, of either place the same hour · default by each place itself. */
  readonly centering?: number;
}

/** How a place's readings become hours. */
export interface HourlyOptions {
  /** Taken off the readings' times · s: how far this clock is ahead. Default 0. */
  readonly ahead?: number;
  /** Stretches that do not count, such as co-location. */
  readonly leftOut?: readonly LeftOut[];
  /** Longest gap that is bridged · h, default 3; a bridged hour counts as present. */
  readonly bridgeUpTo?: number;
}

/** Two places on one axis of hours. */
export interface HourlyPair extends HourAxis {
  /** House units · [hours] · NaN is missing. */
  readonly inside: Float64Array;
  readonly outside: Float64Array;
  /** To be added to every lag found on these hours · h: readings of the two places stand at other minutes of the hour. */
  readonly lagCorrection: number;
}

const hourMs = 3_600_000;
/** Readings this far apart or more are moved to the middle of their hour, so that jitter does not empty hours. */
const coarseStep = 1800;

/**
 * Hourly means of one place on a given axis.
 *
 * Readings flagged range, spike, stuck or swapped are left out, gaps up to 3 h bridged by a line.
 *
 * @param series  one quantity of one place
 * @param axis    see HourAxis
 * @param options see HourlyOptions
 * @returns       house units · [axis.hours] · NaN where missing
 * @throws RangeError when an option is out of range
 * @example hourlyMeans(temperature, { start: Date.UTC(2024, 3, 15), hours: 48 })
 * @source the grid's gap rule
 */
export function hourlyMeans(series: Series, axis: HourAxis, options: HourlyOptions = {}): Float64Array {
  return laid(series, axis, options).values.slice();
}

interface Laid {
  readonly values: Float64Array;
  readonly instants: Float64Array;
}

/** Several questions and pictures ask for the same hours. */
const known = remembered<Series, Laid>();

function laid(series: Series, axis: HourAxis, options: HourlyOptions): Laid {
  return known(series, JSON.stringify([axis.start, axis.hours, axis.edge, axis.centering, options.ahead, options.leftOut, options.bridgeUpTo]), () => layHours(series, axis, options));
}

function layHours(logged: Series, { start, hours, edge = 0, centering: near }: HourAxis, { ahead = 0, leftOut = [], bridgeUpTo = 3 }: HourlyOptions): Laid {
  requireWithin("hourlyMeans", "ahead", ahead, -86400, 86400, "s");
  requireWithin("hourlyMeans", "bridgeUpTo", bridgeUpTo, 0, 24, "h");
  const values: Float64Array = new Float64Array(hours).fill(Number.NaN);
  const instants: Float64Array = new Float64Array(hours).fill(Number.NaN);
  const series = evenReadings(logged, bridgeUpTo * 3600);
  const centering = toMiddle(series, start, ahead, near) ?? 0;
  const { start: zero, seconds } = series;
  const kept = series.values.slice();
  for (const { from, to } of leftOut) {
    for (let i = 0; i < kept.length; i++) {
      const at = zero + 1000 * (seconds[i] - ahead);
      if (at >= from && at < to) kept[i] = Number.NaN;
    }
  }
  if (kept.every(Number.isNaN)) return { values, instants };
  const moved = { ...series, start: series.start + 1000 * (centering - ahead), values: kept };
  const grid = regularGrid(moved, { step: 3600, fillUpTo: bridgeUpTo * 3600, alignTo: start + 1000 * edge });
  const first = Math.round((grid.start - start) / hourMs - edge / 3600);
  const [column] = grid.columns;
  for (let k = 0; k < grid.length; k++) {
    const h = first + k;
    if (h < 0 || h >= hours) continue;
    values[h] = column.values[k];
    instants[h] = column.instants[k] + 3600 * first + edge - centering;
  }
  return { values, instants };
}

/** Seconds that bring coarse readings to the middle of their hour, or of that which `near` brings them to; null for fine or irregular ones. */
function toMiddle(series: Series, start: number, ahead: number, near?: number): number | null {
  if (medianStep(series.seconds) < coarseStep) return null;
  const phase = phaseIn(series, 3600, start, ahead);
  if (phase === null) return null;
  // Up to 5 minutes before the hour is the hour itself, read early.
  const centering = 1800 - (phase >= 3300 ? phase - 3600 : phase);
  return near === undefined ? centering : centering - 3600 * Math.round((centering - near) / 3600);
}

/**
 * Where hours are cut so that no reading of either place stands at the edge: midway between the outside's readings and the inside's next to
 * them. A clock found some seconds ahead would else move every reading on the hour, and with it the whole cycle by half a step.
 */
function edgeBetween(inside: Series, outside: Series, start: number, ahead: number): number {
  const steps = [inside, outside].map((s) => medianStep(s.seconds));
  const step = Math.max(...steps.filter((s) => s < 3600 && 3600 % s === 0));
  if (!Number.isFinite(step)) return 0;
  const [a, b] = [phaseIn(inside, step, start, ahead), phaseIn(outside, step, start, 0)];
  const ofOutside = steps[1] === step ? b : null;
  const ofInside = steps[0] === step ? a : null;
  const base = ofOutside ?? ofInside;
  if (base === null) return 0;
  const apart = ofOutside === null || ofInside === null ? 0 : ofInside - ofOutside;
  return Math.round(base + (apart - step * Math.round(apart / step)) / 2 - step / 2);
}

/** So many readings of a longer record tell where within a step they stand. */
const enoughReadings = 5000;

/** Where within a step, counted from a start, the readings of a place stand · s, 0 up to the step; null where they stand anywhere. */
function phaseIn({ start: zero, seconds }: Series, step: number, start: number, ahead: number): number | null {
  const offset = (zero - start) / 1000 - ahead;
  const turn = (2 * Math.PI) / step;
  const stride = Math.max(1, Math.floor(seconds.length / enoughReadings)) | 1;
  let [c, s, n] = [0, 0, 0];
  for (let i = 0; i < seconds.length; i += stride) {
    const angle = turn * ((seconds[i] + offset) % step);
    c += Math.cos(angle);
    s += Math.sin(angle);
    n++;
  }
  if (Math.hypot(c, s) < 0.9 * n) return null;
  // A reading on the hour may come out a hair before it.
  return (((Math.round(Math.atan2(s, c) / turn) % step) + step) % step);
}

/**
 * Puts two places on one hourly axis that begins at a midnight of the record's standard time and holds whole days.
 *
 * @param inside, outside          one quantity of each · Series
 * @param options.offsetHours      standard time minus UTC · h · −14…14
 * @param options.clockOffset      inside's clock minus outside's · s · default 0; positive when inside's is ahead
 * @param options.leftOut          stretches that do not count, such as co-location
 * @param options.bridgeUpTo       longest bridged gap · h · default 3
 * @returns                        see HourlyPair, frozen; hours is 0 when the two share none
 * @throws RangeError              when an option is out of range
 * @example hourlyPair(insideTemperature, temperature, { offsetHours: 7, clockOffset: 140 }).hours // 2424
 * @source house rule
 */
export function hourlyPair(
  inside: Series,
  outside: Series,
  options: { offsetHours: number; clockOffset?: number; leftOut?: readonly LeftOut[]; bridgeUpTo?: number },
): HourlyPair {
  const { offsetHours, clockOffset = 0, leftOut, bridgeUpTo } = options;
  requireWithin("hourlyPair", "offsetHours", offsetHours, -14, 14, "h");
  requireWithin("hourlyPair", "clockOffset", clockOffset, -86400, 86400, "s");
  const dayMs = hoursADay * hourMs;
  const firsts = [inside, outside].map((s) => s.start);
  const lasts = [inside, outside].map((s) => s.start + 1000 * s.seconds[s.seconds.length - 1]);
  const midnight = (ms: number): number => Math.floor((ms + offsetHours * hourMs) / dayMs) * dayMs - offsetHours * hourMs;
  let start = midnight(Math.max(...firsts) - Math.abs(clockOffset) * 1000);
  const end = midnight(Math.min(...lasts) + Math.abs(clockOffset) * 1000) + dayMs;
  if (!(end > start)) return Object.freeze({ start, hours: 0, inside: new Float64Array(0), outside: new Float64Array(0), lagCorrection: 0 });
  const edge = edgeBetween(inside, outside, start, clockOffset);
  const centering = toMiddle(outside, start, 0) ?? toMiddle(inside, start, clockOffset) ?? undefined;
  const axis = { start, hours: Math.round((end - start) / hourMs), edge, centering };
  const a = laid(inside, axis, { ahead: clockOffset, leftOut, bridgeUpTo });
  const b = laid(outside, axis, { leftOut, bridgeUpTo });
  let [first, last, shared, apart] = [-1, -1, 0, 0];
  for (let h = 0; h < axis.hours; h++) {
    if (Number.isNaN(a.values[h]) || Number.isNaN(b.values[h])) continue;
    if (first < 0) first = h;
    last = h;
    shared++;
    apart += a.instants[h] - b.instants[h];
  }
  if (shared === 0) return Object.freeze({ start, hours: 0, inside: new Float64Array(0), outside: new Float64Array(0), lagCorrection: 0 });
  const from = Math.floor(first / hoursADay) * hoursADay;
  const to = (Math.floor(last / hoursADay) + 1) * hoursADay;
  start += from * hourMs;
  const lagCorrection = apart / shared / 3600;
  return Object.freeze({ start, hours: to - from, edge, centering, inside: a.values.slice(from, to), outside: b.values.slice(from, to), lagCorrection });
}
