import { type Estimate, estimate } from "../ground/estimate.js";
import { remembered } from "../ground/remembered.js";
import { median } from "../ground/summary.js";
import { regularGrid } from "../grid/regularGrid.js";
import type { AirRecord, PlaceRecord } from "../record/airRecord.js";
import { flagBit, leftOut } from "../record/flag.js";
import type { Series } from "../record/series.js";
import { clocksBetween } from "./clock/clocksBetween.js";
import { readingStep } from "./faults/readingStep.js";
import { dailyAmplitude, lessMean, lessUsualDay, slopes } from "./warmthSlope.js";

/** A barometer whose reading follows the temperature of its own sensor. */
export interface FeltTemperature {
  readonly place: string;
  /** The place whose barometer it was compared with; null where its own quick changes told it. */
  readonly against: string | null;
  /** hPa per K of its own thermometer. */
  readonly coefficient: Estimate;
  /** Amplitude of the false once-daily tide that this makes · hPa. */
  readonly inTide: number;
}

/** Told from so many standard errors on, beyond so much · hPa/K. */
const sure = 3.3;
const least = 0.012;
/** By itself a barometer is told from more: air that is warmer for a while may truly be lighter, hardly ever heavier. */
const leastAlone = 0.02;
/** No barometer that is sold as one feels more than this (common practice, no source): what does is weather that comes with warmth. */
const mostAlone = 0.25;
/** Departures from a running mean of so many hours, odd. */
const quickHours = 7;
const slowHours = 49;
/** Pressure changes with the air's temperature between two heights by its difference over the absolute temperature · K. */
const absolute = 280;
/** Written more coarsely than so, the stairs of two barometers, or of one, follow the tide and with it the warmth · hPa. */
const coarsestPair = 0.25;
const coarsestAlone = 0.5;
/** So many readings show in which steps they are written. */
const enough = 5000;

/** A barometer that feels temperature moves the offset of two clocks by up to so much by itself · s. */
const feignedOffset = 90;
/** What a clock known to no better makes of the tide · hPa/K. */
const ofClocks = 0.003;

const once = remembered<AirRecord, readonly FeltTemperature[]>();

/**
 * Barometers that feel the temperature of their own sensor, with how much.
 *
 * Two barometers: their difference against both thermometers, day by day, after their clocks are set to each other. One alone: its quick
 * changes of two to seven hours, the usual day taken out, against those of its own thermometer; the weather's own share there has the
 * other sign (cold gusts are heavy), so only a reading that rises with warmth is told. By S1 alone nothing can be told: the true one lies
 * anywhere from nothing to 2 hPa.
 *
 * @param record a record whose faults are marked
 * @returns      one entry a barometer, by the pair where it tells one
 * @source own method and limits, see README of this room
 */
export function feltTemperature(record: AirRecord): readonly FeltTemperature[] {
  return once(record, "", () => {
    const able = Object.values(record.places).filter(({ series }) => series.surface_air_pressure !== undefined && series.air_temperature !== undefined);
    const digits = new Map(able.map((p) => [p.name, readingStep((p.series.surface_air_pressure as Series).values.subarray(0, enough))]));
    const fine = (most: number): PlaceRecord[] => able.filter((p) => (digits.get(p.name) ?? most) <= most);
    const compared = fine(coarsestPair).flatMap((a, i, all) => all.slice(i + 1).map((b) => ofPair(record, a, b)));
    const pairs = compared.flatMap(({ felt }) => felt);
    const settled = new Set([...pairs.map(({ place }) => place), ...compared.flatMap(({ cleared }) => cleared)]);
    const alone = fine(coarsestAlone).filter(({ name }) => !settled.has(name)).flatMap((p) => ofOne(p));
    const named = new Set<string>();
    return Object.freeze([...pairs, ...alone].filter(({ place }) => !named.has(place) && named.add(place)));
  });
}

/** What two barometers tell of each other. */
interface Compared {
  readonly felt: readonly FeltTemperature[];
  /** Those that the other shows to feel less than could be told of one alone. */
  readonly cleared: readonly string[];
}

