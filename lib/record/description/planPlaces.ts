import type { NumberPlan, ResourcePlan } from "./plan.js";
import type { FieldDescription, Surroundings } from "./surroundings.js";

/**
 * Who the rows of a resource belong to: long (a field with role place), wide (a place on each number field), or one place.
 *
 * @param at path of the resource
 */
export function planPlaces(fields: readonly FieldDescription[], numbers: readonly NumberPlan[], at: string, about: Surroundings): Pick<ResourcePlan, "who" | "places" | "isWide"> {
  const { faults, places } = about;
  const where = (k: number): string => `${at}.schema.fields[${k}]`;
  const told = fields.flatMap((f, k) => (f.role === "place" ? [k] : []));
  const placed = numbers.filter((n) => n.place !== null);
  if (told.length > 1) faults.say(`${where(told[1])}.role`, "stand on one field", `on ${fields[told[0]].name ?? "the first"} too`);
  if (told.length > 0 && placed.length > 0) {
    faults.add(`${where(placed[0].field)}.place`, "not be used beside a field with role place: a resource is long or wide, not both", placed[0].place);
  }
  if (told.length > 0) {
    const k = told[0];
    checkDoubles(numbers, where, faults);
    const table = placeTable(fields[k], where(k), about);
    return { who: Object.freeze({ name: fields[k].name ?? "", field: k, places: table }), places: [...new Set(table.values())], isWide: false };
  }
  if (placed.length === 0) {
    if (places.length > 1) {
      faults.say(`${at}.schema.fields`, `say whose rows these are, because the record has ${places.length} places`, "no field with role place and no place on a number field");
    }
    checkDoubles(numbers, where, faults);
    return { who: null, places: [about.lonePlace], isWide: false };
  }
  const lone = numbers.find((n) => n.place === null);
  const isUntold = lone !== undefined && places.length !== 1;
  if (isUntold) faults.add(`${where(lone.field)}.place`, "be given, because other number fields have one", undefined);
  const filled = numbers.map((n) => (n.place === null ? { ...n, place: about.lonePlace } : n));
  if (!isUntold) checkDoubles(filled, where, faults);
  return { who: null, places: [...new Set(filled.map((n) => n.place as string))], isWide: true };
}

function checkDoubles(numbers: readonly NumberPlan[], where: (k: number) => string, faults: Surroundings["faults"]): void {
  for (const [i, n] of numbers.entries()) {
    const before = numbers.slice(0, i).find((m) => m.quantity === n.quantity && m.place === n.place);
    if (before !== undefined) faults.add(`${where(n.field)}.quantity`, `be unlike that of ${before.name}${n.place === null ? "" : ` in the same place, ${n.place}`}`, n.quantity);
  }
}

/** What is written, to the place it means: from `values`, else from categories and their labels, else the places' own names. */
function placeTable(f: FieldDescription, at: string, { places, faults }: Surroundings): ReadonlyMap<string, string> {
  const table = new Map<string, string>();
  const check = (path: string, name: string): void => {
    if (places.length > 0 && !places.includes(name)) faults.add(path, `be one of the places, ${places.join(", ")}`, name);
  };
  if (f.type !== undefined && f.type !== "string" && f.type !== "integer") faults.add(`${at}.type`, "be string or integer, because the field has role place", f.type);
  if (f.values !== undefined) {
    for (const [written, name] of Object.entries(f.values)) {
      table.set(written, name);
      check(`${at}.values.${written}`, name);
    }
  } else if (f.categories !== undefined) {
    for (const [i, c] of f.categories.entries()) {
      if (c === undefined || c === null) continue;
      const value = String(typeof c === "object" ? c.value : c);
      const name = typeof c === "object" ? (c.label ?? value) : value;
      table.set(value, name);
      check(`${at}.categories[${i}]`, name);
    }
  } else for (const name of places) table.set(name, name);
  if (table.size === 0) faults.add(`${at}.values`, "say which text means which place", undefined);
  return table;
}
