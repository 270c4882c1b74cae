import { requireWithin } from "../ground/complaint.js";
import { type Estimate, estimate } from "../ground/estimate.js";
import { airConstants } from "./airConstants.js";
import { readingLimit, requireReading } from "./readingLimit.js";
import { standardAtmosphere } from "./standardAtmosphere.js";

/**
 * Elevation that a barometer's reading implies, and how little it can say about it.
 *
 * The height at which air of the given temperature, 6.5 K/km warmer toward sea level, has fallen from the sea-level pressure to the
 * reading. What the reading cannot tell is the weather: near sea level each hPa of unknown sea-level pressure is 8.3 m, so a
 * spread of 8 hPa is ±130 m in 95 % of cases. The temperature of the column adds 0.35 % of the height for each K.
 * Give the mean or median of the longest record there is, and the spread that belongs to such a mean. A barometer's own
 * error adds to it: 1 hPa is another 8 m.
 *
 * @param pressure                     air pressure at the station, not reduced · hPa · 200…1200
 * @param options.seaLevelPressure     mean pressure at sea level there · hPa · 900…1100, default 1013.25 (standard atmosphere)
 * @param options.seaLevelSpread       standard deviation of what the true sea-level pressure may differ from it · hPa · 0…50, default 8:
 *                                     one day's weather in middle latitudes (common practice; in the tropics 3, of a year's mean 4)
 * @param options.temperature          mean air temperature at the station · °C · −100…100, default that of the standard atmosphere
 *                                     (in the tropics it is worth giving: 15 K are 5 % of the height)
 * @param options.temperatureSpread    standard deviation of the column's mean temperature about the assumed one · K · 0…50,
 *                                     default 3 with a given temperature, 10 without (common practice)
 * @returns                            elevation in m above mean sea level; the interval is value ± 1.96 standard errors
 * @throws RangeError                  outside the limits; NaN is refused: an Estimate cannot be missing
 * @throws TypeError                   when an argument is not a number
 * @example impliedElevation(1013.25).high // 130.5
 * @source standard atmosphere solved for height; spreads: common practice, no source
 */
export function impliedElevation(
  pressure: number,
  options: { seaLevelPressure?: number; seaLevelSpread?: number; temperature?: number; temperatureSpread?: number } = {},
): Estimate {
  const at = "impliedElevation";
  const { seaLevelPressure = standardAtmosphere.pressure, seaLevelSpread = 8, temperature } = options;
  const { temperatureSpread = temperature === undefined ? 10 : 3 } = options;
  requireWithin(at, "pressure", pressure, readingLimit.pressure.low, readingLimit.pressure.high, "hPa");
  requireWithin(at, "seaLevelPressure", seaLevelPressure, 900, 1100, "hPa");
  requireWithin(at, "seaLevelSpread", seaLevelSpread, 0, 50, "hPa");
  requireWithin(at, "temperatureSpread", temperatureSpread, 0, 50, "K");
  const { lapse, exponent } = standardAtmosphere;
  const ratio = (seaLevelPressure / pressure) ** (1 / exponent);
  let station: number;
  if (temperature === undefined) station = standardAtmosphere.temperature / ratio;
  else {
    requireReading(at, "temperature", temperature, readingLimit.temperature);
    requireWithin(at, "temperature", temperature, readingLimit.temperature.low, readingLimit.temperature.high, "°C");
    station = temperature + airConstants.zeroCelsius;
  }
  // p₀ = p (1 + L h / T)^n, solved for h; both partial derivatives in closed form. T is the station's, given or the standard one at its height: there it falls as p₀ grows.
  const value = (station / lapse) * (ratio - 1);
  const perHectopascal = (temperature === undefined ? station : station * ratio) / (lapse * exponent * seaLevelPressure);
  const perKelvin = value / (station * ((1 + ratio) / 2));
  const standardError = Math.hypot(perHectopascal * seaLevelSpread, perKelvin * temperatureSpread);
  return estimate({ value, standardError, low: value - 1.959964 * standardError, high: value + 1.959964 * standardError, unit: "m" });
}
