import { airConstants } from "./airConstants.js";
import { readingLimit, requireReading } from "./readingLimit.js";

/**
 * Thickness of the layer between two pressures, from its mean virtual temperature (the hypsometric equation).
 *
 * @param lowerPressure   pressure at the foot of the layer · hPa · 200…1200 · NaN gives NaN
 * @param upperPressure   pressure at its top · hPa · 200…1200 · NaN gives NaN; above the lower one gives a negative thickness
 * @param meanTemperature mean virtual temperature of the layer · °C · −100…100 · NaN gives NaN
 * @returns               m (geopotential), with g = 9.80665 m s-2 and R_d = 287.05 J kg-1 K-1
 * @throws RangeError     outside the limits
 * @throws TypeError      when an argument is not a number
 * @example hypsometricThickness(1000, 500, 0) // 5541.96
 * @source AMS Glossary of Meteorology, Hypsometric equation
 */
export function hypsometricThickness(lowerPressure: number, upperPressure: number, meanTemperature: number): number {
  const at = "hypsometricThickness";
  requireReading(at, "lowerPressure", lowerPressure, readingLimit.pressure);
  requireReading(at, "upperPressure", upperPressure, readingLimit.pressure);
  requireReading(at, "meanTemperature", meanTemperature, readingLimit.temperature);
  const { dryAirGasConstant, standardGravity, zeroCelsius } = airConstants;
  return ((dryAirGasConstant * (meanTemperature + zeroCelsius)) / standardGravity) * Math.log(lowerPressure / upperPressure);
}
