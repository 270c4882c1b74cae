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

/**
 * The tide of a place for what needs it taken out: months and season are not asked, and without a site its hours are UTC.
 *
 * @param record a record whose faults are marked
 * @param series its pressure · hPa
 * @throws RecordError kind data under 3 whole days
 */
export function tideToTakeOut(record: AirRecord, series: Series): TideFit {
  return fitTides(series, { longitude: record.site?.longitude ?? 0, averagedOver: record.averagedOver, events: movesOf(record), climatology: false });
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
