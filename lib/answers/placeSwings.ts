import { type PressureSwings, pressureSwings } from "../cycles/swings/pressureSwings.js";
import type { TideOfPlace } from "../cycles/swings/pressureTendency.js";
import type { SwingEvent } from "../cycles/swings/swingEvents.js";
import { type VarianceShares, varianceShares } from "../cycles/swings/varianceShares.js";
import { tideAt, withoutTide } from "../cycles/tide/tideAt.js";
import type { TideFit } from "../cycles/tide/tideFit.js";
import { regularGrid } from "../grid/regularGrid.js";
import { medianStep } from "../grid/step.js";
import { RecordError } from "../ground/complaint.js";
import { leastDifference } from "../ground/leastDifference.js";
import { dayText } from "../ground/instant.js";
import { median } from "../ground/summary.js";
import type { AirRecord } from "../record/airRecord.js";
import { leftOut } from "../record/flag.js";
import type { Series } from "../record/series.js";
import { faultsOf } from "../trust/faults/faultsOf.js";
import { movesOf, tideOfFit, tideToTakeOut } from "./placeTide.js";

/** The swings of one place with everything that figures want. */
export interface PlaceSwings {
  readonly swings: PressureSwings;
  readonly shares: VarianceShares | null;
  /** The tide that was taken out; null where none could be fitted. */
  readonly fit: TideFit | null;
  /** Instant of the first hour · epoch ms, and tide-free hours · hPa · [n] · NaN is missing. */
  readonly hours: { readonly firstAt: number; readonly values: Float64Array };
  /** Sentences that come from the composition: level shifts, moves, a missing tide. */
  readonly warnings: readonly string[];
}

const hour = 3600;
/** Readings up to so far apart are joined by lines for the band; three hours and less leave no mark on it. */
const longestStep = 25 * hour;
/** Readings further apart carry strength and the larger events, but no beat. */
const beatStep = 3 * hour;
/** Two detectors that name instants so close mean one shift · ms. */
const sameShift = 6 * 3_600_000;
/** Noise of a reading where no fit tells it · hPa; that of a usual home barometer (common practice, no source). */
const unknownNoise = 0.05;

/**
 * Swings of one place: faults out, level shifts off, tide off, hourly means, then `pressureSwings`.
 *
 * A level shift of known size is taken off; at one of unknown size (a station moved) only the longer side is used.
 *
 * @param record        a record whose faults are marked
 * @param series        its pressure · hPa
 * @param options       seed and number of drawn records, see `pressureSwings`
 * @throws RecordError  kind data when no reading is left
 */
export function placeSwings(record: AirRecord, series: Series, options: { readonly seed?: number; readonly draws?: number } = {}): PlaceSwings {
  const warnings: string[] = [];
  const { fit, why } = tideOrWhy(record, series);
  if (why !== null) warnings.push(`no tide was taken out: ${why}`);
  const side = longestSide(series, fit);
  if (side.from > -Infinity || side.to < Infinity) {
    warnings.push(`the station was moved (${movesOf(record).map(dayText).join(", ")}): levels on the two sides are not alike, so only the longer side is used here`);
  }
  const shifts = shiftsOfKnownSize(record, series, fit).filter(({ at }) => at > side.from + sameShift && at < side.to - sameShift);
  const kept = levelled(series, side, shifts, warnings);
  const free = fit === null ? kept : withoutTide(kept, fit);
  const step = medianStep(kept.seconds);
  const isSparse = step > hour && step <= longestStep;
  const grid = regularGrid(free, { step: hour, fillUpTo: isSparse ? step : hour });
  const [column] = grid.columns;
  const offsets = ownMinutes(column.instants, column.counts);
  if (offsets.length === 0) throw new RecordError(`${series.place} must hold pressure that is not marked as faulty (got none)`, "data");
  const firstAt = grid.start + 1000 * median(Float64Array.from(offsets));
  const hours = Object.freeze({ firstAt, values: column.values });
  const instants = Float64Array.from({ length: column.values.length }, (_, k) => firstAt + 1000 * hour * k);
  const tideHours: Float64Array = fit === null ? new Float64Array(instants.length) : tideAt(fit, instants);
  const readings = { start: kept.start, seconds: kept.seconds, values: kept.values };
  const tide = fit === null ? unknownTide(record) : tideOfFit(fit);
  const noise = Math.max(leastDifference(kept.values, 1e-6) / Math.sqrt(12), fit === null ? unknownNoise : readingNoise(fit, step));
  const apart = step > beatStep ? `${(step / hour).toFixed(0)} hours apart` : null;
  const untested = apart === null ? undefined : `Readings ${apart} are too few to ask whether the swings come at a beat: log every 3 hours or oftener.`;
  const whole = pressureSwings({ hours, readings, tide, tideVariance: varianceWhere(tideHours, column.values), noise }, { ...options, untested });
  if (apart !== null) warnings.push(`readings ${apart}: swings under about ${((4 * step) / 86400).toFixed(0)} days come out too small, and the time of a low or high is no better than its step`);
  const swings = apart === null ? whole : Object.freeze({ ...whole, events: timedByStep(whole.events, step / hour) });
  const { parts, band } = swings;
  const shares = parts === null || band === null ? null : varianceShares(parts, tideHours.subarray(parts.first, parts.first + parts.hours));
  return Object.freeze({ swings, shares, fit, hours, warnings: Object.freeze(warnings) });
}

