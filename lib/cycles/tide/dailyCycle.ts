import type { Series } from "../../record/series.js";
import type { TideFit, TideOptions } from "./tideFit.js";
import { tideOfSeries } from "./tideOfSeries.js";

const caution =
  "The daily course of this quantity is not a sine: its lines describe the mean day together; take the hours of highest and lowest from the mean day.";

/**
 * The daily cycle of any quantity (temperature, humidity) by the same fit as the pressure tide.
 *
 * The line S1 is its main swing and S2 to S4 its shape. Noise that changes with the hour of day (clear and cloudy
 * afternoons) is not in the model; the intervals hold the mean day of these days.
 *
 * @param series  any quantity; see `fitTides`
 * @param options see `fitTides`
 * @returns       see TideFit, in the series' unit (K for a temperature's amplitudes); its first warning says that the shape is not a sine
 * @throws TypeError, RangeError, RecordError as `fitTides`
 * @example dailyCycle(temperature, { longitude: 110.2 }).constituents[0].maximumAt?.value // 14.0 h
 */
export function dailyCycle(series: Series, options: TideOptions): TideFit {
  const unit = series.unit === "degC" ? "K" : series.unit;
  return tideOfSeries("dailyCycle", { ...series, unit }, options, [caution]);
}
