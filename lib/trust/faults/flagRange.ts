import { standardPressure } from "../../air/standardAtmosphere.js";
import { flagBit } from "../../record/flag.js";
import type { Quantity } from "../../record/quantity.js";
import type { Series } from "../../record/series.js";

/**
 * What a reading can be at all, on the ground of this planet, in house units.
 *
 * @source WMO, Guidelines on Quality Control Procedures for Data from Automatic Weather Stations (2004), fixed-value check:
 *         −80…60 °C, dew point −80…35 °C, 0…100 %, 500…1100 hPa (from memory); humidity to 105 % is a wet sensor, see
 *         `flagSaturated`; sea-level pressure and absolute humidity: common practice, no source
 */
export const rangeLimits: Readonly<Record<Quantity, { readonly low: number; readonly high: number }>> = Object.freeze({
  air_temperature: { low: -80, high: 60 },
  relative_humidity: { low: 0, high: 105 },
  surface_air_pressure: { low: 500, high: 1100 },
  air_pressure_at_mean_sea_level: { low: 850, high: 1100 },
  dew_point_temperature: { low: -80, high: 35 },
  mass_concentration_of_water_vapor_in_air: { low: 0, high: 100 },
});

/** Weather takes station pressure at most this share below the standard atmosphere (a 110 hPa typhoon at sea level is 0.11). */
const lowestShare = 0.87;
/** Lowest limit where no elevation is told: the highest dwellings stand near 5 100 m, where 540 hPa is usual; passes lie higher. */
const lowestUntold = 300;

/**
 * Marks readings that cannot be: outside the limits of `rangeLimits`.
 *
 * Station pressure on a high site has its lower limit moved down to 87 % of the standard atmosphere's. A whole column
 * in another unit is marked from end to end here and is never called a spike; `unitDoubt` says which unit fits.
 *
 * @param series            any quantity, house units · NaN is never marked
 * @param options.elevation m above mean sea level, where known
 * @returns                 bits of `flagBit`, 0 or range · [n]
 * @example flagRange(series({ times: [0, 1], values: [21, 185], quantity: "air_temperature" })) // 0, 1
 * @source see rangeLimits
 */
export function flagRange(series: Series, { elevation }: { elevation?: number | null } = {}): Uint16Array {
  const { high } = rangeLimits[series.quantity];
  let { low } = rangeLimits[series.quantity];
  if (series.quantity === "surface_air_pressure") {
    low = Math.min(low, typeof elevation === "number" ? lowestShare * standardPressure(elevation) : lowestUntold);
  }
  const bits: Uint16Array = new Uint16Array(series.values.length);
  const { values } = series;
  for (let i = 0; i < bits.length; i++) {
    if (values[i] < low || values[i] > high) bits[i] = flagBit.range;
  }
  return bits;
}
