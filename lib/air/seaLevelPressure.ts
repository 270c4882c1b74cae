import { airConstants } from "./airConstants.js";
import { readingLimit, requireForm, requireReading } from "./readingLimit.js";
import { vaporPressureAt } from "./relativeHumidity.js";

const { dryAirGasConstant, standardGravity, standardLapse, zeroCelsius } = airConstants;

/** ln(p₀/p) of one meter of air at 1 K, by form. */
const exponentPerMeter: Readonly<Record<ReductionForm, number>> = Object.freeze({
  hypsometric: standardGravity / dryAirGasConstant,
  "wmo-guide": 0.0148275 * Math.LN10,
});

/** Names of the forms of the reduction: the hypsometric equation, or the WMO guide's log₁₀ form with K_p = 0.0148275 K/m. */
export type ReductionForm = "hypsometric" | "wmo-guide";

/** K of virtual temperature for each hPa of vapor pressure at the station. */
const vaporCoefficient = 0.12;

/**
 * Mean temperature of the imagined air column between a station and sea level, humidity included.
 *
 * T + a H/2 + C_h e, with a = 6.5 K/km and C_h = 0.12 K/hPa. To keep the daily cycle of temperature out of a reduced pressure, work
 * it out once from the mean temperature and humidity of some weeks (30 days are usual), then use `seaLevelPressureThrough`.
 *
 * @param temperature      air temperature at the station, of the moment or a mean · °C · −100…100 · NaN gives NaN
 * @param elevation        of the barometer · m above mean sea level · −500…9000 · NaN gives NaN
 * @param relativeHumidity % over liquid water · 0…105, above 100 counts as 100 · NaN gives NaN
 * @returns                °C
 * @throws RangeError      outside the limits
 * @throws TypeError       when an argument is not a number
 * @example columnTemperature(20, 1380, 60) // 26.16
 * @source form of the WMO guide to instruments, part I, chapter 3; C_h from memory
 */
export function columnTemperature(temperature: number, elevation: number, relativeHumidity: number): number {
  return column("columnTemperature", temperature, elevation, relativeHumidity);
}

function column(at: string, temperature: number, elevation: number, relativeHumidity: number): number {
  requireReading(at, "temperature", temperature, readingLimit.temperature);
  requireReading(at, "elevation", elevation, readingLimit.elevation);
  const e = vaporPressureAt(at, temperature, relativeHumidity, "wmo-magnus");
  return temperature + (standardLapse * elevation) / 2 + vaporCoefficient * e;
}

/**
 * Pressure reduced to sea level through a column of known mean temperature.
 *
 * With one mean temperature for the whole record the reduction is a constant factor: it keeps the shape of the pressure curve,
 * so a pressure tide stays what it is (times the factor). The way to reduce pressure at altitude when cycles matter.
 *
 * @param pressure     air pressure at the station · hPa · 200…1200 · NaN gives NaN
 * @param elevation    of the barometer · m above mean sea level · −500…9000 · NaN gives NaN
 * @param temperature  mean virtual temperature of the column, as `columnTemperature` gives · °C · −100…300 · NaN gives NaN
 * @param options.form "hypsometric" (default: the constants of the rest of this room) or "wmo-guide", 0.01…0.10 hPa less
 * @returns            hPa
 * @throws RangeError  outside the limits
 * @throws TypeError   when the form is unknown or an argument is not a number
 * @example seaLevelPressureThrough(860, 1380, 26.165) // 1006.71
 * @source AMS Glossary of Meteorology, Hypsometric equation; K_p read in a public source file that cites the WMO guide
 */
export function seaLevelPressureThrough(
  pressure: number,
  elevation: number,
  temperature: number,
  { form = "hypsometric" }: { form?: ReductionForm } = {},
): number {
  // The column of a boiling station at 9000 m is 254 °C: whatever `columnTemperature` gives is accepted.
  requireReading("seaLevelPressureThrough", "temperature", temperature, { ...readingLimit.temperature, high: 300 });
  return reduce("seaLevelPressureThrough", pressure, elevation, temperature, form);
}

function reduce(at: string, pressure: number, elevation: number, temperature: number, form: ReductionForm): number {
  requireForm(at, "form", form, Object.keys(exponentPerMeter));
  requireReading(at, "pressure", pressure, readingLimit.pressure);
  requireReading(at, "elevation", elevation, readingLimit.elevation);
  return pressure * Math.exp((exponentPerMeter[form] * elevation) / (temperature + zeroCelsius));
}

/**
 * Pressure reduced to sea level with the temperature and humidity of the moment, as weather services do.
 *
 * What a barometer at the foot of an imagined shaft would read. The lower the station the better: near sea level it is good to
 * 0.1 hPa, above 500 m or so the imagined air decides. At altitude it carries a false daily cycle made from the air's own
 * temperature (at 1160 m the daily pressure wave grew from 0.74 to 2.37 hPa): never look for the tide in it.
 *
 * @param pressure                 air pressure at the station · hPa · 200…1200 · NaN gives NaN
 * @param elevation                of the barometer · m above mean sea level · −500…9000 · NaN gives NaN
 * @param weather.temperature      air temperature at the station · °C · −100…100 · NaN gives NaN
 * @param weather.relativeHumidity % over liquid water · 0…105, above 100 counts as 100 · NaN gives NaN
 * @param weather.form             "hypsometric" (default: the constants of the rest of this room) or "wmo-guide"
 * @returns                        hPa
 * @throws RangeError              outside the limits
 * @throws TypeError               when the form is unknown or an argument is not a number
 * @example seaLevelPressure(860, 1380, { temperature: 20, relativeHumidity: 60 }) // 1006.71
 * @source form of the WMO guide to instruments, part I, chapter 3; C_h from memory
 */
export function seaLevelPressure(
  pressure: number,
  elevation: number,
  { temperature, relativeHumidity, form = "hypsometric" }: { temperature: number; relativeHumidity: number; form?: ReductionForm },
): number {
  const at = "seaLevelPressure";
  return reduce(at, pressure, elevation, column(at, temperature, elevation, relativeHumidity), form);
}
