import type { Estimate } from "../ground/estimate.js";
import { mean, standardDeviation } from "../ground/summary.js";
import { type AdaptiveComfort, adaptiveComfort } from "./adaptiveComfort.js";
import { type BandResponse, bandResponse } from "./bandResponse.js";
import { type DailyResponse, dailyResponse } from "./dailyResponse.js";
import { type HumidityClass, humidityClass } from "./humidityClass.js";
import { type LeftAlone, leftAlone } from "./leftAlone.js";
import { laggedCorrelation, type RawCorrelation, rawCorrelation } from "./laggedCorrelation.js";
import { dailyDifferences, type MeanDifference, meanDifference } from "./meanDifference.js";
import { hourlyMoisture, hourlyVaporPressure } from "./moistureExcess.js";
import { countOf, dailyMeans, hoursADay, pairedHours } from "./pairedHours.js";
import { type RiskHours, surfaceRisk } from "./surfaceRisk.js";
import { type TimeConstant, timeConstant } from "./timeConstant.js";
import { varianceRatio } from "./varianceRatio.js";

/** Hourly air of two places, hour 0 a midnight; humidity all NaN where it was not logged. */
export interface PairHours {
  readonly insideTemperature: Float64Array;
  readonly outsideTemperature: Float64Array;
  readonly insideHumidity: Float64Array;
  readonly outsideHumidity: Float64Array;
}

/** What one stretch of two places says; the same for a whole record and for a period between events. */
export interface PairNumbers {
  /** Time that both places were there · d. */
  readonly days: number;
  /** Days of them on which nothing held the inside, where it was held for weeks of the rest: gains, lags, time constant, ratio and correlation are those of these days · absent where the stretch is not divided. */
  readonly daysLeftAlone?: number;
  /** Plain standard deviation of each, a description. */
  readonly spread: { readonly inside: number; readonly outside: number; readonly unit: "degC" };
  /** Inside minus outside · K. */
  readonly meanDifference: Estimate | null;
  /** Of departures from the 5-day running mean · 1. */
  readonly varianceRatio: Estimate | null;
  /** Of the daily line · 1. */
  readonly decrementFactor: Estimate | null;
  /** Of the daily line · h, positive when inside is later. */
  readonly timeLag: Estimate | null;
  /** From the swings · h · null where one constant does not describe the house. */
  readonly timeConstant: Estimate | null;
  /** Of departures from the 5-day mean, the lag only where the correlation stands out of chance; `raw` is the plain correlation at lag 0, with why it misleads. */
  readonly maxCorrelation: { readonly value: Estimate | null; readonly lag: Estimate | null; readonly raw: RawCorrelation | null };
  readonly moistureExcess: Estimate | null;
  readonly vaporPressureExcess: Estimate | null;
  readonly humidityClass: HumidityClass | null;
  readonly condensation: RiskHours | null;
  readonly mould: RiskHours | null;
  readonly comfort: AdaptiveComfort | null;
  readonly response: readonly BandResponse[];
}

/** What the numbers were made of, for warnings and for changes at an event. */
export interface PairWorkings {
  readonly line: DailyResponse | null;
  readonly room: TimeConstant | null;
  readonly difference: MeanDifference;
  readonly moisture: MeanDifference;
  readonly vapor: MeanDifference;
  /** Daily outdoor means over the hours of both, as the differences have them · °C · [days]. */
  readonly outdoorDaily: Float64Array;
  /** The same of the outdoor moisture · g m-3 · [days]. */
  readonly outdoorMoisture: Float64Array;
  /** True when inside is held by something: it hardly follows outside and hardly moves within a day. */
  readonly isHeld: boolean;
  /** Where the inside was left alone, if it was held for weeks of the rest. */
  readonly alone: LeftAlone | null;
  /** Hours of the day that are never there in both places. */
  readonly hoursNeverShared: number;
}

