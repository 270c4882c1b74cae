import { readingLimit, requireReading } from "./readingLimit.js";
import type { WaterForm } from "./saturationForms.js";
import { saturationOver } from "./saturationVaporPressure.js";

/** The core of all measures that start from a humidity reading; `at` is the public function that was called. */
export function vaporPressureAt(at: string, temperature: number, relativeHumidity: number, form: WaterForm): number {
  requireReading(at, "relativeHumidity", relativeHumidity, readingLimit.relativeHumidity);
  return (Math.min(relativeHumidity, 100) / 100) * saturationOver(at, "water", temperature, form);
}

/**
 * Vapor pressure of the air from its temperature and relative humidity.
 *
 * Relative humidity refers to liquid water at all temperatures (WMO convention), so frosty air reads below 100 %.
 * A reading from 100 to 105 % is a wet sensor in saturated air: it counts as 100 %.
 *
 * @param temperature      air temperature · °C · −100…100 · NaN gives NaN
 * @param relativeHumidity % over liquid water · 0…105 · NaN gives NaN
 * @param options.form     form of the saturation vapor pressure, default "wmo-magnus"
 * @returns                hPa
 * @throws RangeError      outside the limits
 * @throws TypeError       when the form is unknown or an argument is not a number
 * @example vaporPressure(20, 50) // 11.663
 * @source definition of relative humidity, WMO-No. 8 (2008), Annex 4.B
 */
export function vaporPressure(temperature: number, relativeHumidity: number, { form = "wmo-magnus" }: { form?: WaterForm } = {}): number {
  return vaporPressureAt("vaporPressure", temperature, relativeHumidity, form);
}

/**
 * Relative humidity over liquid water from temperature and dew point.
 *
 * The temperature may be that of a wall: the answer is then the humidity at its surface, and 100 or more means that water
 * condenses there. It is not cut at 100.
 *
 * @param temperature  temperature of the air or of the surface · °C · −100…100 · NaN gives NaN
 * @param dewPoint     dew point (over water) · °C · −100…100 · NaN gives NaN
 * @param options.form form of the saturation vapor pressure, default "wmo-magnus"
 * @returns            %
 * @throws RangeError  outside the limits
 * @throws TypeError   when the form is unknown or an argument is not a number
 * @example relativeHumidityFromDewPoint(20, 9.255) // 50
 * @source definition of relative humidity, WMO-No. 8 (2008), Annex 4.B
 */
export function relativeHumidityFromDewPoint(temperature: number, dewPoint: number, { form = "wmo-magnus" }: { form?: WaterForm } = {}): number {
  const at = "relativeHumidityFromDewPoint";
  requireReading(at, "dewPoint", dewPoint, readingLimit.temperature);
  return (100 * saturationOver(at, "water", dewPoint, form)) / saturationOver(at, "water", temperature, form);
}

/**
 * Relative humidity over liquid water from temperature and vapor pressure, for air that meets a surface of another temperature.
 *
 * 100 or more means condensation; it is not cut at 100.
 *
 * @param temperature   temperature of the air or of the surface · °C · −100…100 · NaN gives NaN
 * @param vaporPressure vapor pressure of the air · hPa · 0…1200 · NaN gives NaN
 * @param options.form  form of the saturation vapor pressure, default "wmo-magnus"
 * @returns             %
 * @throws RangeError   outside the limits
 * @throws TypeError    when the form is unknown or an argument is not a number
 * @example relativeHumidityFromVaporPressure(12.617, 11.663) // 80
 * @source definition of relative humidity, WMO-No. 8 (2008), Annex 4.B
 */
export function relativeHumidityFromVaporPressure(temperature: number, vaporPressure: number, { form = "wmo-magnus" }: { form?: WaterForm } = {}): number {
  const at = "relativeHumidityFromVaporPressure";
  requireReading(at, "vaporPressure", vaporPressure, readingLimit.vaporPressure);
  return (100 * vaporPressure) / saturationOver(at, "water", temperature, form);
}
