import { impliedElevation } from "../air/impliedElevation.js";
import { standardPressure } from "../air/standardAtmosphere.js";
import type { Estimate } from "../ground/estimate.js";
import type { AirRecord, PlaceRecord, Site } from "../record/airRecord.js";
import { leftOut } from "../record/flag.js";
import { meanAndSpread } from "./faults/meanAndSpread.js";
import { medianOf } from "./faults/orderStatistics.js";
import { soundReadings } from "./faults/soundReadings.js";

/** Whether a barometer's level fits the height it is said to stand at. */
export interface Altitude {
  /** Of the standard atmosphere at the told elevation (at sea level for reduced pressure) · hPa. */
  readonly expected: number;
  readonly median: number;
  /** Median minus expected · hPa. */
  readonly difference: number;
  readonly plausible: boolean;
  /** Height at which this would be an ordinary station pressure · m. */
  readonly impliedElevation: Estimate;
  readonly looksLike: "station" | "sea level" | "unclear";
  readonly says: string;
}

/** Below this height station and sea-level pressure differ by less than weather does · m. */
const alikeBelow = 150;

/** A place outdoors that logs the temperature of the air, for altitudeOf. */
export function outdoorsOf(record: AirRecord): PlaceRecord | undefined {
  return Object.values(record.places).find((p) => p.exposure === "outdoor" && p.series.air_temperature !== undefined);
}

/**
 * Compares the barometer of a place with the height of its site.
 *
 * The median of the record stands against the standard atmosphere; the weather of some weeks moves it by some hPa, which is
 * some ten metres, so that a barometer is never judged more finely than that.
 *
 * @param place a place, flagged
 * @param site  the record's site; the place's own elevation wins
 * @param outdoors whose temperature tells that of the air where the place itself is indoors or has none · default the standard atmosphere
 * @returns     null without pressure
 * @source lib/air: standard atmosphere and impliedElevation
 * @example altitudeOf(record.places.veranda, record.site)?.plausible // true
 */
export function altitudeOf(place: PlaceRecord, site: Site, outdoors?: PlaceRecord): Altitude | null {
  const station = place.series.surface_air_pressure;
  const series = station ?? place.series.air_pressure_at_mean_sea_level;
  if (series === undefined) return null;
  const values = soundReadings(series, leftOut).x;
  if (values.length === 0) return null;
  const elevation = place.elevation ?? site.elevation;
  const middle = medianOf(values.slice());
  if (!(middle >= 300 && middle <= 1100)) return null;
  const air = place.exposure === "indoor" || place.series.air_temperature === undefined ? outdoors?.series.air_temperature : place.series.air_temperature;
  const temperatures = air === undefined ? new Float64Array(0) : soundReadings(air, leftOut).x;
  const expected = standardPressure(station === undefined ? 0 : elevation, { heightIs: "geometric" });
  const implied = impliedBy(middle, temperatures.length === 0 ? null : Math.min(60, Math.max(-60, meanAndSpread(temperatures).mean)), station === undefined ? 0 : elevation);
  const fits = (height: number): boolean => isWithin(implied, height);
  const looksLike = elevation < alikeBelow && (fits(elevation) || fits(0)) ? "unclear" : fits(elevation) ? "station" : fits(0) ? "sea level" : "unclear";
  const plausible = fits(station === undefined ? 0 : elevation);
  return Object.freeze({ expected, median: middle, difference: middle - expected, plausible, impliedElevation: implied, looksLike, says: sentence(station !== undefined, elevation, middle, expected, implied, plausible, looksLike) });
}

function isWithin({ low, high }: Estimate, height: number): boolean {
  return height >= low && height <= high;
}

/**
 * Height by the temperature of the place, or, where only that one fits, by the standard atmosphere: a valley's or a sheltered sensor's air is not
 * that of the column above it, and at 3600 m the two stand 250 m apart.
 */
function impliedBy(pressure: number, temperature: number | null, told: number): Estimate {
  const standard = impliedElevation(pressure);
  if (temperature === null) return standard;
  const own = impliedElevation(pressure, { temperature });
  return !isWithin(own, told) && isWithin(standard, told) ? standard : own;
}

function sentence(station: boolean, elevation: number, middle: number, expected: number, implied: Estimate, plausible: boolean, looksLike: Altitude["looksLike"]): string {
  const half = Math.round((implied.high - implied.low) / 2);
  const facts = `the median is ${middle.toFixed(1)} hPa where ${expected.toFixed(1)} hPa is usual`;
  if (!station) {
    return plausible ? `${facts} at sea level: the pressure is reduced to sea level, as it says` : `${facts} at sea level: this does not look like sea-level pressure; it would be the station pressure at ${implied.value.toFixed(0)} ± ${half} m`;
  }
  if (plausible) return `${facts} at ${Math.round(elevation)} m: the level fits the height (it implies ${implied.value.toFixed(0)} ± ${half} m, which is as fine as weather lets it be judged)`;
  if (looksLike === "sea level") return `${facts} at ${Math.round(elevation)} m: this looks like pressure reduced to sea level; give the field the quantity air_pressure_at_mean_sea_level, or log station pressure`;
  return `${facts} at ${Math.round(elevation)} m: the level fits ${implied.value.toFixed(0)} ± ${half} m instead; check the elevation, the unit and the barometer`;
}
