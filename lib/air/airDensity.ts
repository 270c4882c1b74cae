import { airConstants } from "./airConstants.js";
import { mixingRatioOf } from "./mixingRatio.js";
import { readingLimit, requireReading } from "./readingLimit.js";
import { vaporPressureAt } from "./relativeHumidity.js";
import type { WaterForm } from "./saturationForms.js";

/**
 * Virtual temperature: how warm dry air would have to be to weigh as little as this moist air at the same pressure.
 *
 * The temperature to put into the hypsometric equation. Exact form T (1 + r/ε)/(1 + r), not the approximation T (1 + 0.61 r).
 *
 * @param temperature      air temperature · °C · −100…100 · NaN gives NaN
 * @param relativeHumidity % over liquid water · 0…105, above 100 counts as 100 · NaN gives NaN
 * @param pressure         air pressure at the station · hPa · 200…1200 · NaN gives NaN
 * @param options.form     form of the saturation vapor pressure, default "wmo-magnus"
 * @returns                °C, never below the temperature
 * @throws RangeError      outside the limits, or when the air would boil
 * @throws TypeError       when the form is unknown or an argument is not a number
 * @example virtualTemperature(20, 50, 1013.25) // 21.281
 * @source AMS Glossary of Meteorology, Virtual temperature
 */
export function virtualTemperature(
  temperature: number,
  relativeHumidity: number,
  pressure: number,
  { form = "wmo-magnus" }: { form?: WaterForm } = {},
): number {
  const at = "virtualTemperature";
  requireReading(at, "temperature", temperature, readingLimit.temperature);
  const r = mixingRatioOf(at, vaporPressureAt(at, temperature, relativeHumidity, form), pressure);
  return temperature + (temperature + airConstants.zeroCelsius) * ((1 + r / airConstants.molarRatio) / (1 + r) - 1);
}

/**
 * Density of moist air, as a mixture of two ideal gases.
 *
 * Agrees with the metrological formula CIPM-2007 to 0.04 % at room conditions.
 *
 * @param temperature      air temperature · °C · −100…100 · NaN gives NaN
 * @param relativeHumidity % over liquid water · 0…105, above 100 counts as 100 · NaN gives NaN
 * @param pressure         air pressure at the station · hPa · 200…1200 · NaN gives NaN
 * @param options.form     form of the saturation vapor pressure, default "wmo-magnus"
 * @returns                kg m-3
 * @throws RangeError      outside the limits, or when the air would boil
 * @throws TypeError       when the form is unknown or an argument is not a number
 * @example airDensity(20, 50, 1013.25) // 1.1989
 * @source ideal gas, R_d = 287.05 and R_v = 461.5 J kg-1 K-1
 */
export function airDensity(temperature: number, relativeHumidity: number, pressure: number, { form = "wmo-magnus" }: { form?: WaterForm } = {}): number {
  requireReading("airDensity", "temperature", temperature, readingLimit.temperature);
  const e = vaporPressureAt("airDensity", temperature, relativeHumidity, form);
  mixingRatioOf("airDensity", e, pressure); // refuses what would boil
  const { dryAirGasConstant, vaporGasConstant, zeroCelsius } = airConstants;
  return (100 * ((pressure - e) / dryAirGasConstant + e / vaporGasConstant)) / (temperature + zeroCelsius);
}
