import { fitTides } from "../cycles/tide/fitTides.js";
import type { TideFit } from "../cycles/tide/tideFit.js";
import { tideAt } from "../cycles/tide/tideAt.js";
import type { TideOfPlace } from "../cycles/swings/pressureTendency.js";
import type { AirRecord, PlaceRecord } from "../record/airRecord.js";
import type { Series } from "../record/series.js";

const hourMs = 3_600_000;
const dayMs = 86_400_000;

/**
 * Pressure of a place with at least one reading: at the station where there is any, else reduced to sea level.
 *
 * @param place of a record
 * @returns     hPa · null where no pressure was logged
 */
export function pressureOf(place: PlaceRecord): Series | null {
  for (const quantity of ["surface_air_pressure", "air_pressure_at_mean_sea_level"] as const) {
    const series = place.series[quantity];
    if (series?.values.some((v) => !Number.isNaN(v))) return series;
  }
  return null;
}

/** Instants at which the record says that its stations were moved · epoch ms. */
export function movesOf(record: AirRecord): number[] {
  return record.events.filter((e) => e.kind === "station moved").map((e) => e.at);
}

/** Fits of a series by what was asked, so that several questions about one record fit its tide once. */
const known: WeakMap<Series, Map<string, { readonly fit: TideFit; readonly hasMonths: boolean }>> = new WeakMap();

/**
 * The tide of a place's pressure, fitted once for all questions about it: a fit that has the months serves those that need none.
 *
 * @param record a record whose faults are marked
 * @param series its pressure · hPa
 * @param lines  lines beside S1, S2 and S3
 * @param wants  `months` for the tide of each calendar month of records longer than 60 days, `moves` to split the fit where the record says that the station was moved
 * @throws RecordError, RangeError see `fitTides`
 */
export function tideOfPlace(record: AirRecord, series: Series, lines: readonly string[], wants: { readonly months: boolean; readonly moves: boolean }): TideFit {
  const longitude = record.site?.longitude ?? 0;
  const events = wants.moves ? movesOf(record) : [];
  const words = JSON.stringify([longitude, lines, record.averagedOver, events]);
  const fits = known.get(series) ?? new Map();
  known.set(series, fits);
  const before = fits.get(words);
  if (before !== undefined && (before.hasMonths || !wants.months)) return before.fit;
  const fit = fitTides(series, { longitude, lines, averagedOver: record.averagedOver, events, ...(wants.months ? {} : { climatology: false }) });
  fits.set(words, { fit, hasMonths: wants.months });
  return fit;
}

/**
 * The tide of a place for what needs it taken out: months and season are not asked, and without a site its hours are UTC.
 *
 * @param record a record whose faults are marked
 * @param series its pressure · hPa
 * @throws RecordError kind data under 3 whole days
 */
export function tideToTakeOut(record: AirRecord, series: Series): TideFit {
  return tideOfPlace(record, series, [], { months: false, moves: true });
}

/**
 * What the tendency asks of a tide, from its fit: each line with its own 2×2 covariance, lines taken as independent.
 *
 * @param fit from `fitTides`
 */
export function tideOfFit(fit: TideFit): TideOfPlace {
  return Object.freeze({
    valueAt: (at: number): number => tideAt(fit, [at])[0],
    changeVariance: (at: number, hours: number): number =>
      fit.coefficients.reduce((sum, line) => {
        const angle = (t: number): number => (2 * Math.PI * line.cyclesPerDay * (t - fit.epoch)) / dayMs;
        const [now, then] = [angle(at), angle(at - hours * hourMs)];
        const c = Math.cos(now) - Math.cos(then);
        const s = Math.sin(now) - Math.sin(then);
        return sum + c * c * line.varianceOfCosine + s * s * line.varianceOfSine + 2 * c * s * line.covariance;
      }, 0),
    isDetected: fit.constituents.some((line) => line.detected),
  });
}
