import { flagBit } from "../../record/flag.js";
import type { Series } from "../../record/series.js";

/**
 * Marks relative humidity from 100 to 105 %: a hygrometer in fog or with a wet element.
 *
 * Not a fault that spoils an analysis: the reading stays and counts as 100 %. Above 105 % it is out of range.
 *
 * @param series relative humidity · % · other quantities are never marked
 * @returns      bits of `flagBit`, 0 or saturated · [n]
 * @example flagSaturated(series({ times: [0, 1], values: [99.9, 101], quantity: "relative_humidity" })) // 0, 16
 * @source the house's rule (a hygrometer's tolerance near saturation: common practice, no source)
 */
export function flagSaturated(series: Series): Uint16Array {
  const bits: Uint16Array = new Uint16Array(series.values.length);
  if (series.quantity !== "relative_humidity") return bits;
  const { values } = series;
  for (let i = 0; i < bits.length; i++) {
    if (values[i] >= 100 && values[i] <= 105) bits[i] = flagBit.saturated;
  }
  return bits;
}
