import { RecordError, requireWithin } from "../ground/complaint.js";
import { dayText, instantText } from "../ground/instant.js";
import { mean } from "../ground/summary.js";
import type { AirRecord, Exposure, PlaceRecord } from "../record/airRecord.js";
import { flagBit } from "../record/flag.js";
import type { Series } from "../record/series.js";
import { coLocated, corrected, ofSensors } from "./coLocatedSensors.js";
import { changingEvents, coLocations, eventPeriods } from "./eventPeriods.js";
import { isUneven } from "./evenReadings.js";
import { hourlyMeans, hourlyPair } from "./hourlyPair.js";
import type { HouseOptions, HousePair, PairPeriod } from "./housePair.js";
import { changesAt, daysOfASide } from "./pairChanges.js";
import { type PairHours, pairNumbers } from "./pairNumbers.js";
import { type PairCircumstances, pairWarnings } from "./pairWarnings.js";
import { sensorClass } from "./sensorOffset.js";

const hourMs = 3_600_000;

/**
 * Every place inside against every place outside of a record: what the house does to the weather.
 *
 * Co-located bias and clock offset come off first, both places are laid on hours of the record's standard time, and each number
 * is found as the routine of its name says. Between dated events the same is told for each period, and what changed.
 *
 * @param record  as it was read, best with its faults flagged
 * @param options see HouseOptions
 * @returns       pairs, frozen; inside places in the record's order, for each the outside places
 * @throws RecordError when no place is marked indoor or none outdoor, or no pair shares 6 days of temperature (kind "data")
 * @throws RangeError  when an option is out of range
 * @example housePairs(record, { offsetHours: 7 })[0].timeLag?.value // 4.71 h
 * @source indoors README
 */
export function housePairs(record: AirRecord, options: HouseOptions): readonly HousePair[] {
  const { factor = 0.7, offsetHours, clockOffsetSeconds } = options;
  requireWithin("housePairs", "factor", factor, 0, 1);
  requireWithin("housePairs", "offsetHours", offsetHours, -14, 14, "h");
  const requireOffset = (s: number): void => requireWithin("housePairs", "clockOffsetSeconds", s, -86400, 86400, "s");
  if (typeof clockOffsetSeconds === "number") requireOffset(clockOffsetSeconds);
  else if (typeof clockOffsetSeconds === "object") Object.values(clockOffsetSeconds).forEach(requireOffset);
  const [indoor, outdoor] = (["indoor", "outdoor"] as const).map((exposure) => placesOf(record, exposure));
  const short: string[] = [];
  const pairs: HousePair[] = [];
  for (const inside of indoor) {
    for (const outside of outdoor) {
      const ahead = aheadOf(clockOffsetSeconds, inside.place.name, outside.place.name);
      if (ahead !== null) requireOffset(ahead);
      const pair = housePair(record, inside, outside, { factor, offsetHours, ahead: ahead ?? 0, isClockKnown: ahead !== null });
      if (pair.days < 6) short.push(pair.warnings[0]);
      pairs.push(pair);
    }
  }
  if (short.length === pairs.length) {
    throw new RecordError(short[0], "data", {}, short.slice(1));
  }
  const aside = inNoPair(record);
  const [first, ...rest] = pairs;
  return Object.freeze(aside.length === 0 ? pairs : [Object.freeze({ ...first, warnings: Object.freeze([...first.warnings, ...aside]) }), ...rest]);
}

/** Places that stand in no pair, and why; told once, with the first pair. */
function inNoPair(record: AirRecord): string[] {
  return Object.values(record.places).flatMap(({ title, exposure, series }) => {
    if (exposure === null) return [`${title} stands in no pair: the description does not say whether it is indoors or outdoors (\`exposure\`).`];
    return series.air_temperature === undefined ? [`${title} stands in no pair: it logs no air temperature.`] : [];
  });
}

/** A place whose temperature was logged. */
interface Thermometer {
  readonly place: PlaceRecord;
  readonly temperature: Series;
}

/** Places with this exposure and a temperature; an error that says what is missing where there is none. */
function placesOf(record: AirRecord, exposure: Exposure): Thermometer[] {
  const all = Object.values(record.places);
  const wanted = all.filter((p) => p.exposure === exposure);
  if (wanted.length === 0) {
    const got = all.map((p) => `${p.name} ${p.exposure ?? "not told"}`).join(", ") || "no place";
    throw new RecordError(`places must hold at least one with exposure "${exposure}" (got ${got}); the description says it of each place`, "data");
  }
  const withTemperature = wanted.flatMap((place) => (place.series.air_temperature === undefined ? [] : [{ place, temperature: place.series.air_temperature }]));
  if (withTemperature.length === 0) {
    throw new RecordError(`an ${exposure} place must hold air temperature (got none in ${wanted.map((p) => p.name).join(", ")})`, "data");
  }
  return withTemperature;
}

/** How far the inside's clock is ahead of the outside's · s · null where nobody knows. */
function aheadOf(clock: HouseOptions["clockOffsetSeconds"], inside: string, outside: string): number | null {
  if (typeof clock === "function") return clock(inside, outside);
  return typeof clock === "object" ? (clock[inside] ?? 0) - (clock[outside] ?? 0) : (clock ?? null);
}

