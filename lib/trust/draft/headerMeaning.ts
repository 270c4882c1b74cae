import { unitHint, unitsRead } from "../../ground/units.js";
import { besideTopic, plainWord, type Topic, topicOf } from "./quantityVocabulary.js";

/** What the name of a column says. */
export interface HeaderMeaning {
  readonly topic: Topic | null;
  /** Short spelling of a unit that is read, as far as the name has one. */
  readonly unit: string | null;
  /** What is left: most likely the place. */
  readonly place: string;
  readonly isExtreme: boolean;
}

/** Words that say nothing of a place. */
const fillers = new Set(
  ("sensor value avg mean average mittel mittelwert wert moyenne media reading data rel relative relatif relativa abs absolute absolut air luft aire aria lucht current aktuell deg degree degrees grad grados the of in_unit " +
    "station ambient level sea sealevel meas measured raw corrected cal calibrated log logged ist m s de la du der die das des del no relativna относительная air_ °c °f c f k hpa mbar mb kpa pa mmhg inhg torr percent pct prozent point punkt punto ponto humedad").split(" "),
);
const extremes = new Set(["min", "max", "minimum", "maximum", "mini", "maxi", "lo", "low", "high", "hi", "std", "sd", "stdev", "dev", "range", "tief", "hoch"]);

/** Grams or moles in a kilogram, a cubic metre or a mole: an absolute humidity, not read here. */
const amountOfVapor = /^[mµk]?(g|mol|gr|grains?)\s*(\/|per\b|(kg|m|mol|ft|lb)\b)/i;

/**
 * What the name of a column says: its topic, its unit, and what is left, which is most likely the place.
 *
 * @param name  a header's cell, such as `Temperatur außen (°C)`
 * @param below the cell of a line of units under it, or empty
 */
export function headerMeaning(name: string, below = ""): HeaderMeaning {
  const brackets = [...name.matchAll(/[([{<]([^)\]}>]*)[)\]}>]/g)].map((m) => m[1]);
  const bare = name.replace(/[([{<][^)\]}>]*[)\]}>]/g, " ");
  const words = wordsOf(bare);
  const isAmount = [...brackets, below].some((text) => amountOfVapor.test(text));
  const joined = words.join("");
  const topics = words.map(topicOf);
  const meant = strongest([topicOf(joined.length > 24 ? "" : joined), ...topics], words);
  const place: string[] = [];
  for (const [k, word] of words.entries()) {
    const topic = topics[k];
    if (topic !== null) place.push(...[besideTopic(word, topic)].filter((rest) => rest !== ""));
    if (topic !== null || fillers.has(word) || extremes.has(word)) continue;
    if (word === "in" || /^\d+$/.test(word) || unitNamed(word) === null) place.push(word);
  }
  for (const text of brackets) if (unitNamed(text) === null) place.push(...wordsOf(text).filter((w) => topicOf(w) === null && !fillers.has(w) && unitNamed(w) === null));
  const last = words.length > 1 || topics[0] === null ? (words[words.length - 1] ?? "") : "";
  const glued = /^(?:temp|tmp|t)(c|f|k)$/.exec(words[0] ?? "")?.[1] ?? "";
  const comma = /[,;/]\s*([^,;/\s]+)\s*$/.exec(bare)?.[1] ?? "";
  const unit = [...brackets, below, comma, /[°%]\s*\p{L}*/u.exec(bare)?.[0] ?? "", /^(in|\d+)$/.test(last) ? "" : last, glued].map(unitNamed).find((u) => u !== null) ?? null;
  return { topic: isAmount ? "other" : meant, unit: isAmount ? null : unit, place: [...new Set(place)].join("-"), isExtreme: words.some((w) => extremes.has(w)) };
}