/**
 * A tide of which nothing is known but how large it may be where the record stands: nothing is taken out, and the tendency is as unsure as that.
 *
 * @source 1.16 cos³(latitude) hPa twice a day, see solarCheck of lib/trust; half of it but at least 0.3 hPa once a day: common practice, no source
 */
function unknownTide({ site }: AirRecord): TideOfPlace {
  const twice = 1.16 * Math.cos(((site?.latitude ?? 0) * Math.PI) / 180) ** 3;
  const once = Math.max(0.3, twice / 2);
  // A wave of unknown phase changes by a² (1 − cos) in the mean square.
  const change = (amplitude: number, cyclesPerDay: number, hours: number): number => amplitude ** 2 * (1 - Math.cos((2 * Math.PI * cyclesPerDay * hours) / 24));
  return Object.freeze({ valueAt: () => 0, changeVariance: (_: number, hours: number) => change(twice, 2, hours) + change(once, 1, hours), isDetected: false });
}

function tideOrWhy(record: AirRecord, series: Series): { fit: TideFit | null; why: string | null } {
  try {
    return { fit: tideToTakeOut(record, series), why: null };
  } catch (error) {
    if (!(error instanceof RecordError)) throw error;
    return { fit: null, why: error.message };
  }
}

interface Side {
  readonly from: number;
  readonly to: number;
}

/** The part of a series between level shifts of unknown size that spans most time · epoch ms, [from, to). */
function longestSide(series: Series, fit: TideFit | null): Side {
  const cuts = (fit?.jumps ?? []).filter((j) => j.size === null).map((j) => j.at);
  const ends = [-Infinity, ...cuts, Infinity];
  const first = series.start + 1000 * series.seconds[0];
  const last = series.start + 1000 * series.seconds[series.seconds.length - 1];
  const span = ({ from, to }: Side): number => Math.min(to, last) - Math.max(from, first);
  return ends.slice(1).map((to, i) => ({ from: ends[i], to })).reduce((a, b) => (span(b) > span(a) ? b : a));
}

/** Lows and highs whose time is no better than the step of the readings, and whose duration is not told. */
function timedByStep(events: readonly SwingEvent[], hoursApart: number): readonly SwingEvent[] {
  return Object.freeze(events.map((e) => Object.freeze({ ...e, atStandardError: Math.hypot(e.atStandardError, hoursApart / Math.sqrt(12)), durationHours: null })));
}

interface LevelShift {
  readonly at: number;
  /** After minus before · hPa. */
  readonly size: number;
}

/** Level shifts that the other barometer convicts, and those that the tide's fit found by itself. */
function shiftsOfKnownSize(record: AirRecord, series: Series, fit: TideFit | null): LevelShift[] {
  const convicted = faultsOf(record, series.place).flatMap((f) => (f.flag === "step" && f.quantity === series.quantity && f.size !== null ? [{ at: f.from, size: f.size }] : []));
  const alone = (fit?.jumps ?? []).flatMap(({ at, size }) => (size === null || convicted.some((c) => Math.abs(c.at - at) < sameShift) ? [] : [{ at, size }]));
  return [...convicted, ...alone].sort((a, b) => a.at - b.at);
}

/** Faulty readings and those of the other side as NaN, and everything after a level shift of known size set back by it. */
function levelled(series: Series, side: Side, shifts: readonly LevelShift[], warnings: string[]): Series {
  for (const { at, size } of shifts) {
    warnings.push(`the level jumps by ${size < 0 ? "−" : "+"}${Math.abs(size).toFixed(1)} hPa on ${dayText(at)} (a new sensor, a knock, a move?): that step was taken off and is no swing; what the weather did within hours of it cannot be told`);
  }
  const { start, seconds, flags } = series;
  const values = series.values.slice();
  for (let i = 0; i < values.length; i++) {
    const t = start + 1000 * seconds[i];
    if ((flags[i] & leftOut) !== 0 || t < side.from || t >= side.to) values[i] = Number.NaN;
    for (let k = 0; k < shifts.length && t >= shifts[k].at; k++) values[i] -= shifts[k].size;
  }
  return Object.freeze({ ...series, values, flags: new Uint16Array(values.length) });
}

/** Mean instant of each held hour less the hour's beginning · s. */
function ownMinutes(instants: Float64Array, counts: Uint32Array): number[] {
  const found: number[] = [];
  for (let k = 0; k < instants.length; k++) if (counts[k] > 0) found.push(instants[k] - hour * k);
  return found;
}

/**
 * White noise of one reading by the tide's noise model, which knows that of an hour's mean · hPa: hourly weather looks like noise, so
 * an hour has no more than a poor barometer's (common practice, no source).
 */
function readingNoise(fit: TideFit, step: number): number {
  return Math.min(0.1, fit.noise.sigma * Math.sqrt(fit.noise.whiteRatio)) * Math.sqrt(Math.max(1, hour / step));
}

function varianceWhere(tide: Float64Array, values: Float64Array): number {
  let sum = 0;
  let squares = 0;
  let count = 0;
  for (let i = 0; i < tide.length; i++) {
    if (Number.isNaN(values[i])) continue;
    sum += tide[i];
    squares += tide[i] ** 2;
    count++;
  }
  return count === 0 ? 0 : Math.max(0, squares / count - (sum / count) ** 2);
}
