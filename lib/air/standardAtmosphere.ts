import { geometricHeight, geopotentialHeight } from "./geopotential.js";
import { requireForm, requireReading } from "./readingLimit.js";

/** Which height a number is: `geopotential` as in the tables of the standard, `geometric` as on a map. */
export type HeightKind = "geopotential" | "geometric";

/** The constants that define the lowest layer, and the exponent that follows from them. */
export const standardAtmosphere: {
  /** K */
  readonly temperature: number;
  /** hPa */
  readonly pressure: number;
  /** K m-1, positive for cooling with height */
  readonly lapse: number;
  /** g₀ M / (R* L) = 5.2559 */
  readonly exponent: number;
} = Object.freeze({ temperature: 288.15, pressure: 1013.25, lapse: 0.0065, exponent: (9.80665 * 0.0289644) / (8.31432 * 0.0065) });

const kinds: readonly string[] = Object.freeze(["geopotential", "geometric"]);
const limit = { low: -1000, high: 11000, unit: "m", remedy: "the lowest layer of the standard atmosphere is all that is built" };

/** Height in geopotential meters, checked. */
function lifted(at: string, height: number, kind: HeightKind): number {
  requireForm(at, "heightIs", kind, kinds);
  requireReading(at, "height", height, limit);
  return kind === "geometric" ? geopotentialHeight(height) : height;
}

const pressureAt = (height: number): number => {
  const { temperature, pressure, lapse, exponent } = standardAtmosphere;
  return pressure * (1 - (lapse * height) / temperature) ** exponent;
};

/**
 * Pressure of the standard atmosphere at a height: what a barometer shows there on no particular day.
 *
 * Real weather spreads ±10…20 hPa about it, season and latitude shift it by several hPa at altitude.
 *
 * @param height           m above mean sea level · −1000…11000 · NaN gives NaN
 * @param options.heightIs "geopotential" (default: as the standard's own tables) or "geometric"; 0.06 hPa apart at 2000 m
 * @returns                hPa
 * @throws RangeError      outside the limits
 * @throws TypeError       when `heightIs` is unknown or the height is not a number
 * @example standardPressure(1380) // 858.086
 * @example standardPressure(2000, { heightIs: "geometric" }) // 795.014
 * @source U.S. Standard Atmosphere 1976 = ISO 2533, troposphere, −1…11 km
 */
export function standardPressure(height: number, { heightIs = "geopotential" }: { heightIs?: HeightKind } = {}): number {
  return pressureAt(lifted("standardPressure", height, heightIs));
}

/**
 * Temperature of the standard atmosphere at a height: 15 °C at sea level, 6.5 K colder each kilometer.
 *
 * @param height           m above mean sea level · −1000…11000 · NaN gives NaN
 * @param options.heightIs "geopotential" (default: as the standard's own tables) or "geometric"
 * @returns                °C
 * @throws RangeError      outside the limits
 * @throws TypeError       when `heightIs` is unknown or the height is not a number
 * @example standardTemperature(1000) // 8.5
 * @source U.S. Standard Atmosphere 1976 = ISO 2533, troposphere, −1…11 km
 */
export function standardTemperature(height: number, { heightIs = "geopotential" }: { heightIs?: HeightKind } = {}): number {
  return standardAtmosphere.temperature - 273.15 - standardAtmosphere.lapse * lifted("standardTemperature", height, heightIs);
}

/**
 * Height at which the standard atmosphere has this pressure (pressure altitude).
 *
 * Not the elevation of a house: weather makes it wander by a hundred meters. See `impliedElevation`. Not for aviation.
 *
 * @param pressure         hPa · 226.3…1139.3, the pressures of 11000 and −1000 m · NaN gives NaN
 * @param options.heightIs kind of the answer: "geopotential" (default: as the standard's own tables) or "geometric"
 * @returns                m
 * @throws RangeError      outside the limits
 * @throws TypeError       when `heightIs` is unknown or the pressure is not a number
 * @example standardHeight(858.086) // 1380.00
 * @source U.S. Standard Atmosphere 1976 = ISO 2533, troposphere, −1…11 km
 */
export function standardHeight(pressure: number, { heightIs = "geopotential" }: { heightIs?: HeightKind } = {}): number {
  requireForm("standardHeight", "heightIs", heightIs, kinds);
  // Rounded outward to 0.1 hPa, so that the limits of the heights come back.
  const low = Math.floor(10 * pressureAt(limit.high)) / 10;
  const high = Math.ceil(10 * pressureAt(limit.low)) / 10;
  requireReading("standardHeight", "pressure", pressure, { low, high, unit: "hPa", remedy: "give hPa (1 hPa = 100 Pa)" });
  const { temperature, lapse, exponent } = standardAtmosphere;
  const height = (temperature / lapse) * (1 - (pressure / standardAtmosphere.pressure) ** (1 / exponent));
  return heightIs === "geometric" ? geometricHeight(height) : height;
}