/** With this little nothing is fitted. */
export const leastDays = 6;
const heldSpread = 0.5;
/** A place of which the swings tell less hardly follows the weather. */
export const heldExplained = 0.3;
/** Readings of two places less than this apart within the hour tell one room's constant as if they were at the same minute · h. */
const smallCorrection = 0.005;
/** Times that each hour of the day must be shared, so that the daily cycle can be taken out. */
const leastLooks = 3;

/**
 * All numbers of one stretch of hours of two places.
 *
 * Under 6 days nothing is inferred; what cannot be told is null.
 *
 * @param hours          see PairHours · [n] each
 * @param options.factor temperature factor of the surface judged · 0…1
 * @param options.lagCorrection added to every lag · h
 * @param options.sensorMoisture half of what the sensors may add to the moisture excess · g m-3
 * @returns              numbers and workings, frozen
 * @throws RangeError    when lengths differ or the factor is out of range
 * @example pairNumbers(hours, { factor: 0.7, lagCorrection: 0, sensorMoisture: 0.7 }).numbers.timeLag?.value // 4.4
 * @source the routines of this room
 */
export function pairNumbers(
  hours: PairHours,
  { factor, lagCorrection, sensorMoisture }: { factor: number; lagCorrection: number; sensorMoisture: number },
): { readonly numbers: PairNumbers; readonly workings: PairWorkings } {
  const { insideTemperature: inside, outsideTemperature: outside } = hours;
  const both = pairedHours("pairNumbers", inside, outside);
  const days = countOf(both) / hoursADay;
  const only = (values: Float64Array): Float64Array => values.map((v, h) => (both[h] === 1 ? v : Number.NaN));
  const spread = Object.freeze({ inside: standardDeviation(only(inside)), outside: standardDeviation(only(outside)), unit: "degC" as const });
  const hoursNeverShared = rareHours(both);
  const canFit = days >= leastDays && hoursNeverShared === 0;

  const difference = meanDifference(inside, outside);
  const { following, alone, line, room, isHeld } = answered(inside, outside, both, canFit, lagCorrection);
  const correlation = canFit ? laggedCorrelation(following, outside) : null;

  const air = { inside: { temperature: inside, humidity: hours.insideHumidity }, outside: { temperature: outside, humidity: hours.outsideHumidity } };
  const [moistInside, moistOutside] = [hourlyMoisture(air.inside), hourlyMoisture(air.outside)];
  const moisture = meanDifference(moistInside, moistOutside, { unit: "g m-3" });
  const vapor = meanDifference(hourlyVaporPressure(air.inside), hourlyVaporPressure(air.outside), { unit: "hPa" });
  const outdoorDaily = dailyDifferences(only(outside), only(outside).map((v) => (Number.isNaN(v) ? v : 0)));
  const outdoorMoisture = dailyDifferences(moistOutside, moistInside.map((v) => (Number.isNaN(v) ? v : 0)));
  const excess = moisture.difference;
  const risk = hasValue(hours.insideHumidity) ? surfaceRisk(air.inside, outside, { factor }) : null;
  const isJudged = risk !== null && risk.hoursJudged > 0;
  const numbers: PairNumbers = {
    days,
    ...(alone === null ? {} : { daysLeftAlone: alone.days }),
    spread,
    meanDifference: difference.difference,
    varianceRatio: canFit ? varianceRatio(following, outside).ratio : null,
    decrementFactor: isHeld && line?.decrementFactor ? Object.freeze({ ...line.decrementFactor, low: 0 }) : (line?.decrementFactor ?? null),
    timeLag: isHeld ? null : moved(line?.timeLag ?? null, lagCorrection),
    timeConstant: room?.timeConstant ?? null,
    maxCorrelation: Object.freeze({ value: correlation?.correlation ?? null, lag: standsOut(correlation?.correlation ?? null) ? moved(correlation?.lag ?? null, lagCorrection) : null, raw: canFit ? rawCorrelation(following, outside) : null }),
    moistureExcess: excess,
    vaporPressureExcess: vapor.difference,
    humidityClass: excess === null ? null : humidityClass(moisture.daily, outdoorDaily, (excess.high - excess.low) / 2 + sensorMoisture),
    condensation: isJudged ? risk.condensation : null,
    mould: isJudged ? risk.mould : null,
    comfort: days > 0 ? adaptiveComfort(inside, outside) : null,
    response: canFit ? Object.freeze(bandResponse(following, outside).map((band) => Object.freeze({ ...band, lagHours: moved(band.lagHours, lagCorrection) }))) : Object.freeze([]),
  };
  const workings = { line, room, difference, moisture, vapor, outdoorDaily, outdoorMoisture, isHeld, alone, hoursNeverShared };
  return Object.freeze({ numbers: Object.freeze(numbers), workings: Object.freeze(workings) });
}

