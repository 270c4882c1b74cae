import { mustSentence } from "../ground/complaint.js";
import { enhancementFactor } from "./enhancementFactor.js";
import { readingLimit, requireReading } from "./readingLimit.js";
import { vaporPressureAt } from "./relativeHumidity.js";
import { risingRoot } from "./risingRoot.js";
import { waterForms } from "./saturationForms.js";

/** The psychrometer equation: vapor pressure in moist air from dry and wet bulb; no checks. */
function psychrometer(dry: number, wet: number, pressure: number, factor: number): number {
  return factor * waterForms["wmo-magnus"].pressure(wet) - 6.53e-4 * (1 + 0.000944 * wet) * pressure * (dry - wet);
}

/**
 * Vapor pressure from the two thermometers of an aspirated psychrometer, wick wet (not frozen).
 *
 * In moist air, so it includes the enhancement factor: relative humidity is 100 e / (f e_w(dry)).
 *
 * @param dryBulb     temperature of the dry thermometer · °C · −100…100 · NaN gives NaN
 * @param wetBulb     temperature of the wet thermometer · °C · at most the dry one · NaN gives NaN
 * @param pressure    air pressure at the station · hPa · 200…1200 · NaN gives NaN
 * @returns           hPa; below 0 when no air could be so dry
 * @throws RangeError outside the limits, or when the wet bulb is warmer than the dry one
 * @throws TypeError  when an argument is not a number
 * @example vaporPressureFromWetBulb(20, 15, 1013.25) // 13.742
 * @source WMO-No. 8, psychrometer with forced ventilation; coefficient from memory
 */
export function vaporPressureFromWetBulb(dryBulb: number, wetBulb: number, pressure: number): number {
  const at = "vaporPressureFromWetBulb";
  requireReading(at, "dryBulb", dryBulb, readingLimit.temperature);
  requireReading(at, "wetBulb", wetBulb, readingLimit.temperature);
  requireReading(at, "pressure", pressure, readingLimit.pressure);
  if (wetBulb > dryBulb) throw new RangeError(mustSentence(at, "wetBulb", `be at most the dry bulb, ${dryBulb} °C`, `${wetBulb} °C`));
  return psychrometer(dryBulb, wetBulb, pressure, enhancementFactor(pressure));
}

/**
 * Psychrometric wet bulb: what an aspirated thermometer in a wet wick would read.
 *
 * The WMO psychrometer equation solved for the wet thermometer by safeguarded Newton steps. It is not the thermodynamic wet bulb
 * (adiabatic saturation): 0.03 to 0.05 °C above it in usual air, 0.17 °C at 40 °C and 20 %. Below 0 °C the wick is taken as wet with
 * supercooled water, not frozen. Saturation by the WMO form, to which the coefficient belongs.
 *
 * @param temperature      air temperature · °C · −100…100 · NaN gives NaN
 * @param relativeHumidity % over liquid water · 0…105, above 100 counts as 100 · NaN gives NaN
 * @param pressure         air pressure at the station: 850 instead of 1013 hPa takes 0.4 °C off at 20 °C and 50 % · hPa · 200…1200 · NaN gives NaN
 * @returns                °C, from the dew point to the temperature
 * @throws RangeError      outside the limits
 * @throws TypeError       when an argument is not a number
 * @example psychrometricWetBulb(20, 50, 1013.25) // 13.831
 * @source WMO-No. 8, psychrometer with forced ventilation; coefficient from memory
 */
export function psychrometricWetBulb(temperature: number, relativeHumidity: number, pressure: number): number {
  const at = "psychrometricWetBulb";
  requireReading(at, "temperature", temperature, readingLimit.temperature);
  requireReading(at, "pressure", pressure, readingLimit.pressure);
  const pure = vaporPressureAt(at, temperature, relativeHumidity, "wmo-magnus");
  const factor = enhancementFactor(pressure);
  const saturation = waterForms["wmo-magnus"].pressure;
  return risingRoot(
    (wet) => psychrometer(temperature, wet, pressure, factor) - factor * pure,
    (wet) => (factor * saturation(wet) * 17.62 * 243.12) / (243.12 + wet) ** 2 + 6.53e-4 * pressure,
    // 10 K of evaporative room below the coldest air accepted: at −100 °C and 0 % the wet bulb is a hair colder.
    readingLimit.temperature.low - 10,
    temperature,
    temperature,
  );
}

/**
 * Wet bulb by Stull's fit: no pressure needed, good to about ±1 °C near sea level only.
 *
 * For a quick look where no barometer is. At altitude use `psychrometricWetBulb`.
 *
 * @param temperature      air temperature · °C · −20…50 (range of the fit) · NaN gives NaN
 * @param relativeHumidity % over liquid water · 5…99 (range of the fit) · NaN gives NaN
 * @returns                °C
 * @throws RangeError      outside the range of the fit
 * @throws TypeError       when an argument is not a number
 * @example stullWetBulb(20, 50) // 13.699
 * @source Stull 2011; formula read on a public calculator page, range from memory
 */
export function stullWetBulb(temperature: number, relativeHumidity: number): number {
  const remedy = "use psychrometricWetBulb outside the range of the fit";
  requireReading("stullWetBulb", "temperature", temperature, { low: -20, high: 50, unit: "°C", remedy });
  requireReading("stullWetBulb", "relativeHumidity", relativeHumidity, { low: 5, high: 99, unit: "%", remedy });
  const { atan, sqrt } = Math;
  return (
    temperature * atan(0.151977 * sqrt(relativeHumidity + 8.313659)) +
    atan(temperature + relativeHumidity) -
    atan(relativeHumidity - 1.676331) +
    0.00391838 * relativeHumidity ** 1.5 * atan(0.023101 * relativeHumidity) -
    4.686035
  );
}
