import { requireReading } from "./readingLimit.js";

/** Effective radius of the Earth in the standard atmosphere · m. */
const radius = 6356766;
const limit = { low: -5000, high: 80000, unit: "m", remedy: "give meters above mean sea level" };

/**
 * Geopotential height of a geometric height: height measured by the work of lifting, in which gravity is constant.
 *
 * 1000 m is 0.16 m less, 5000 m is 3.9 m less.
 *
 * @param height      geometric height, as on a map · m · −5000…80000 · NaN gives NaN
 * @returns           m (geopotential)
 * @throws RangeError outside the limits
 * @throws TypeError  when it is not a number
 * @example geopotentialHeight(5000) // 4996.07
 * @source U.S. Standard Atmosphere 1976, r₀ = 6 356 766 m
 */
export function geopotentialHeight(height: number): number {
  requireReading("geopotentialHeight", "height", height, limit);
  return (radius * height) / (radius + height);
}

/**
 * Geometric height of a geopotential height.
 *
 * @param height      geopotential height · m · −5000…80000 · NaN gives NaN
 * @returns           m (geometric)
 * @throws RangeError outside the limits
 * @throws TypeError  when it is not a number
 * @example geometricHeight(4996.0702) // 5000.00
 * @source U.S. Standard Atmosphere 1976, r₀ = 6 356 766 m
 */
export function geometricHeight(height: number): number {
  requireReading("geometricHeight", "height", height, limit);
  return (radius * height) / (radius - height);
}