interface Answered {
  /** The inside's hours that tell how it answers the weather · [n]. */
  readonly following: Float64Array;
  readonly alone: LeftAlone | null;
  readonly line: DailyResponse | null;
  readonly room: TimeConstant | null;
  readonly isHeld: boolean;
}

/** How the inside answers: by the days it was left alone where it was held for weeks of the rest, else by all. */
function answered(inside: Float64Array, outside: Float64Array, both: Uint8Array, canFit: boolean, lagCorrection: number): Answered {
  const of = (mask: Uint8Array, alone: LeftAlone | null): Answered => {
    const following = inside.map((v, h) => (mask[h] === 1 ? v : Number.NaN));
    if (!canFit) return { following, alone, line: null, room: null, isHeld: false };
    const line = dailyResponse(following, outside);
    const room = Math.abs(lagCorrection) < smallCorrection ? timeConstant(following, outside, { line }) : timeConstant(setBack(following, lagCorrection), outside);
    return { following, alone, line, room, isHeld: !(room.swings.explained >= heldExplained) && withinDaySpread(following) < heldSpread };
  };
  const alone = canFit ? leftAlone(inside, outside) : null;
  if (alone !== null && rareHours(alone.hours) === 0) {
    const part = of(alone.hours, alone);
    if (!part.isHeld) return part;
  }
  return of(both, null);
}

/** Hours read so many hours later than the others', at the others' instants: between two of them by a line · −1…1 h. */
function setBack(values: Float64Array, later: number): Float64Array {
  const share = Math.abs(later);
  const toward = later > 0 ? -1 : 1;
  return values.map((v, h) => (1 - share) * v + share * (values[h + toward] ?? Number.NaN));
}

/**
 * Whether the largest of 37 correlations stands out of what strangers reach: 1.4 half widths above 0, on the scale of atanh. Of two places
 * that share nothing 2 in 100 pass, by the plain interval 12 (simulation of 94 d, seeds 1000 and 9000 on).
 */
function standsOut(correlation: Estimate | null): boolean {
  if (correlation === null) return false;
  const { value, low } = correlation;
  return value >= 1 || Math.atanh(value) > 1.4 * (Math.atanh(value) - Math.atanh(low));
}

function hasValue(values: Float64Array): boolean {
  return values.some((v) => !Number.isNaN(v));
}

/** An estimate on a moved scale. */
function moved(e: Estimate | null, by: number): Estimate | null {
  return e === null ? null : Object.freeze({ ...e, value: e.value + by, low: e.low + by, high: e.high + by });
}

/** How many hours of the day are shared on fewer than three days. */
function rareHours(both: Uint8Array): number {
  const looks = new Uint32Array(hoursADay);
  both.forEach((m, h) => {
    looks[h % hoursADay] += m;
  });
  return looks.reduce((count, n) => count + (n < leastLooks ? 1 : 0), 0);
}

/** Standard deviation of hours about their daily means · K. */
function withinDaySpread(values: Float64Array): number {
  const means = dailyMeans(values, 1);
  return Math.sqrt(mean(values.map((v, h) => (v - means[Math.floor(h / hoursADay)]) ** 2)));
}
