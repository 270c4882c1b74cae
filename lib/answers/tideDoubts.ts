import type { TideFit } from "../cycles/tide/tideFit.js";
import type { AirRecord, PlaceRecord } from "../record/airRecord.js";
import { altitudeOf, outdoorsOf } from "../trust/altitude.js";
import { clockDoubts } from "../trust/clock/clockDoubts.js";
import { feltSentence, feltTemperature } from "../trust/feltTemperature.js";
import { unfoldedWarmth } from "../trust/faults/unfoldedWarmth.js";
import { solarCheck } from "../trust/solarCheck.js";

/**
 * What a reader of a tide should doubt, one plain sentence each: pressure that looks reduced to sea level, a crest or a size that
 * no sound clock and barometer give, and a clock that changes in mid-record (summer time read as standard time).
 *
 * The fit itself is not changed by a doubt: real places differ, and only the owner knows.
 *
 * @param record with its faults marked
 * @param place  whose tide it is
 * @param fit    of its pressure
 * @returns      sentences with a capital and a full stop; none without a site
 */
export function tideDoubts(record: AirRecord, place: PlaceRecord, fit: TideFit): string[] {
  const { site } = record;
  if (site === null) return [];
  const found: string[] = [];
  const altitude = altitudeOf(place, site, outdoorsOf(record));
  if (fit.quantity === "surface_air_pressure" && altitude !== null && !altitude.plausible && altitude.looksLike === "sea level") {
    found.push(`${altitude.says}; a tide fitted to it carries the temperature of the reduction, and S1 may come out three times too large and hours too early`);
  }
  const outdoor = place.exposure === "indoor" ? Object.values(record.places).find((p) => p.exposure !== "indoor") : place;
  const solar = solarCheck(fit, site.latitude, outdoor === undefined ? null : unfoldedWarmth(record, outdoor));
  if (solar !== null && !solar.plausible) found.push(solar.says);
  const alone: AirRecord = { ...record, places: { [place.name]: place }, jumps: record.jumps.filter((j) => j.place === place.name) };
  for (const { says } of clockDoubts(alone, [])) found.push(`${says}; a clock that changes smears the tide: its lines come out too small and at hours between`);
  for (const felt of feltTemperature(record)) if (felt.place === place.name) found.push(`${feltSentence(felt, (name) => record.places[name].title)}; S2 and S3 hardly change`);
  return found.map((text) => `${text.charAt(0).toUpperCase()}${text.slice(1)}.`);
}
