import { readingLimit, requireForm, requireReading } from "./readingLimit.js";
import { type IceForm, iceForms, type SaturationForm, type WaterForm, waterForms } from "./saturationForms.js";

const waterNames: readonly string[] = Object.freeze(Object.keys(waterForms));
const iceNames: readonly string[] = Object.freeze(Object.keys(iceForms));

/** Looks a form up by its name and says from where to where it may be asked: its own range joined with −100…100 °C, for ice up to 0.01 °C. */
export function acceptedForm(at: string, phase: "water" | "ice", name: string): { form: SaturationForm; low: number; high: number } {
  requireForm(at, "form", name, phase === "water" ? waterNames : iceNames);
  const form = phase === "water" ? waterForms[name as WaterForm] : iceForms[name as IceForm];
  return { form, low: Math.min(readingLimit.temperature.low, form.from), high: phase === "ice" ? 0.01 : Math.max(readingLimit.temperature.high, form.to) };
}

/** The core of both public functions: checks, then the formula. */
export function saturationOver(at: string, phase: "water" | "ice", temperature: number, name: string): number {
  const { form, low, high } = acceptedForm(at, phase, name);
  const remedy = phase === "ice" && temperature > high ? "ice melts there; ask over water" : readingLimit.temperature.remedy;
  requireReading(at, "temperature", temperature, { low, high, unit: "°C", remedy });
  return form.pressure(temperature);
}

/**
 * Saturation vapor pressure over liquid water: the most vapor that air can hold beside a water surface.
 *
 * Below 0 °C it is the pressure over supercooled water, which is what relative humidity refers to at all temperatures.
 * Pure water; in moist air multiply by `enhancementFactor` (+0.5 % at sea level). Default `wmo-magnus`: the form of the
 * WMO guide, on which stations and sensors agree, exactly invertible, within 0.35 % of IAPWS from 0 to 40 °C.
 *
 * @param temperature  air temperature · °C · −100…100 (the form's own range if that is wider) · NaN gives NaN
 * @param options.form one of the nine forms of `waterForms`, default "wmo-magnus"
 * @returns            hPa
 * @throws RangeError  outside the accepted temperatures
 * @throws TypeError   when the form is unknown
 * @example saturationVaporPressure(20) // 23.326
 * @example saturationVaporPressure(20, { form: "iapws" }) // 23.392
 * @source WMO-No. 8 (2008), Annex 4.B, −45…60 °C; the other forms in saturationForms.ts
 */
export function saturationVaporPressure(temperature: number, { form = "wmo-magnus" }: { form?: WaterForm } = {}): number {
  return saturationOver("saturationVaporPressure", "water", temperature, form);
}

/**
 * Saturation vapor pressure over ice, at or below the melting point.
 *
 * Use it for frost, never for relative humidity, which refers to liquid water. The forms agree within 0.15 % from −40 to 0 °C.
 *
 * @param temperature  temperature of the ice · °C · −100…0.01 (lower where the form's own range is) · NaN gives NaN
 * @param options.form one of the seven forms of `iceForms`, default "wmo-magnus", the twin of the default over water
 * @returns            hPa
 * @throws RangeError  outside the accepted temperatures, above 0.01 °C included
 * @throws TypeError   when the form is unknown
 * @example saturationVaporPressureOverIce(-10) // 2.5987
 * @source WMO-No. 8 (2008), Annex 4.B, −65…0 °C; the other forms in saturationForms.ts
 */
export function saturationVaporPressureOverIce(temperature: number, { form = "wmo-magnus" }: { form?: IceForm } = {}): number {
  return saturationOver("saturationVaporPressureOverIce", "ice", temperature, form);
}
