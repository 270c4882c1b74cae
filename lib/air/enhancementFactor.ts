import { readingLimit, requireForm, requireReading } from "./readingLimit.js";

const forms: Readonly<Record<EnhancementForm, (pressure: number) => number>> = Object.freeze({
  "wmo": (p: number): number => 1.0016 + 3.15e-6 * p - 0.074 / p,
  "buck-1981-water": (p: number): number => 1.0007 + 3.46e-6 * p,
  "buck-1981-ice": (p: number): number => 1.0003 + 4.18e-6 * p,
});

/** Names of the forms of the enhancement factor; `wmo` serves both water and ice. */
export type EnhancementForm = "wmo" | "buck-1981-water" | "buck-1981-ice";

/**
 * How much larger the saturation vapor pressure is in moist air than over pure water.
 *
 * Factor f(p) by which a saturation vapor pressure is multiplied. It cancels in dew point and relative humidity; leaving it out
 * makes absolute humidity 0.3 to 0.5 % small, far below a sensor's 2 to 3 %, so this room takes f = 1 except in the psychrometer.
 *
 * @param pressure     air pressure · hPa · 200…1200 · NaN gives NaN
 * @param options.form "wmo" (default: belongs to the default saturation form), "buck-1981-water", "buck-1981-ice"
 * @returns            factor · 1
 * @throws RangeError  outside the limits
 * @throws TypeError   when the form is unknown
 * @example enhancementFactor(1013.25) // 1.00472
 * @source WMO-No. 8 (2008), Annex 4.B, and Buck 1981; read in a public port
 */
export function enhancementFactor(pressure: number, { form = "wmo" }: { form?: EnhancementForm } = {}): number {
  requireForm("enhancementFactor", "form", form, Object.keys(forms));
  requireReading("enhancementFactor", "pressure", pressure, readingLimit.pressure);
  return forms[form](pressure);
}
