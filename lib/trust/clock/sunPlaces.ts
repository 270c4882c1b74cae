import type { AirRecord, PlaceRecord } from "../../record/airRecord.js";

/**
 * A barometer outdoors, or the first there is.
 *
 * @param record any
 */
export function barometerOf(record: AirRecord): PlaceRecord | undefined {
  const places = Object.values(record.places).filter(({ series }) => series.surface_air_pressure !== undefined);
  return places.find(({ exposure }) => exposure !== "indoor") ?? places[0];
}

/**
 * Places whose clock the sun can judge: the one outdoors, by warmth and tide, and the first barometer.
 *
 * @param record any
 */
export function sunPlaces(record: AirRecord): readonly PlaceRecord[] {
  const outdoor = Object.values(record.places).find(({ exposure }) => exposure === "outdoor");
  return [...new Set([outdoor, barometerOf(record)])].filter((p) => p !== undefined);
}
