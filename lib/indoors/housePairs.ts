import { RecordError, requireWithin } from "../ground/complaint.js";
import type { Estimate } from "../ground/estimate.js";
import { dayText, instantText } from "../ground/instant.js";
import { mean } from "../ground/summary.js";
import type { AirRecord, Exposure, PlaceRecord, RecordEvent } from "../record/airRecord.js";
import { stoodTogether } from "../record/eventPlaces.js";
import { flagBit } from "../record/flag.js";
import type { Quantity } from "../record/quantity.js";
import type { Series } from "../record/series.js";
import { changingEvents, coLocations, coLocationsOf, eventPeriods } from "./eventPeriods.js";
import { isUneven } from "./evenReadings.js";
import { type HourAxis, hourlyMeans, hourlyPair } from "./hourlyPair.js";
import type { HouseOptions, HousePair, PairPeriod } from "./housePair.js";
import { hourlyMoisture } from "./moistureExcess.js";
import { changesAt, daysOfASide } from "./pairChanges.js";
import { type PairHours, pairNumbers } from "./pairNumbers.js";
import { type PairCircumstances, pairWarnings } from "./pairWarnings.js";
import { type SensorOffset, sensorClass, sideBySide } from "./sensorOffset.js";

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

/** Bias of the two places' sensors while they stood together, or null where they never did for 6 hours. */
function coLocated(record: AirRecord, inside: PlaceRecord, outside: PlaceRecord, ahead: number): SensorOffset | null {
  const found = coLocationsOf(record.events, [inside.name, outside.name])
    .map((event) => {
      // Whole hours inside the period only, so that the carrying about at its ends is not in it.
      const start = Math.ceil(event.at / hourMs) * hourMs;
      const axis: HourAxis = { start, hours: Math.max(0, Math.floor(((event.to ?? event.at) - start) / hourMs)) };
      const of = (place: PlaceRecord, quantity: Quantity, seconds: number): Float64Array => {
        const series = place.series[quantity];
        return series === undefined ? new Float64Array(axis.hours).fill(Number.NaN) : hourlyMeans(series, axis, { ahead: seconds, bridgeUpTo: 0 });
      };
      return { event, t: [of(inside, "air_temperature", ahead), of(outside, "air_temperature", 0)], rh: [of(inside, "relative_humidity", ahead), of(outside, "relative_humidity", 0)] };
    })
    .filter(({ event, t: [a, b] }) => stoodTogether(record, event, inside.name, outside.name, () => a.map((v, h) => v - b[h])));
  const longest = found.sort((x, y) => y.t[0].length - x.t[0].length)[0];
  if (longest === undefined) return null;
  const { t, rh } = longest;
  const moist = [0, 1].map((i) => hourlyMoisture({ temperature: t[i], humidity: rh[i] }));
  const [temperature, humidity, moisture] = ([[t, "K"], [rh, "%"], [moist, "g m-3"]] as const).map(([values, unit]): Estimate | null => sideBySide(values[0], values[1], { unit }).bias);
  return temperature === null ? null : Object.freeze({ temperature, humidity, moisture, basis: "co-location" });
}

function corrected(hours: PairHours, { temperature, humidity }: SensorOffset): PairHours {
  const less = (values: Float64Array, bias: Estimate | null): Float64Array => (bias === null ? values : values.map((v) => v - bias.value));
  // A corrected humidity may pass 0 or 100 by the bias itself; it stays a reading.
  const insideHumidity = less(hours.insideHumidity, humidity).map((v) => Math.min(100, Math.max(0, v)));
  return { ...hours, insideTemperature: less(hours.insideTemperature, temperature), insideHumidity };
}

function ofSensors({ basis, temperature }: SensorOffset, events: readonly RecordEvent[], { inside, outside }: PairCircumstances, names: readonly string[]): string[] {
  if (basis === "co-location") return [`The sensors' own difference, measured side by side, is taken off (${temperature?.value.toFixed(2)} K of temperature); it holds for the weather of those days.`];
  const told = events.filter((e) => e.kind === "co-location");
  const endless = told.some((e) => e.to === null) ? ["A co-location that is told by `at` alone is not used: give it `from` and `to`."] : [];
  const unnamed = coLocationsOf(told, names).some((e) => e.places === undefined)
    ? [`The co-location names no places, and ${inside} and ${outside} then differed by more than sensors side by side do: nothing is taken off. Name in the event the \`places\` that stood together.`]
    : [];
  return [...endless, ...unnamed, "No co-location: sensors of this class differ by 0.3–0.6 K, 2–3 % RH, which is in no interval; put both side by side for two days."];
}

function ofEvents(periods: readonly PairPeriod[]): string[] {
  if (periods.length === 0) return [];
  const isCrowded = periods.slice(1, -1).some(({ days }) => days < daysOfASide);
  const crowded = isCrowded ? [`Events less than about ${daysOfASide + 4} days apart leave too little between them: told as one event with \`from\` and \`to\`, what they did together can be compared.`] : [];
  return [...crowded, "The numbers of the whole record mix what was before and after its events: read the periods.", "Changes: anything else that changed on the same date as an event cannot be told apart from it."];
}
