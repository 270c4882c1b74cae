import { standardOffsetHours } from "../../ground/standardTime.js";
import { zoneNamed } from "../../ground/zone.js";
import type { AirRecord, PlaceRecord } from "../../record/airRecord.js";
import type { Series } from "../../record/series.js";
import { type FoldAtZero, foldAtZero } from "./foldAtZero.js";

/**
 * Whether a place's thermometer lost the minus signs of its values.
 *
 * @param record for the hours of its days: by the sun where there is a site, else by standard time
 * @param place  one of it
 * @returns      see foldAtZero; null without an air temperature
 */
export function foldOfPlace(record: Pick<AirRecord, "site" | "zone" | "from">, place: PlaceRecord): FoldAtZero | null {
  const series = place.series.air_temperature;
  if (series === undefined) return null;
  const zone = zoneNamed(record.zone);
  return foldAtZero(series, record.site !== null ? record.site.longitude / 15 : zone === null ? 0 : standardOffsetHours(zone, record.from));
}

/**
 * The air temperature of a place where it can tell the hour of the day: not where minus signs were lost, which stand its cold days on their head.
 *
 * @param record, place as for foldOfPlace
 * @returns             null where there is none, or it is folded
 */
export function unfoldedWarmth(record: Pick<AirRecord, "site" | "zone" | "from">, place: PlaceRecord): Series | null {
  const series = place.series.air_temperature;
  return series === undefined || foldOfPlace(record, place) !== null ? null : series;
}
