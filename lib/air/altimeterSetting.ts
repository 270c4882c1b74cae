import { readingLimit, requireForm, requireReading } from "./readingLimit.js";
import { standardAtmosphere } from "./standardAtmosphere.js";

const forms: Readonly<Record<AltimeterForm, (pressure: number, height: number) => number>> = Object.freeze({
  smithsonian: (p: number, h: number): number => p * (1 + (8.4229e-5 * h) / p ** 0.19028) ** 5.2553,
  "us-agency": (p: number, h: number): number => {
    const n = 0.190284;
    const k = (1013.25 ** n * 0.0065) / 288;
    return (p - 0.3) * (1 + (k * h) / (p - 0.3) ** n) ** (1 / n);
  },
  "standard-atmosphere": (p: number, h: number): number => {
    const { temperature, pressure, lapse, exponent } = standardAtmosphere;
    return ((p / pressure) ** (1 / exponent) + (lapse * h) / temperature) ** exponent * pressure;
  },
});

/** Names of the forms of the altimeter setting. */
export type AltimeterForm = "smithsonian" | "us-agency" | "standard-atmosphere";

/**
 * Altimeter setting: the station's pressure brought to sea level through the standard atmosphere, whatever the weather.
 *
 * The number on the scale of a home barometer that was "set to sea level". It is not the sea-level pressure of weather maps, which
 * uses the real temperature; up to 10 hPa apart at altitude. The form "us-agency" takes 0.3 hPa off first (a pressure 3 m higher
 * up), so it does not return the station's pressure at 0 m. Not for aviation or navigation.
 *
 * @param pressure     air pressure at the station · hPa · 200…1200 · NaN gives NaN
 * @param elevation    of the barometer · m above mean sea level · −500…9000 · NaN gives NaN
 * @param options.form "smithsonian" (default: no offset, so 0 m changes nothing), "us-agency", or "standard-atmosphere" (the exact
 *                     inverse of `standardPressure`, 0.07 hPa below "smithsonian" at 1380 m)
 * @returns            hPa
 * @throws RangeError  outside the limits
 * @throws TypeError   when the form is unknown or an argument is not a number
 * @example altimeterSetting(850, 1380, { form: "us-agency" }) // 1003.723
 * @example altimeterSetting(850, 1380, { form: "standard-atmosphere" }) // 1003.998
 * @source Smithsonian form read on archive.eol.ucar.edu (pressure corrections); form with 0.3 hPa from memory
 */
export function altimeterSetting(pressure: number, elevation: number, { form = "smithsonian" }: { form?: AltimeterForm } = {}): number {
  requireForm("altimeterSetting", "form", form, Object.keys(forms));
  requireReading("altimeterSetting", "pressure", pressure, readingLimit.pressure);
  requireReading("altimeterSetting", "elevation", elevation, readingLimit.elevation);
  return forms[form](pressure, elevation);
}
