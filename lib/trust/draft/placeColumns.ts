import { type ColumnSense, dimensionOf } from "./columnSense.js";
import { exposureByName } from "./exposureGuess.js";

/** Whose number each column is in a wide layout. */
export interface PlaceColumns {
  /** By the order of the columns given: name of the place; empty for a record of one place. */
  readonly placeOf: readonly string[];
  readonly reasons: readonly string[];
  /** Names of the places, in the order of the columns; empty for one place. */
  readonly places: readonly string[];
}

/**
 * Parts the readings of a wide row among places: by what the headers say beside quantity and unit, else the first of each
 * quantity to the first place, the second to the second.
 *
 * @param senses columns of a resource; those that are not read have no place
 */
export function placeColumns(senses: readonly ColumnSense[]): PlaceColumns {
  const read = senses.map((s, k) => ({ s, k })).filter(({ s }) => s.quantity !== null);
  const isDoubled = read.some(({ s }, i) => read.some((o, j) => j < i && o.s.quantity === s.quantity));
  const none = senses.map(() => "");
  if (!isDoubled) return { placeOf: none, reasons: none, places: [] };
  const keys = senses.map((s) => s.meaning.place);
  const placeOf = [...none];
  const reasons = [...none];
  const taken = new Map<string, number>();
  for (const { s, k } of read) {
    const key = `${s.quantity} ${keys[k]}`;
    const nth = (taken.get(key) ?? 0) + 1;
    taken.set(key, nth);
    const name = placeName(keys[k]);
    const isNumbered = name === "" || read.some((o) => o.k !== k && o.s.quantity === s.quantity && keys[o.k] === keys[k]);
    placeOf[k] = !isNumbered ? name : name === "" ? `sensor-${nth}` : nth === 1 ? name : `${name}-${nth}`;
    reasons[k] = name === "" ? `it is number ${nth} of its quantity in the row, and no name tells a place` : `its name says ${JSON.stringify(keys[k])} beside the quantity`;
  }
  // Where other columns name places, a sensor without a name is the plain one.
  const named = read.filter(({ k }) => keys[k] !== "").length;
  if (named > 0) for (const { k } of read) if (keys[k] === "" && placeOf[k] === "sensor-1") placeOf[k] = "main";
  joinLoose(read, placeOf, reasons);
  const places = [...new Set(read.map(({ k }) => placeOf[k]))];
  return { placeOf, reasons, places };
}

/** A place with no temperature of its own, and no quantity that another lacks not, is a part of another. */
function joinLoose(read: readonly { s: ColumnSense; k: number }[], placeOf: string[], reasons: string[]): void {
  const of = (place: string): ColumnSense[] => read.filter(({ k }) => placeOf[k] === place).map(({ s }) => s);
  const all = [...new Set(read.map(({ k }) => placeOf[k]))];
  // Whether a barometer stands inside or outside matters little; a dew point without a place is most likely that of the outside air.
  const warm = all.filter((p) => of(p).some((s) => s.quantity === "air_temperature"));
  const hosts = [...warm.filter((p) => exposureByName(p) === "outdoor"), ...warm.filter((p) => exposureByName(p) !== "outdoor")];
  for (const loose of all.filter((p) => !hosts.includes(p))) {
    const own = of(loose).map((s) => s.quantity);
    const host = hosts.find((h) => !of(h).some((s) => own.includes(s.quantity)));
    if (host === undefined) continue;
    const isPressure = own.every((q) => q !== null && dimensionOf[q] === "pressure");
    for (const { k } of read) {
      if (placeOf[k] !== loose) continue;
      placeOf[k] = host;
      reasons[k] = `${reasons[k]}; it was put with ${host}, the first place that has none of its own, outside before inside${isPressure ? " (air pressure is the same in both)" : ""}`;
    }
  }
}

/** A name for a place from a header's words: numbers alone become sensor-1. */
export function placeName(words: string): string {
  const slug = words.toLowerCase().replace(/[^\p{L}\d]+/gu, "-").replace(/^-+|-+$/g, "");
  return /^\d+$/.test(slug) ? `sensor-${slug}` : slug;
}