/** The unit that a text names, in its short spelling; null when it names none that is read. */
export function unitNamed(text: string): string | null {
  const t = text.trim().replace(/^[([{<](.*)[)\]}>]$/, "$1").trim().replace(/[º˚]/g, "°").replace(/^in\s+/i, "").replace(/\s+/g, " ");
  if (t === "" || t.length > 24) return null;
  if (Object.hasOwn(unitsRead, t)) return unitsRead[t].name;
  if (/^(%\s*r\.?\s*[hf]\.?|r\.?[hf]\.?\s*%|rh|%)$/i.test(t)) return "%";
  if (/^°\s*[cfk]$/i.test(t)) return { c: "degC", f: "degF", k: "K" }[t.slice(-1).toLowerCase()] ?? null;
  const hint = unitHint(t);
  return hint.startsWith("write ") && /^[\p{L}\s._°]+$/u.test(t) ? hint.slice(6) : null;
}

/** Between a side and a quantity written as one word: `outtemp`, `humin`. */
const grownTogether = /(?<=^(?:in|out|indoor|outdoor|inside|outside|aussen|innen|ext|int))(?=(?:air)?(?:temp|hum|press|baro|dew|rh$|hr$|rf$|t$|h$|p$|feuchte|druck|luftdruck))|(?<=^(?:temp|temperature|temperatur|hum|humi|humid|humidity|press|pressure|baro|dew|rh|hr|rf|t|h|p|feuchte|druck))(?=(?:in|out|indoor|outdoor|inside|outside|aussen|innen|ext|int)$)/;

/** Words of a name: parted at blanks, signs, digits and inner capitals; lower case, no accents. */
function wordsOf(name: string): string[] {
  return name
    .replace(/e?CO[\s_]?[2₂]/gi, " dioxide ")
    .replace(/(?<!\p{L})H[2₂]O/gu, " water ")
    .replace(/(?<!\p{L})(mm|in)[\s_]hg(?!\p{L})/giu, (unit) => unit.replace(/[\s_]/, "").toLowerCase())
    .replace(/(?<!\p{L})(pm[\s_]?(1|10|2[._]?5|4)|no2|o3)(?!\d)/giu, " dust ")
    .replace(/(?<!\p{L})r\.?\s?[hf]\.?(?!\p{L})/giu, " rh ")
    .replace(/(?<!\p{L})(?:[hk]Pa|mmHg|inHg)(?!\p{L})/gu, (unit) => unit.toLowerCase())
    .replace(/(?<!\p{L})R(?=Hum)/gu, "rel ")
    .replace(/(?<!\p{L})(RH|HR|RF)(?=(?:in|out|ext|int|aussen|innen|indoor|outdoor|inside|outside)(?!\p{L}))/gu, "$1 ")
    .replace(/(\p{Ll})(\p{Lu})/gu, "$1 $2")
    .replace(/(\p{Lu})(\p{Lu}\p{Ll})/gu, "$1 $2")
    .split(/[^\p{L}\p{M}\d]+|(?<=[\p{L}\p{M}])(?=\d)|(?<=\d)(?=\p{L})/u)
    .map(plainWord)
    .flatMap((w) => (w === "int" ? [w] : w.split(grownTogether)))
    .filter((w) => w !== "" && w !== undefined);
}

/** A word that is no air's wins over all; dew point over temperature; sea level turns pressure into its own. */
function strongest(found: readonly (Topic | null)[], words: readonly string[]): Topic | null {
  const has = (topic: Topic): boolean => found.includes(topic);
  if (has("dew_point_temperature")) return "dew_point_temperature";
  const isSea = has("air_pressure_at_mean_sea_level") || (words.includes("sea") && words.includes("level")) || words.some((w) => ["rel", "relative", "relativ", "relatif"].includes(w));
  if (has("air_pressure_at_mean_sea_level") && !has("air_temperature") && !has("relative_humidity")) return "air_pressure_at_mean_sea_level";
  if (has("pressure") && !isLong(words, "other")) return isSea ? "air_pressure_at_mean_sea_level" : words.some((w) => /^abs|^station|^qfe/.test(w)) ? "surface_air_pressure" : "pressure";
  if (has("surface_air_pressure")) return "surface_air_pressure";
  if (has("other")) return "other";
  if (words.some((w) => /^abs/.test(w)) && has("relative_humidity")) return "other";
  return found.find((t) => t === "relative_humidity" || t === "air_temperature") ?? null;
}

/** Whether a word of two letters or more is of a topic. */
function isLong(words: readonly string[], topic: Topic): boolean {
  return words.some((w) => w.length > 1 && topicOf(w) === topic);
}
