import { readingLimit, requireForm, requireReading } from "./readingLimit.js";

const forms: Readonly<Record<GravityForm, (sine2: number) => number>> = Object.freeze({
  // Somigliana's closed formula with the constants of WGS 84.
  wgs84: (sine2: number): number => (9.7803253359 * (1 + 0.00193185265241 * sine2)) / Math.sqrt(1 - 0.00669437999014 * sine2),
  // + before the last term: with − the equator comes out 1.1·10⁻⁴ m/s² low, as two public source files have it.
  wmo: (sine2: number): number => {
    const cosine = 1 - 2 * sine2;
    return 9.8062 * (1 - 0.0026442 * cosine + 0.0000058 * cosine ** 2);
  },
});

/** Names of the forms of normal gravity. */
export type GravityForm = "wgs84" | "wmo";

/**
 * Normal gravity at a latitude and height, for barometry.
 *
 * The two forms agree within 3·10⁻⁶ m/s²; local geology does more (up to 10⁻³). Height by the free-air gradient
 * 3.086·10⁻⁶ s⁻², without the pull of the ground below.
 *
 * @param latitude       ° · −90…90, north positive · NaN gives NaN
 * @param options.form   "wgs84" (default: Somigliana's closed formula, the present geodetic standard) or "wmo"
 * @param options.height above sea level · m · −500…9000, default 0 · NaN gives NaN
 * @returns              m s-2
 * @throws RangeError    outside the limits
 * @throws TypeError     when the form is unknown or an argument is not a number
 * @example gravity(45) // 9.806198
 * @example gravity(45, { form: "wmo", height: 1000 }) // 9.80311
 * @source WGS 84 (constants read in public source files); WMO form from memory, its sign held by test/published/gravity.test.ts
 */
export function gravity(latitude: number, { form = "wgs84", height = 0 }: { form?: GravityForm; height?: number } = {}): number {
  requireForm("gravity", "form", form, Object.keys(forms));
  requireReading("gravity", "latitude", latitude, readingLimit.latitude);
  requireReading("gravity", "height", height, readingLimit.elevation);
  return forms[form](Math.sin((latitude * Math.PI) / 180) ** 2) - 3.086e-6 * height;
}
