import { impliedElevation } from "../../air/impliedElevation.js";
import { median } from "../../ground/summary.js";
import type { AirRecord } from "../../record/airRecord.js";
import { pathText } from "../../record/description/faults.js";
import { crestHour, dailyRange } from "./columnLevel.js";
import type { ExposureGuess, PlaceSwing } from "./exposureGuess.js";
import type { Question } from "./logSample.js";
import { lonePlace } from "./placesDraft.js";

/** How far the temperature of a place goes in a day, and how low. */
export function placeSwing(record: AirRecord, name: string): PlaceSwing {
  const place = record.places[name];
  const series = place.series.air_temperature;
  if (series === undefined) return { name, range: Number.NaN, lowest: Number.NaN };
  const times = Float64Array.from(series.seconds, (s) => series.start + 1000 * s);
  const sound: Float64Array = series.values.map((v) => (v > -90 && v < 65 ? v : Number.NaN));
  const lowest = sound.filter((v) => !Number.isNaN(v)).reduce((low, v) => Math.min(low, v), Number.POSITIVE_INFINITY);
  return { name, range: dailyRange(times, sound), lowest: Number.isFinite(lowest) ? lowest : Number.NaN };
}

/**
 * What the warmest hour says of the clock of a place that looks outside, as an end to the question of its zone; empty where nothing.
 *
 * @param record read with the stamps taken for UTC
 */
export function warmestHour(record: AirRecord, names: readonly string[]): string {
  const swings = names.map((name) => placeSwing(record, name)).filter((s) => s.range > 4);
  const widest = swings.sort((a, b) => b.range - a.range)[0];
  const series = widest === undefined ? undefined : record.places[widest.name].series.air_temperature;
  if (series === undefined || series.seconds[series.seconds.length - 1] < 2 * 86_400) return "";
  const hour = crestHour(Float64Array.from(series.seconds, (s) => series.start + 1000 * s), series.values.map((v) => (v > -90 && v < 65 ? v : Number.NaN)));
  if (Number.isNaN(hour)) return "";
  const isLocal = hour >= 13 && hour <= 17.5;
  return `. By its stamps it is warmest at about ${Math.round(hour) % 24} h, and by the sun that is usual at 14 to 16 h: the clock ${isLocal ? "seems to keep local time" : "seems not to keep the time of the place (or the sensor stands inside)"}`;
}

/** A word for a coordinate or a height with a number behind it, as titles of logs have it. */
const ofSite = /(?<!\p{L})(lat|latitude|latitud|lon|long|longitude|longitud|breite|l[äa]nge|elev|elevation|altitude|altitud|alt|h[öo]he|coordinates|position|gps)(?!\p{L})(\s*\([^)]{0,16}\))?[^\p{L}\d]{0,8}\d/iu;
const whereQuestion = 'where does it stand? Write "site": { "latitude": …, "longitude": …, "elevation": … } in degrees, north and east positive, and metres above sea level; without it heights, tides and sun times cannot be judged';
/** Lines quoted, and letters of each. */
const mostQuoted = 3;
const longestQuoted = 60;

/**
 * What the first lines of logs say of the site, to be quoted: nobody else can tell whether it is meant so.
 *
 * @param titles first lines of all logs; rows name no coordinate
 */
export function siteLines(titles: readonly string[]): string[] {
  const telling = titles.filter((l) => ofSite.test(l)).map((l) => l.replace(/^[\s#;,*"]+|[\s;,"]+$/g, "").replace(/\s+/g, " ").slice(0, longestQuoted));
  return [...new Set(telling)].slice(0, mostQuoted);
}

/** What to ask of the site, with what the logs say of it in lines of their own, and the barometer of its height. */
export function siteQuestion(record: AirRecord, told: readonly string[]): string {
  const quoted = told.length === 0 ? "" : `. The log says ${told.map((l) => JSON.stringify(l)).join(", ")}`;
  const ask = `${whereQuestion}${quoted}`;
  const pressure = Object.values(record.places).map((p) => p.series.surface_air_pressure).find((s) => s !== undefined);
  if (pressure === undefined) return ask;
  const level = median(pressure.values);
  if (!(level > 300 && level < 1090)) return ask;
  const { value, low, high } = impliedElevation(level);
  return `${ask}. A middle pressure of ${level.toFixed(1)} hPa would be usual at ${String(Math.round(value / 10) * 10).replace("-", "−")} ± ${Math.round((high - low) / 20) * 10} m`;
}

/** What to ask of a place: outside or inside. */
export function exposureQuestion(name: string, { exposure, because }: ExposureGuess, called: string): Question {
  const path = pathText(["places", name, "exposure"]);
  const title = name === lonePlace ? "the logger" : called;
  if (exposure === null) return { path, ask: `does ${title} stand outside ("outdoor") or inside ("indoor")? It has no day of temperatures that could tell` };
  return { path, drafted: exposure, ask: `does ${title} stand outside ("outdoor") or inside ("indoor")? It looks ${exposure === "outdoor" ? "outside" : "inside"}: ${because}` };
}
