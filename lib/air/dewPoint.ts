import { readingLimit, requireReading } from "./readingLimit.js";
import { vaporPressureAt } from "./relativeHumidity.js";
import { risingRoot } from "./risingRoot.js";
import { type IceForm, iceForms, type WaterForm, waterForms } from "./saturationForms.js";
import { acceptedForm } from "./saturationVaporPressure.js";

/** The temperature at which a form gives this vapor pressure; NaN when that lies outside the form's accepted range. */
function saturatedAt(at: string, phase: "water" | "ice", vaporPressure: number, name: string): number {
  const { form, low, high } = acceptedForm(at, phase, name);
  // Half a part in 10⁹ of slack: a vapor pressure made from the upper limit itself must come back.
  if (!(vaporPressure >= form.pressure(low) * (1 - 5e-10) && vaporPressure <= form.pressure(high) * (1 + 5e-10))) return Number.NaN;
  if (form.inverse !== undefined) return form.inverse(vaporPressure);
  const target = Math.log(vaporPressure);
  // The form of WMO is near every other, and d ln e / dT is within some percent of L/(R_v T²): good enough as a start and a slope.
  const [near, latentOverGas] = phase === "water" ? [waterForms["wmo-magnus"], 5420] : [iceForms["wmo-magnus"], 6140];
  return risingRoot((t) => Math.log(form.pressure(t)) - target, (t) => latentOverGas / (t + 273.15) ** 2, low, high, near.inverse!(vaporPressure));
}

/**
 * Dew point: the temperature at which the air, cooled at constant pressure, is saturated over liquid water.
 *
 * Below 0 °C it is still the dew point over supercooled water; what a cold surface shows there is the frost point. The inverse
 * of the chosen form. In saturated air (100…105 %) it equals the temperature. Air at 0 %, or so dry that the dew point lies below
 * −100 °C, has none that can be told: NaN.
 *
 * @param temperature      air temperature · °C · −100…100 · NaN gives NaN
 * @param relativeHumidity % over liquid water · 0…105 · NaN gives NaN
 * @param options.form     form of the saturation vapor pressure, default "wmo-magnus"; forms differ by up to 0.04 °C, by 0.1 °C where the dew point is below −20 °C
 * @returns                °C, never above the temperature
 * @throws RangeError      outside the limits
 * @throws TypeError       when the form is unknown or an argument is not a number
 * @example dewPoint(25, 60) // 16.693
 * @source WMO-No. 8 (2008), Annex 4.B, −45…60 °C
 */
export function dewPoint(temperature: number, relativeHumidity: number, { form = "wmo-magnus" }: { form?: WaterForm } = {}): number {
  const found = saturatedAt("dewPoint", "water", vaporPressureAt("dewPoint", temperature, relativeHumidity, form), form);
  // Rounding in the last bits must not lift a dew point over its temperature.
  return Math.min(found, temperature);
}

/**
 * Frost point: the temperature at which the air, cooled at constant pressure, is saturated over ice.
 *
 * Never below the dew point of the same air. Relative humidity goes in over liquid water, as always. Where the air holds more
 * vapor than ice at its melting point has, dew forms instead of frost: NaN. In frosty fog it may lie above the air's temperature.
 *
 * @param temperature      air temperature · °C · −100…100 · NaN gives NaN
 * @param relativeHumidity % over liquid water · 0…105 · NaN gives NaN
 * @param options.form     form of both pressures, over water and over ice, default "wmo-magnus"
 * @returns                °C, at most 0.01
 * @throws RangeError      outside the limits
 * @throws TypeError       when the form is unknown or an argument is not a number
 * @example frostPoint(-10, 70) // -12.866
 * @source WMO-No. 8 (2008), Annex 4.B, −65…0 °C
 */
export function frostPoint(temperature: number, relativeHumidity: number, { form = "wmo-magnus" }: { form?: IceForm } = {}): number {
  // Asking over ice first refuses a form that has no twin over ice, by name.
  acceptedForm("frostPoint", "ice", form);
  return saturatedAt("frostPoint", "ice", vaporPressureAt("frostPoint", temperature, relativeHumidity, form), form);
}

/**
 * Dew point of air whose vapor pressure is known.
 *
 * @param vaporPressure hPa · 0…1200 · NaN gives NaN, and so does air too dry for a dew point within the form's range
 * @param options.form  form of the saturation vapor pressure, default "wmo-magnus"
 * @returns             °C
 * @throws RangeError   outside the limits
 * @throws TypeError    when the form is unknown or the argument is not a number
 * @example dewPointFromVaporPressure(11.663) // 9.255
 * @source WMO-No. 8 (2008), Annex 4.B
 */
export function dewPointFromVaporPressure(vaporPressure: number, { form = "wmo-magnus" }: { form?: WaterForm } = {}): number {
  requireReading("dewPointFromVaporPressure", "vaporPressure", vaporPressure, readingLimit.vaporPressure);
  return saturatedAt("dewPointFromVaporPressure", "water", vaporPressure, form);
}

/**
 * Frost point of air whose vapor pressure is known.
 *
 * @param vaporPressure hPa · 0…1200 · NaN gives NaN, and so does air with too much vapor for frost
 * @param options.form  form of the saturation vapor pressure over ice, default "wmo-magnus"
 * @returns             °C, at most 0.01
 * @throws RangeError   outside the limits
 * @throws TypeError    when the form is unknown or the argument is not a number
 * @example frostPointFromVaporPressure(2.0092) // -12.866
 * @source WMO-No. 8 (2008), Annex 4.B
 */
export function frostPointFromVaporPressure(vaporPressure: number, { form = "wmo-magnus" }: { form?: IceForm } = {}): number {
  requireReading("frostPointFromVaporPressure", "vaporPressure", vaporPressure, readingLimit.vaporPressure);
  return saturatedAt("frostPointFromVaporPressure", "ice", vaporPressure, form);
}