function ofPair(record: AirRecord, a: PlaceRecord, b: PlaceRecord): Compared {
  const plain = comparedAt(a, b, 0);
  // Clocks that disagree feign it, and are asked only where something is to be told: their offset is much work.
  if (plain.felt.length === 0) return plain;
  const clocks = clocksBetween(record).find((o) => o.a === a.name && o.b === b.name)?.offset;
  const isEqual = clocks === undefined || Math.abs(clocks.value) - 2 * clocks.standardError < feignedOffset;
  return isEqual ? plain : comparedAt(a, b, clocks.value);
}

/** Both barometers' differences against both thermometers, b set later by an offset · s. */
function comparedAt(a: PlaceRecord, b: PlaceRecord, offset: number): Compared {
  const set = (s: Series): Series => (offset === 0 ? s : { ...s, start: s.start + 1000 * Math.round(offset) });
  const [pa, ta, pb, tb] = hourly([soundLevel(a.series.surface_air_pressure as Series), a.series.air_temperature as Series, set(soundLevel(b.series.surface_air_pressure as Series)), set(b.series.air_temperature as Series)]);
  const difference = pa.map((v, i) => v - pb[i]);
  const level = median([...difference].filter((v) => !Number.isNaN(v)).concat(0));
  const found = slopes(lessMean(difference, slowHours), [lessMean(ta, slowHours), lessMean(tb, slowHours).map((v) => -v)]);
  if (found === null) return { felt: [], cleared: [] };
  const felt: FeltTemperature[] = [];
  const cleared: string[] = [];
  for (const [k, [own, other, warmth]] of ([[a, b, ta], [b, a, tb]] as const).entries()) {
    const { value } = found[k];
    const standardError = Math.hypot(found[k].standardError, ofClocks);
    if (Math.abs(value) - sure * standardError > least + Math.abs(level) / absolute) felt.push(told(own, other.name, value, standardError, warmth));
    else if (Math.abs(value) + sure * standardError < leastAlone + Math.abs(level) / absolute) cleared.push(own.name);
  }
  return { felt, cleared };
}

function ofOne(place: PlaceRecord): FeltTemperature[] {
  const [p, t] = hourly([soundLevel(place.series.surface_air_pressure as Series), place.series.air_temperature as Series]);
  const found = slopes(lessMean(lessUsualDay(p), quickHours), [lessMean(lessUsualDay(t), quickHours)]);
  if (found === null) return [];
  const [{ value, standardError }] = found;
  return value - sure * standardError > leastAlone && value < mostAlone ? [told(place, null, value, standardError, t)] : [];
}

function told(place: PlaceRecord, against: string | null, value: number, standardError: number, warmth: Float64Array): FeltTemperature {
  const half = 2 * standardError;
  return Object.freeze({ place: place.name, against, coefficient: estimate({ value, standardError, low: value - half, high: value + half, unit: "hPa K-1" }), inTide: Math.abs(value) * dailyAmplitude(warmth) });
}

/** Pressure that stands on a shifted level is no difference of sensors by temperature. */
function soundLevel(s: Series): Series {
  return s.flags.some((f) => (f & flagBit.step) !== 0) ? { ...s, values: s.values.map((v, i) => ((s.flags[i] & (flagBit.step | leftOut)) !== 0 ? Number.NaN : v)) } : s;
}

function hourly(all: readonly Series[]): Float64Array[] {
  return regularGrid(all, { step: 3600, fillUpTo: 0 }).columns.map(({ values }) => values);
}

/**
 * The sentence about such a barometer, without its full stop: how much, told how, and what it makes of the tide.
 *
 * @param felt from feltTemperature
 * @param name how a place is named
 */
export function feltSentence({ place, against, coefficient, inTide }: FeltTemperature, name: (place: string) => string): string {
  const size = `${Math.abs(coefficient.value).toFixed(2)} ± ${Math.max(0.01, (coefficient.high - coefficient.low) / 2).toFixed(2)} hPa`;
  const how = against === null ? "as its changes within hours show" : `as the one of ${name(against)} shows beside it`;
  return `the barometer of ${name(place)} reads ${size} ${coefficient.value > 0 ? "higher" : "lower"} for each degree that its own thermometer is warmer, ${how}: about ${inTide.toFixed(2)} hPa of its once-daily tide S1 ${against === null ? "or more " : ""}is the sensor's own`;
}
