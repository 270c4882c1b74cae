import { airConstants } from "./airConstants.js";
import { readingLimit, requireReading } from "./readingLimit.js";
import { vaporPressureAt } from "./relativeHumidity.js";
import type { WaterForm } from "./saturationForms.js";

/**
 * Absolute humidity from vapor pressure and temperature: the mass of vapor in a cubic meter of air.
 *
 * @param vaporPressure hPa · 0…1200 · NaN gives NaN
 * @param temperature   air temperature · °C · −100…100 · NaN gives NaN
 * @returns             g m-3
 * @throws RangeError   outside the limits
 * @throws TypeError    when an argument is not a number
 * @example absoluteHumidityFromVaporPressure(11.663, 20) // 8.6208
 * @source ideal gas, R_v = 461.5 J kg-1 K-1
 */
export function absoluteHumidityFromVaporPressure(vaporPressure: number, temperature: number): number {
  const at = "absoluteHumidityFromVaporPressure";
  requireReading(at, "vaporPressure", vaporPressure, readingLimit.vaporPressure);
  requireReading(at, "temperature", temperature, readingLimit.temperature);
  return density(vaporPressure, temperature);
}

/**
 * Absolute humidity from temperature and relative humidity: the mass of vapor in a cubic meter of air.
 *
 * The measure for comparing inside with outside: heating a room changes its relative humidity, hardly this. A sensor's 3 % is
 * 0.52 g/m³ at 20 °C. Pure vapor (no enhancement factor): 0.3 to 0.5 % small.
 *
 * @param temperature      air temperature · °C · −100…100 · NaN gives NaN
 * @param relativeHumidity % over liquid water · 0…105, above 100 counts as 100 · NaN gives NaN
 * @param options.form     form of the saturation vapor pressure, default "wmo-magnus"
 * @returns                g m-3
 * @throws RangeError      outside the limits
 * @throws TypeError       when the form is unknown or an argument is not a number
 * @example absoluteHumidity(20, 50) // 8.6208
 * @source ideal gas, R_v = 461.5 J kg-1 K-1; WMO-No. 8 (2008), Annex 4.B
 */
export function absoluteHumidity(temperature: number, relativeHumidity: number, { form = "wmo-magnus" }: { form?: WaterForm } = {}): number {
  requireReading("absoluteHumidity", "temperature", temperature, readingLimit.temperature);
  return density(vaporPressureAt("absoluteHumidity", temperature, relativeHumidity, form), temperature);
}

/** hPa and °C to g/m³: 100 Pa a hPa, 1000 g a kg. */
function density(vaporPressure: number, temperature: number): number {
  return (1e5 * vaporPressure) / (airConstants.vaporGasConstant * (temperature + airConstants.zeroCelsius));
}
