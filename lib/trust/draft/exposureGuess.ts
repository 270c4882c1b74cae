import { plainWord } from "./quantityVocabulary.js";

const outside = /^(out|outdoor|outdoors|outside|aussen|draussen|exterior|exterieur|dehors|esterno|externo|fuera|ext|buiten|ude|ute|utomhus|ulko|venku|zewnatrz|luar|dis|garden|garten|jardin|porch|veranda|balcony|balkon|terrace|terrasse|yard|hof|harbor|harbour|shed|carport|улица|снаружи|наружная|外|室外|실외)$/;
const inside = /^(in|indoor|indoors|inside|innen|drinnen|interior|interieur|dedans|interno|dentro|int|binnen|inde|inne|inomhus|sisa|uvnitr|wewnatrz|dalam|ic|room|zimmer|raum|living|livingroom|wohnzimmer|salon|kitchen|kuche|bedroom|schlafzimmer|office|buro|bureau|cellar|keller|cave|attic|loft|dachboden|library|classroom|bath|bathroom|bad|hall|flur|дом|комната|внутри|内|室内|실내)$/;

/** What a place's name says of its exposure; null when nothing. */
export function exposureByName(name: string): "outdoor" | "indoor" | null {
  const words = plainWord(name).split(/[^\p{L}]+/u);
  if (words.some((w) => outside.test(w))) return "outdoor";
  return words.some((w) => inside.test(w)) ? "indoor" : null;
}

/** A place with what its temperatures do. */
export interface PlaceSwing {
  readonly name: string;
  /** Mean daily range of temperature · K · NaN without one. */
  readonly range: number;
  /** Lowest temperature · °C · NaN without one. */
  readonly lowest: number;
}

/** Exposure of a place and the reason. */
export interface ExposureGuess {
  readonly exposure: "outdoor" | "indoor" | null;
  readonly because: string;
  readonly isTold: boolean;
}

/** Share of the largest daily range below which another place is taken to be inside. */
const calmer = 0.8;
/** From this share on, where the range is that of outside air, both are taken to be outside. */
const alike = 0.9;
/** Daily range that is more than a house's · K. */
const wide = 4;

/**
 * Which places look like outside and which like inside: by their names, else by how far temperature goes in a day.
 *
 * @returns by place, in the order given
 */
export function exposureGuess(places: readonly PlaceSwing[]): ExposureGuess[] {
  const widest = Math.max(...places.map((p) => (Number.isNaN(p.range) ? 0 : p.range)));
  const isOutsideNamed = places.some((p) => exposureByName(p.name) === "outdoor");
  return places.map((p): ExposureGuess => {
    const told = exposureByName(p.name);
    if (told !== null) return { exposure: told, because: `its name says so`, isTold: true };
    if (Number.isNaN(p.range)) return { exposure: null, because: "", isTold: false };
    const by = `its temperature goes ${p.range.toFixed(1)} K in a day`;
    if (places.length === 1) {
      const isOut = p.range > wide || p.lowest < 8;
      return { exposure: isOut ? "outdoor" : "indoor", because: `${by}${p.lowest < 8 ? ` and down to ${p.lowest.toFixed(0)} °C` : ""}, as ${isOut ? "outside" : "in a house"}`, isTold: false };
    }
    if (p.range === widest && !isOutsideNamed) return { exposure: "outdoor", because: `${by}, the most of all places`, isTold: false };
    const share = p.range / widest;
    if (share >= alike && p.range > wide && !isOutsideNamed) return { exposure: "outdoor", because: `${by}, as much as the widest, ${widest.toFixed(1)} K: no house damps it`, isTold: false };
    return share <= calmer || isOutsideNamed ? { exposure: "indoor", because: `${by}, ${(100 * share).toFixed(0)} % of the widest: a house damps it`, isTold: false } : { exposure: "indoor", because: `${by}, hardly less than the widest, ${widest.toFixed(1)} K: this may well be wrong`, isTold: false };
  });
}
