import { readingLimit, requireReading } from "./readingLimit.js";

/** Rothfusz's fit with its two adjustments; °F and % in, °F out. */
function rothfusz(t: number, r: number): number {
  const fit =
    -42.379 +
    2.04901523 * t +
    10.14333127 * r -
    0.22475541 * t * r -
    6.83783e-3 * t ** 2 -
    5.481717e-2 * r ** 2 +
    1.22874e-3 * t ** 2 * r +
    8.5282e-4 * t * r ** 2 -
    1.99e-6 * t ** 2 * r ** 2;
  if (r < 13 && t >= 80 && t <= 112) return fit - ((13 - r) / 4) * Math.sqrt((17 - Math.abs(t - 95)) / 17);
  if (r > 85 && t >= 80 && t <= 87) return fit + ((r - 85) / 10) * ((87 - t) / 5);
  return fit;
}

/**
 * Heat index: how warm humid air feels to a person in the shade with a light wind.
 *
 * Caution: a fit to a model of one healthy, lightly dressed, walking adult. Sun can add 8 °C; age, illness, work and clothing
 * change it more than the formula's own ±0.7 °C. It is no medical advice and no warning service. Below 20 °C it says
 * nothing: NaN. From 20 to about 27 °C the simple form is used, above it Rothfusz's regression with both adjustments.
 *
 * @param temperature      air temperature · °C · −100…60 · NaN gives NaN
 * @param relativeHumidity % over liquid water · 0…105, above 100 counts as 100 · NaN gives NaN
 * @returns                °C; NaN below 20 °C
 * @throws RangeError      outside the limits
 * @throws TypeError       when an argument is not a number
 * @example heatIndex(32.222, 50) // 34.78
 * @source US National Weather Service, the heat index equation (Rothfusz regression), read on wpc.ncep.noaa.gov; the cautions' sizes from memory
 */
export function heatIndex(temperature: number, relativeHumidity: number): number {
  requireReading("heatIndex", "temperature", temperature, { ...readingLimit.temperature, high: 60 });
  requireReading("heatIndex", "relativeHumidity", relativeHumidity, readingLimit.relativeHumidity);
  if (temperature < 20) return Number.NaN;
  const t = temperature * 1.8 + 32;
  const r = Math.min(relativeHumidity, 100);
  const simple = 0.5 * (t + 61 + (t - 68) * 1.2 + r * 0.094);
  return ((simple < 80 ? simple : rothfusz(t, r)) - 32) / 1.8;
}
