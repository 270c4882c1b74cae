import { mustSentence, shown } from "../../ground/complaint.js";
import type { Series } from "../../record/series.js";
import type { TideFit, TideOptions } from "./tideFit.js";
import { tideOfSeries } from "./tideOfSeries.js";

/**
 * The pressure tide of a series, with intervals that keep their promise in the red noise of weather.
 *
 * Generalized least squares of S1, S2, S3, S4 and the lines asked for, with mean and slope, on hourly means made for data
 * and regressors alike; the noise is found by restricted maximum likelihood and measured again beside each line. S1, S2 and
 * S3 are always reported, S4 always fitted where readings allow. Fit station pressure: sea-level pressure carries the
 * temperature of its reduction. The intervals hold the tide of these days; over less than a year the season may change it.
 * Mark faults first (`flagRecord`): nothing here looks for a spike or a stuck barometer, and one left in makes the fit wrong unseen.
 * Phases: hours of the first crest in local mean solar time, for L2 lunar hours after the mean moon's upper transit.
 *
 * @param series               station or sea-level pressure · hPa · any spacing up to 3 h, gaps allowed; NaN and readings
 *                             flagged range, spike, stuck or swapped are left out, and so are readings drawn on lines between others
 * @param options.longitude    degrees east, −180…180
 * @param options.lines        further lines to report, by name; S1, S2, S3 always are
 * @param options.averagedOver seconds over which each reading was averaged, stamped in its middle; default 0
 * @param options.events       instants at which the level changed · epoch ms; jumps of six robust sigma are found without
 * @param options.climatology  whether to give calendar months; default when longer than 60 days
 * @returns                    see TideFit
 * @throws TypeError           when the series is not pressure or a line is unknown
 * @throws RangeError          when longitude or averagedOver is outside
 * @throws RecordError         kind `data`: under 3 whole days, fewer than 7 readings a day, or lines that the record is too
 *                             short to separate (Rayleigh criterion)
 * @example fitTides(pressure, { longitude: 110.2 }).constituents[1].amplitude.value // 1.08 hPa
 * @source method, measurements and limits in this room's README
 */
export function fitTides(series: Series, options: TideOptions): TideFit {
  if (series.quantity !== "surface_air_pressure" && series.quantity !== "air_pressure_at_mean_sea_level") {
    throw new TypeError(mustSentence("fitTides", "series", "hold pressure", shown(series.quantity), "use dailyCycle for other quantities"));
  }
  return tideOfSeries("fitTides", series, options);
}
