import { readingLimit } from "../air/readingLimit.js";
import { relativeHumidityFromVaporPressure } from "../air/relativeHumidity.js";
import { mustSentence, requireWithin } from "../ground/complaint.js";
import type { Estimate } from "../ground/estimate.js";
import { type MoistHours, hourlyVaporPressure } from "./moistureExcess.js";
import { hoursADay } from "./pairedHours.js";
import { shareOfHours } from "./shareOfHours.js";

/** Hours at risk at another temperature factor. */
export interface FactorHours {
  readonly factor: number;
  readonly hours: number;
}

/** Hours at risk if the hygrometer inside is not right. */
export interface ReadingHours {
  /** True humidity less what was read · %. */
  readonly humidity: number;
  readonly hours: number;
}

/** Hours at risk on a surface. */
export interface RiskHours {
  /** Hours seen in this record. */
  readonly hours: number;
  /** Share of the hours · null under 6 days. */
  readonly share: Estimate | null;
  /** Temperature factor of the surface. */
  readonly factor: number;
  /** The same at a factor 0.05 lower and higher. */
  readonly atOtherFactors: readonly FactorHours[];
  /** The same if the hygrometer reads 3 % too high and too low, as sensors of the usual class do: often the widest of all. */
  readonly atOtherReadings: readonly ReadingHours[];
}

/** Condensation and mould on a surface. */
export interface SurfaceRisk {
  /** Surface humidity 100 % and above. */
  readonly condensation: RiskHours;
  /** Surface humidity 80 % and above. */
  readonly mould: RiskHours;
  readonly hoursJudged: number;
}

const moldFrom = 80;
const waterFrom = 100;
const factorSpread = 0.05;
/** What hygrometers of the usual class are off by · %. */
const hygrometerSpread = 3;
const leastHours = 18;

/**
 * Relative humidity at an inner surface that is colder than the room by its temperature factor.
 *
 * θ_si = θ_e + f (θ_i − θ_e), with θ_e the mean of the last 24 hours outside (a wall does not follow the hour); the vapor is the room's.
 *
 * @param inside  temperature and humidity of the room by hours · see MoistHours · [n]
 * @param outside temperature outside · °C · [n] · NaN is missing
 * @param factor  f_Rsi · 1 is a surface as warm as the room, 0 one as cold as outside · 0…1
 * @returns       % · [n] · not cut at 100 · NaN where it cannot be told (under 18 of the last 24 hours outside)
 * @throws RangeError when lengths differ or the factor is out of range
 * @example surfaceHumidity(indoorAir, outside, 0.7)[48] // 69.5 %
 * @source temperature factor f_Rsi = (θ_si − θ_e)/(θ_i − θ_e), as in DIN 4108-2 (gebaeudeforum.de, minimum thermal protection, Nov 2021)
 */
export function surfaceHumidity(inside: MoistHours, outside: ArrayLike<number>, factor: number): Float64Array {
  const n = inside.temperature.length;
  if (outside.length !== n) throw new RangeError(mustSentence("surfaceHumidity", "outside", `have the length of inside, ${n} h`, `${outside.length} h`));
  requireWithin("surfaceHumidity", "factor", factor, 0, 1);
  const vapor = hourlyVaporPressure(inside);
  const { low, high } = readingLimit.temperature;
  let [sum, count] = [0, 0];
  return vapor.map((e, h) => {
    if (Number.isFinite(outside[h])) {
      sum += outside[h];
      count++;
    }
    const gone = h - hoursADay;
    if (Number.isFinite(outside[gone])) {
      sum -= outside[gone];
      count--;
    }
    if (Number.isNaN(e) || count < leastHours) return Number.NaN;
    const air = sum / count;
    const surface = air + factor * (inside.temperature[h] - air);
    return surface < low || surface > high ? Number.NaN : relativeHumidityFromVaporPressure(surface, e);
  });
}

/**
 * Hours of condensation and of mould risk on a surface, by the 80 % rule, with the same at a factor 0.05 lower and higher and with a hygrometer 3 % off.
 *
 * The 80 % rule is a rule of thumb: mould also needs time, warmth and food. It points to where to look, it is no finding.
 * Mould, structure and energy decisions defer to local codes and licensed practice.
 *
 * @param inside         see MoistHours · [n], hour 0 a midnight
 * @param outside        temperature outside · °C · [n]
 * @param options.factor f_Rsi of the surface judged · 0…1 · default 0.70, the least that DIN 4108-2 asks of new corners
 * @returns              see SurfaceRisk, frozen
 * @throws RangeError    as surfaceHumidity
 * @example surfaceRisk(indoorAir, outside, { factor: 0.7 }).mould.hours // 685
 * @source 80 % as critical surface humidity: DIN 4108-2 (gebaeudeforum.de, Nov 2021)
 */
export function surfaceRisk(inside: MoistHours, outside: ArrayLike<number>, { factor = 0.7 }: { factor?: number } = {}): SurfaceRisk {
  const humidity = surfaceHumidity(inside, outside, factor);
  const others = [factor - factorSpread, factor + factorSpread].map((f) => Math.round(100 * Math.min(1, Math.max(0, f))) / 100).filter((f) => f !== factor);
  const otherHumidity = others.map((f) => surfaceHumidity(inside, outside, f));
  const readings = [-hygrometerSpread, hygrometerSpread];
  const readHumidity = readings.map((off) => surfaceHumidity({ ...inside, humidity: Float64Array.from(inside.humidity, (v) => shifted(v, off)) }, outside, factor));
  const from = (limit: number): RiskHours => {
    const { hours, share } = shareOfHours(reached(humidity, limit));
    const atOtherFactors = others.map((f, i) => Object.freeze({ factor: f, hours: shareOfHours(reached(otherHumidity[i], limit)).hours }));
    const atOtherReadings = readings.map((off, i) => Object.freeze({ humidity: off, hours: shareOfHours(reached(readHumidity[i], limit)).hours }));
    return Object.freeze({ hours, share, factor, atOtherFactors: Object.freeze(atOtherFactors), atOtherReadings: Object.freeze(atOtherReadings) });
  };
  const hoursJudged = humidity.reduce((count, v) => count + (Number.isNaN(v) ? 0 : 1), 0);
  return Object.freeze({ condensation: from(waterFrom), mould: from(moldFrom), hoursJudged });
}

/** A reading moved by so much, within 0 to 100 %; what cannot be stays what it is. */
function shifted(humidity: number, by: number): number {
  return humidity >= 0 && humidity <= 105 ? Math.min(100, Math.max(0, humidity + by)) : humidity;
}

function reached(humidity: Float64Array, limit: number): Float64Array {
  return humidity.map((v) => (Number.isNaN(v) ? v : v >= limit ? 1 : 0));
}
