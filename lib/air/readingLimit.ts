import { mustSentence, shown } from "../ground/complaint.js";

/** What this room accepts as a reading; beyond it the number is a fault or another unit, not weather. */
export interface ReadingLimit {
  readonly low: number;
  readonly high: number;
  readonly unit: string;
  readonly remedy: string;
}

/**
 * Limits of the arguments of this room: wider than the weather, narrow enough to catch a wrong unit.
 *
 * Relative humidity from 100 to 105 % is what a wet sensor says in saturated air: it is accepted, and counted as 100 %.
 *
 * @source limits of the house; the sensors' quality-control ranges (−80…60 °C, 500…1100 hPa) lie inside them
 */
export const readingLimit: Readonly<Record<"temperature" | "relativeHumidity" | "pressure" | "vaporPressure" | "elevation" | "latitude", ReadingLimit>> =
  Object.freeze({
    temperature: { low: -100, high: 100, unit: "°C", remedy: "give degrees Celsius, or NaN for a missing reading" },
    relativeHumidity: { low: 0, high: 105, unit: "%", remedy: "give percent over liquid water, or NaN for a missing reading" },
    pressure: { low: 200, high: 1200, unit: "hPa", remedy: "give hPa (1 hPa = 100 Pa), or NaN for a missing reading" },
    vaporPressure: { low: 0, high: 1200, unit: "hPa", remedy: "give hPa (1 hPa = 100 Pa), or NaN for a missing reading" },
    elevation: { low: -500, high: 9000, unit: "m", remedy: "give meters above mean sea level" },
    latitude: { low: -90, high: 90, unit: "°", remedy: "give degrees, north positive" },
  });

/**
 * Checks one reading: missing (NaN) passes, so that missing in is missing out; what cannot be is refused.
 *
 * @throws TypeError  when it is not a number
 * @throws RangeError when it lies outside the limit, infinite included
 */
export function requireReading(at: string, argument: string, value: number, limit: ReadingLimit): void {
  if (typeof value !== "number") throw new TypeError(mustSentence(at, argument, "be a number", shown(value)));
  if ((value >= limit.low && value <= limit.high) || Number.isNaN(value)) return;
  throw new RangeError(mustSentence(at, argument, `be from ${limit.low} to ${limit.high} ${limit.unit}`, shown(value, limit.unit), limit.remedy));
}

/**
 * Checks that an option names one of the known forms.
 *
 * @throws TypeError when it does not; the sentence lists the known ones
 */
export function requireForm(at: string, argument: string, value: unknown, known: readonly string[]): void {
  if (known.includes(value as string)) return;
  throw new TypeError(mustSentence(at, argument, `be one of ${known.join(", ")}`, shown(value)));
}
