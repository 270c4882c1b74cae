import { mustSentence, shown } from "../ground/complaint.js";
import type { AirRecord, PlaceRecord } from "../record/airRecord.js";
import { plainText } from "./figure.js";
import { dashGlyph, type KeyEntry } from "./sheet.js";
import type { Palette } from "./theme.js";
import type { Dash } from "./trace.js";

/** How one place of a record looks in every figure. */
export interface PlaceLook {
  readonly place: PlaceRecord;
  readonly side: "outside" | "inside";
  readonly color: string;
  /** Of bands, seen through. */
  readonly band: string;
  readonly dash: Dash;
  /** Its title, harmless and short, never broken over lines. */
  readonly title: string;
}

/**
 * Looks of all places, outside ones first: sides differ by color, dash and label, places of one side by dash and label.
 *
 * A place that does not say where it is counts as outside.
 *
 * @example placeLooks(record, paletteOf())[0].side // outside
 */
export function placeLooks(record: AirRecord, palette: Palette): readonly PlaceLook[] {
  const places = Object.values(record.places);
  const outside = places.filter((p) => p.exposure !== "indoor");
  const inside = places.filter((p) => p.exposure === "indoor");
  const dashes = { outside: ["solid", "dashdot"], inside: ["dash", "dot"] } as const;
  const of = (side: "outside" | "inside") => (place: PlaceRecord, i: number): PlaceLook => ({
    place,
    side,
    color: side === "outside" ? palette.outside : palette.inside,
    band: side === "outside" ? palette.outsideBand : palette.insideBand,
    dash: dashes[side][i % 2],
    title: plainText(place.title === "" ? place.name : place.title, 24).replace(/ /g, "\u00a0"),
  });
  return [...outside.map(of("outside")), ...inside.map(of("inside"))];
}

/** `Veranda, outside`, in the place's color with its dash. */
export function keyOf(look: PlaceLook): KeyEntry {
  return { color: look.color, glyph: dashGlyph[look.dash], text: look.place.exposure === null ? look.title : `${look.title}, ${look.side}` };
}

/**
 * The look of the place that is asked for, or of the first that an answer holds: outside before inside.
 *
 * @param at     name of the caller, for its error
 * @param looks  from `placeLooks`
 * @param held   what the answer holds, by name of place
 * @param place  name, or nothing
 * @throws RangeError when the answer does not hold it
 */
export function lookOf<T>(at: string, looks: readonly PlaceLook[], held: Readonly<Record<string, T>>, place?: string): { readonly look: PlaceLook; readonly held: T } {
  const look = looks.find((l) => (place === undefined || l.place.name === place) && Object.hasOwn(held, l.place.name));
  if (look === undefined) throw new RangeError(mustSentence(at, "place", `be one of ${Object.keys(held).join(", ")}`, shown(place)));
  return { look, held: held[look.place.name] };
}
