import { requireReadings, requireWithin } from "../../ground/complaint.js";
import { type Estimate, estimate } from "../../ground/estimate.js";
import { levelReader, type MeanReading, type Readings } from "./meanReading.js";
import { type Change, characteristicWords, tendencyCharacteristic } from "./tendencyCharacteristic.js";
import { tendencyTerm } from "./tendencyTerm.js";

/** What the tendency needs to know of a fitted tide. */
export interface TideOfPlace {
  /** Tide at an instant (epoch ms) · hPa about its mean. */
  valueAt(at: number): number;
  /** Variance of tide(at) − tide(at − hours), from the fit's covariance · hPa². */
  changeVariance(at: number, hours: number): number;
  /** Whether any line of the tide stands out of the noise. */
  readonly isDetected: boolean;
}

/** What else makes the tendency unsure. */
export interface TendencyNoise {
  /** White noise of one reading · hPa. */
  readonly reading: number;
  /** Variance of the daily tide's change from day to day, by dayToDayTide · hPa² · null where it could not be told. */
  readonly dayToDay: number | null;
}

/** The newest change. */
export interface LastTendency {
  /** Instant of its end · epoch ms, UTC. */
  readonly at: number;
  /** hPa in 3 h; the interval is the readings' noise. */
  readonly raw: Estimate;
  /** hPa in 3 h without the tide. */
  readonly tideFree: Estimate;
  /** Shape of the three hours, code 0…8 of WMO table 0200; null where the middle is missing. */
  readonly characteristic: number | null;
  /** The same in words; null likewise. */
  readonly characteristicSays: string | null;
  /** 'steady', 'rising slowly', …, or 'no clear change'. */
  readonly term: string;
  /** Standard errors by cause · hPa. */
  readonly errors: { readonly readings: number; readonly tideFit: number; readonly dayToDay: number };
}

/** Pressure changes over three hours, as read and without the tide. */
export interface PressureTendency {
  /** One value each 3 h back from the newest · epoch ms · hPa in 3 h · NaN beside a gap. */
  readonly series: { readonly at: Float64Array; readonly raw: Float64Array; readonly tideFree: Float64Array };
  readonly last: LastTendency | null;
  readonly warnings: readonly string[];
}

/** What stands beside every tendency that people see. */
export const tendencyCaution: string = "not a storm warning: for warnings ask your weather service";

const threeHours = 10800;
const mostMismatch = 1800;
const z = 1.959964;

/** |1 − e^{−2πi·hours/24}|² for a once-a-day wave; the 2 because a wobble of steady phase is twice its mean at its worst hour. */
const dayToDayShare = (hours: number): number => 2 * (2 - 2 * Math.cos((2 * Math.PI * hours) / 24));

/**
 * The 3-hour pressure tendency with the tide taken out.
 *
 * From readings alone, never from the 2-day filter, whose newest hour is unsure by half the swings. A level is the mean of the readings
 * within ±15 min (at longer steps the reading itself); beside a gap there is none. At steps to 15 min the newest level stands 15 min
 * before the last reading. Where no tide line is detected and the tide's error exceeds the tide itself, nothing is taken out.
 *
 * @param readings station pressure · hPa
 * @param tide     see TideOfPlace
 * @param noise    see TendencyNoise
 * @returns        see PressureTendency, frozen
 * @throws RangeError when a reading is infinite or beyond ±1e60, the start is no instant, or a noise is not from 0
 * @example pressureTendency(readings, tide, { reading: 0.05, dayToDay: 0 }).last?.term // "rising slowly"
 * @source error budget measured by simulation, see README of this room
 */
export function pressureTendency(readings: Readings, tide: TideOfPlace, noise: TendencyNoise): PressureTendency {
  requireWithin("pressureTendency", "readings.start", readings.start, -8.64e15, 8.64e15, "ms");
  requireReadings("pressureTendency", "readings.values", readings.values);
  requireWithin("pressureTendency", "noise.reading", noise.reading, 0, 1e60, "hPa");
  if (noise.dayToDay !== null) requireWithin("pressureTendency", "noise.dayToDay", noise.dayToDay, 0, 1e60, "hPa²");
  const warnings: string[] = [];
  const reader = levelReader(readings, tide.valueAt);
  if (reader === null) return nothing(["no tendency: fewer than two readings"]);
  if (reader.step > threeHours + 2) return nothing(["no tendency: readings are more than 3 hours apart"]);
  const count = Math.max(0, Math.floor((reader.last - reader.first) / threeHours + 1e-9));
  const series = { at: new Float64Array(count), raw: new Float64Array(count), tideFree: new Float64Array(count) };
  let tidePower = 0;
  let weatherPower = 0;
  let before = reader.level(reader.last - count * threeHours);
  for (let k = 0; k < count; k++) {
    const t = reader.last - (count - 1 - k) * threeHours;
    const now = reader.level(t);
    const change = changeOf(before, now, readings.start, tide);
    series.at[k] = readings.start + 1000 * t;
    series.raw[k] = change?.raw ?? Number.NaN;
    series.tideFree[k] = change?.tideFree ?? Number.NaN;
    if (change !== null) {
      tidePower += change.tide ** 2;
      weatherPower += (change.raw - change.tide) ** 2;
    }
    before = now;
  }
  const last = lastOf(reader, readings, tide, noise);
  if (last === null) warnings.push("no newest tendency: a gap in the last three hours");
  else {
    if (noise.dayToDay === null) warnings.push("too short to tell how the daily tide changes from day to day: the tendency's interval is too narrow");
    if (last.errors.tideFit > Math.hypot(last.errors.readings, last.errors.dayToDay) && last.errors.tideFit > 0.05) {
      warnings.push(`most of the tendency's uncertainty (± ${(z * last.errors.tideFit).toFixed(2)} hPa) is the tide's own; a longer record makes it smaller`);
    }
    if (isUnknowable(last.at, tide)) warnings.push("no tide stands out of the weather yet: nothing was taken out of the tendency");
  }
  if (tidePower > weatherPower && tide.isDetected) warnings.push("within a day of unusual daily tide the tendency's interval is too narrow");
  return Object.freeze({ series: Object.freeze(series), last, warnings: Object.freeze(warnings) });
}

