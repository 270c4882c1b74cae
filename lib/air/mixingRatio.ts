import { mustSentence } from "../ground/complaint.js";
import { airConstants } from "./airConstants.js";
import { readingLimit, requireReading } from "./readingLimit.js";
import { vaporPressureAt } from "./relativeHumidity.js";
import type { WaterForm } from "./saturationForms.js";

/** Checks a vapor pressure against the total pressure and gives the mixing ratio as a pure number; for this room. */
export function mixingRatioOf(at: string, vaporPressure: number, pressure: number): number {
  requireReading(at, "pressure", pressure, readingLimit.pressure);
  if (vaporPressure >= pressure) {
    throw new RangeError(mustSentence(at, "pressure", `be above the vapor pressure, ${vaporPressure.toFixed(1)} hPa`, `${pressure} hPa`));
  }
  return (airConstants.molarRatio * vaporPressure) / (pressure - vaporPressure);
}

/**
 * Mixing ratio from vapor pressure: grams of vapor with each kilogram of dry air.
 *
 * @param vaporPressure hPa · 0…1200 · NaN gives NaN
 * @param pressure      air pressure at the station · hPa · 200…1200, above the vapor pressure · NaN gives NaN
 * @returns             g kg-1
 * @throws RangeError   outside the limits, or when there is more vapor than air
 * @throws TypeError    when an argument is not a number
 * @example mixingRatioFromVaporPressure(31.697, 954.61) // 21.362
 * @source r = 0.62198 e / (p − e), ideal gas
 */
export function mixingRatioFromVaporPressure(vaporPressure: number, pressure: number): number {
  const at = "mixingRatioFromVaporPressure";
  requireReading(at, "vaporPressure", vaporPressure, readingLimit.vaporPressure);
  return 1000 * mixingRatioOf(at, vaporPressure, pressure);
}

/**
 * Mixing ratio: grams of vapor with each kilogram of dry air. It stays the same when air is warmed, lifted or compressed.
 *
 * @param temperature      air temperature · °C · −100…100 · NaN gives NaN
 * @param relativeHumidity % over liquid water · 0…105, above 100 counts as 100 · NaN gives NaN
 * @param pressure         air pressure at the station, not reduced to sea level · hPa · 200…1200 · NaN gives NaN
 * @param options.form     form of the saturation vapor pressure, default "wmo-magnus"
 * @returns                g kg-1
 * @throws RangeError      outside the limits, or when the air would boil
 * @throws TypeError       when the form is unknown or an argument is not a number
 * @example mixingRatio(20, 50, 850) // 8.6530
 * @source r = 0.62198 e / (p − e), ideal gas
 */
export function mixingRatio(temperature: number, relativeHumidity: number, pressure: number, { form = "wmo-magnus" }: { form?: WaterForm } = {}): number {
  return 1000 * mixingRatioOf("mixingRatio", vaporPressureAt("mixingRatio", temperature, relativeHumidity, form), pressure);
}

/**
 * Specific humidity: grams of vapor in each kilogram of moist air; a little less than the mixing ratio.
 *
 * @param temperature      air temperature · °C · −100…100 · NaN gives NaN
 * @param relativeHumidity % over liquid water · 0…105, above 100 counts as 100 · NaN gives NaN
 * @param pressure         air pressure at the station, not reduced to sea level · hPa · 200…1200 · NaN gives NaN
 * @param options.form     form of the saturation vapor pressure, default "wmo-magnus"
 * @returns                g kg-1
 * @throws RangeError      outside the limits, or when the air would boil
 * @throws TypeError       when the form is unknown or an argument is not a number
 * @example specificHumidity(20, 50, 850) // 8.5788
 * @source q = r / (1 + r), ideal gas
 */
export function specificHumidity(temperature: number, relativeHumidity: number, pressure: number, { form = "wmo-magnus" }: { form?: WaterForm } = {}): number {
  const r = mixingRatioOf("specificHumidity", vaporPressureAt("specificHumidity", temperature, relativeHumidity, form), pressure);
  return (1000 * r) / (1 + r);
}