interface PairOptions {
  readonly factor: number;
  readonly offsetHours: number;
  /** Inside's clock minus outside's · s. */
  readonly ahead: number;
  readonly isClockKnown: boolean;
}

function housePair(
  record: AirRecord,
  { place: inside, temperature: a }: Thermometer,
  { place: outside, temperature: b }: Thermometer,
  { factor, offsetHours, ahead, isClockKnown }: PairOptions,
): HousePair {
  const names = [inside.name, outside.name];
  const leftOut = coLocations(record.events, names);
  const pair = hourlyPair(a, b, { offsetHours, clockOffset: ahead, leftOut });
  const humidity = (place: PlaceRecord, seconds: number): Float64Array =>
    place.series.relative_humidity === undefined ? new Float64Array(pair.hours).fill(Number.NaN) : hourlyMeans(place.series.relative_humidity, pair, { ahead: seconds, leftOut });
  const raw: PairHours = { insideTemperature: pair.inside, outsideTemperature: pair.outside, insideHumidity: humidity(inside, ahead), outsideHumidity: humidity(outside, 0) };
  const together = coLocated(record, inside, outside, ahead);
  const hours = together === null ? raw : corrected(raw, together);
  const sensorOffset =
    together ??
    sensorClass(
      { temperature: mean(raw.insideTemperature), humidity: mean(raw.insideHumidity) },
      { temperature: mean(raw.outsideTemperature), humidity: mean(raw.outsideHumidity) },
    );
  // What the sensors may still add: after a co-location its own interval, else what the class allows.
  const sensorMoisture = sensorOffset.moisture === null ? 0 : (sensorOffset.moisture.high - sensorOffset.moisture.low) / 2;
  const settings = { factor, lagCorrection: pair.lagCorrection, sensorMoisture };
  const dateFrom = (first: number) => (hour: number): string => dayText(pair.start + hourMs * (first + hour + offsetHours));
  const circumstances: PairCircumstances = {
    inside: inside.title,
    outside: outside.title,
    warmed: warmedIn(b, pair.start, pair.start + pair.hours * hourMs),
    hasHumidity: { inside: raw.insideHumidity.some((v) => !Number.isNaN(v)), outside: raw.outsideHumidity.some((v) => !Number.isNaN(v)) },
    isClockKnown,
    uneven: [...(isUneven(a.seconds) ? [inside.title] : []), ...(isUneven(b.seconds) ? [outside.title] : [])],
    dateOf: dateFrom(0),
  };
  const whole = pairNumbers(hours, settings);
  const events = changingEvents(record.events, pair, names);
  const sides = eventPeriods(events, pair).map(({ title, fromHour, toHour }) => ({ title, fromHour, toHour, ...pairNumbers(cut(hours, fromHour, toHour), settings) }));
  const periods = sides.map((side): PairPeriod => {
    const instants = [side.fromHour, side.toHour].map((h) => instantText(pair.start + h * hourMs));
    const warmed = warmedIn(b, pair.start + side.fromHour * hourMs, pair.start + side.toHour * hourMs);
    const warnings = pairWarnings(side.numbers, side.workings, { ...circumstances, warmed, dateOf: dateFrom(side.fromHour) });
    return Object.freeze({ title: side.title, from: instants[0], to: instants[1], ...side.numbers, warnings });
  });
  const changes = events.flatMap((event, i) => changesAt({ title: event.title, at: instantText(event.at) }, sides[i], sides[i + 1], whole.workings));
  return Object.freeze({
    inside: inside.name,
    outside: outside.name,
    ...whole.numbers,
    sensorOffset,
    periods: Object.freeze(periods),
    changes: Object.freeze(changes),
    warnings: Object.freeze([...pairWarnings(whole.numbers, whole.workings, circumstances), ...ofSensors(sensorOffset, record.events, circumstances, names), ...ofEvents(periods)]),
  });
}

/** Readings flagged as heated from one instant to another. */
function warmedIn(series: Series, from: number, to: number): number {
  return series.flags.reduce((count, f, i) => {
    const at = series.start + 1000 * series.seconds[i];
    return count + ((f & flagBit.warmed) !== 0 && at >= from && at < to ? 1 : 0);
  }, 0);
}

function cut(hours: PairHours, from: number, to: number): PairHours {
  return {
    insideTemperature: hours.insideTemperature.slice(from, to),
    outsideTemperature: hours.outsideTemperature.slice(from, to),
    insideHumidity: hours.insideHumidity.slice(from, to),
    outsideHumidity: hours.outsideHumidity.slice(from, to),
  };
}

function ofEvents(periods: readonly PairPeriod[]): string[] {
  if (periods.length === 0) return [];
  const isCrowded = periods.slice(1, -1).some(({ days }) => days < daysOfASide);
  const crowded = isCrowded ? [`Events less than about ${daysOfASide + 4} days apart leave too little between them: told as one event with \`from\` and \`to\`, what they did together can be compared.`] : [];
  return [...crowded, "The numbers of the whole record mix what was before and after its events: read the periods.", "Changes: anything else that changed on the same date as an event cannot be told apart from it."];
}