/** True where the tide is undetected and its error exceeds it. */
function isUnknowable(at: number, tide: TideOfPlace): boolean {
  return !tide.isDetected && tide.changeVariance(at, 3) > (tide.valueAt(at) - tide.valueAt(at - 1000 * threeHours)) ** 2;
}

function changeOf(
  from: MeanReading | null,
  to: MeanReading | null,
  start: number,
  tide: TideOfPlace,
): { raw: number; tide: number; tideFree: number } | null {
  if (from === null || to === null) return null;
  const span = to.seconds - from.seconds;
  if (Math.abs(span - threeHours) > mostMismatch) return null;
  // Readings off the full hour: the change is told for exactly three hours.
  const scale = threeHours / span;
  const raw = scale * (to.raw - from.raw);
  const tideFree = scale * (to.tideFree - from.tideFree);
  return { raw, tide: raw - tideFree, tideFree: isUnknowable(start + 1000 * to.seconds, tide) ? raw : tideFree };
}

function lastOf(reader: NonNullable<ReturnType<typeof levelReader>>, readings: Readings, tide: TideOfPlace, noise: TendencyNoise): LastTendency | null {
  const t = reader.last;
  const from = reader.level(t - threeHours);
  const to = reader.level(t);
  const change = changeOf(from, to, readings.start, tide);
  if (from === null || to === null || change === null) return null;
  const at = readings.start + 1000 * t;
  const kept = (level: MeanReading): number => (isUnknowable(at, tide) ? level.raw : level.tideFree);
  const budget = (noiseFactor: number, hours: number, end: number): { readings: number; tideFit: number; dayToDay: number } => ({
    readings: noise.reading * Math.sqrt(noiseFactor),
    tideFit: Math.sqrt(Math.max(0, tide.changeVariance(end, hours))),
    dayToDay: Math.sqrt(dayToDayShare(hours) * (noise.dayToDay ?? 0)),
  });
  const errors = budget(from.noiseFactor + to.noiseFactor, 3, at);
  const raw = withError(change.raw, errors.readings);
  const total: Change = { value: change.tideFree, standardError: Math.hypot(errors.readings, errors.tideFit, errors.dayToDay) };
  const tideFree = withError(total.value, total.standardError);
  const middle = reader.between(t - threeHours / 2);
  let characteristic: number | null = null;
  if (middle !== null) {
    const half = (a: MeanReading, b: MeanReading, end: number): Change => {
      const parts = budget(a.noiseFactor + b.noiseFactor, 1.5, end);
      return { value: kept(b) - kept(a), standardError: Math.hypot(parts.readings, parts.tideFit, parts.dayToDay) };
    };
    const first = half(from, middle, at - 500 * threeHours);
    const second = half(middle, to, at);
    // The middle reading counts twice in the difference of the halves.
    const bendError = Math.hypot(first.standardError, second.standardError, noise.reading * Math.sqrt(2 * middle.noiseFactor));
    characteristic = tendencyCharacteristic(first, second, { value: second.value - first.value, standardError: bendError }, total);
  }
  return Object.freeze({
    at,
    raw,
    tideFree,
    characteristic,
    characteristicSays: characteristic === null ? null : characteristicWords[characteristic],
    term: tendencyTerm(tideFree.value, tideFree),
    errors: Object.freeze(errors),
  });
}

function withError(value: number, standardError: number): Estimate {
  return estimate({ value, standardError, low: value - z * standardError, high: value + z * standardError, unit: "hPa" });
}

function nothing(warnings: readonly string[]): PressureTendency {
  const empty: Float64Array = new Float64Array(0);
  return Object.freeze({ series: Object.freeze({ at: empty, raw: empty, tideFree: empty }), last: null, warnings: Object.freeze(warnings) });
}
