import { requireWithin } from "../../ground/complaint.js";
import { moreDays } from "../../ground/moreDays.js";
import { random } from "../../ground/random.js";
import { type BandStrength, bandStrength } from "./bandStrength.js";
import { dayToDayTide } from "./dayToDayTide.js";
import type { Readings } from "./meanReading.js";
import { type PressureTendency, pressureTendency, type TideOfPlace } from "./pressureTendency.js";
import { shortestStepNoise } from "./shortestStepNoise.js";
import { sixHourMeans } from "./sixHourMeans.js";
import { bandNeedsDays, slowFilterNeedsDays, type SwingBand, swingBand } from "./swingBand.js";
import { type SwingEvent, swingEvents } from "./swingEvents.js";
import { type SwingSpectrum, swingSpectrum } from "./swingSpectrum.js";

/** What is asked of one place; everything that comes from the tide is handed in. */
export interface PressureSwingsInput {
  /** Hourly means with the tide taken out. */
  readonly hours: {
    /** Instant that the first value stands for: the middle of its hour, or the reading's own instant where readings are hourly · epoch ms, UTC. */
    readonly firstAt: number;
    /** hPa · [n] · NaN is missing; gaps over 1 h must stay missing. */
    readonly values: Float64Array;
  };
  /** Readings as logged, tide still in, flagged ones as NaN · hPa. */
  readonly readings: Readings;
  readonly tide: TideOfPlace;
  /** Variance of the tide that was taken out of the hours · hPa². */
  readonly tideVariance: number;
  /** White noise of one reading from the tide's fit · hPa; the noise of the shortest step is used instead where it can be told. */
  readonly noise: number;
}

/** The band as the answer tells it. */
export interface BandSummary extends BandStrength {
  readonly shortestDays: number;
  readonly longestDays: number;
  readonly slowBy: SwingBand["slowBy"];
}

/** Multi-day swings, lows and highs, beat and tendency of one place. */
export interface PressureSwings {
  /** null under 8 d; then there are no events. */
  readonly band: BandSummary | null;
  readonly events: readonly SwingEvent[];
  readonly spectrum: SwingSpectrum;
  readonly tendency: PressureTendency;
  readonly warnings: readonly string[];
  /** Hourly parts for figures; null under 8 d. */
  readonly parts: SwingBand | null;
}

/**
 * What passing weather does to the pressure of one place: swings of 2 to 15 days, lows and highs, a beat or none, and what is coming
 * now without the tide.
 *
 * Each part says by itself what it cannot tell; nothing is thrown for a short record.
 *
 * @param input         see PressureSwingsInput
 * @param options.seed  of the drawn records behind the p-values · default 20260101
 * @param options.draws how many · default 499
 * @param options.untested why no beat is asked for, see `swingSpectrum`
 * @returns             see PressureSwings, frozen
 * @throws RangeError   when noise is not from 0
 * @throws RecordError  when no hour is present
 * @example pressureSwings({ hours: { firstAt, values: hours }, readings, tide, tideVariance: 0.6, noise: 0.05 }).events[0].kind // "high"
 * @source see README of this room
 */
export function pressureSwings(input: PressureSwingsInput, options: { seed?: number; draws?: number; untested?: string } = {}): PressureSwings {
  requireWithin("pressureSwings", "noise", input.noise, 0, 1e60, "hPa");
  const { hours, readings, tide, tideVariance } = input;
  const { seed = 20260101, draws = 499, untested } = options;
  const present = presentSpan(hours.values);
  const warnings: string[] = [];
  const noise = shortestStepNoise(readings.seconds, readings.values) ?? input.noise;
  const dayToDay = dayToDayTide(hours.values);
  let parts: SwingBand | null = null;
  let band: BandSummary | null = null;
  let events: readonly SwingEvent[] = [];
  if (present.days < bandNeedsDays) {
    const more = Math.max(1, Math.ceil(bandNeedsDays - present.days));
    warnings.push(`too short for the swings of several days: log ${moreDays(more)}`);
  } else {
    // An hour is a mean of readings: its noise is no larger than that of one.
    parts = swingBand(hours.values, { noise, dayToDay: dayToDay ?? 0 });
    const isFlat = !hasSwings(parts);
    events = isFlat ? [] : swingEvents(parts, hours.firstAt);
    const { shortestDays, longestDays, slowBy } = parts;
    const strength = isFlat ? null : strengthOrNull(parts, tideVariance);
    if (isFlat) warnings.push("the pressure did not change: there are no swings");
    else if (strength === null) warnings.push("too few days hold readings to tell the strength of the swings");
    else {
      band = Object.freeze({ ...strength, shortestDays, longestDays, slowBy });
      if (strength.isShort) warnings.push("few storms are in this record: the interval of the swings' strength may be too narrow");
    }
    if (present.days < slowFilterNeedsDays) {
      const more = Math.ceil(slowFilterNeedsDays - present.days);
      warnings.push(`under ${slowFilterNeedsDays} days the slow background is a straight line, so swings over ${longestDays.toFixed(0)} days are not told: log ${moreDays(more)}`);
    }
    if (present.missing > 0.1) warnings.push(`${(100 * present.missing).toFixed(0)} % of the hours are missing: the errors were tried with up to 10 % missing only`);
  }
  const spectrum = swingSpectrum(sixHourMeans(hours.values), random(seed).normal, { draws, untested });
  const tendency = pressureTendency(readings, tide, { reading: noise, dayToDay });
  warnings.push(...tendency.warnings);
  return Object.freeze({ band, events, spectrum, tendency, warnings: Object.freeze(warnings), parts });
}

/** The interval needs more than five days with readings, two of them neighbors. */
function strengthOrNull(parts: SwingBand, tideVariance: number): BandStrength | null {
  const days = Array.from({ length: Math.ceil(parts.hours / 24) }, (_, d) => parts.isReal.subarray(24 * d, 24 * d + 24).includes(1));
  const isEnough = days.filter((d) => d).length > 5 && days.some((d, i) => d && days[i + 1] === true);
  return isEnough ? bandStrength(parts, tideVariance) : null;
}

/** Whether the band is more than what rounding leaves in the filters of a pressure that never changes. */
function hasSwings({ sigma, slow }: SwingBand): boolean {
  const level = slow.reduce((most, v) => Math.max(most, Math.abs(v)), 1);
  return sigma > 1e-9 * level;
}

function presentSpan(values: Float64Array): { days: number; missing: number } {
  let first = -1;
  let last = -1;
  let count = 0;
  for (let i = 0; i < values.length; i++) {
    if (Number.isNaN(values[i])) continue;
    if (first < 0) first = i;
    last = i;
    count++;
  }
  const hours = first < 0 ? 0 : last - first + 1;
  return { days: hours / 24, missing: hours === 0 ? 1 : 1 - count / hours };
}
