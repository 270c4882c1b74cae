import { shown } from "../../ground/complaint.js";
import { type ReadUnit, unitHint, unitsOf, unitsRead } from "../../ground/units.js";
import { type NumberStyle, readNumber } from "../line/numberText.js";
import { houseUnit, type Quantity } from "../quantity.js";
import type { MissingTexts, NumberPlan } from "./plan.js";
import type { FieldDescription, Surroundings } from "./surroundings.js";

/** What a house unit measures, as lib/ground/units.ts names it. */
const dimensions: Readonly<Record<string, ReadUnit["dimension"]>> = Object.freeze({ degC: "temperature", hPa: "pressure", "%": "ratio" });

type MissingDescription = FieldDescription["missingValues"];

/** Checks a field with a quantity: its type, unit, place, number style and missing values. */
export function planNumber(f: FieldDescription, field: number, at: string, shared: MissingDescription, { places, faults }: Surroundings): NumberPlan {
  const quantity = f.quantity as Quantity;
  if (f.type !== "number" && f.type !== "integer") faults.add(`${at}.type`, "be number or integer, because the field has a quantity", f.type);
  const dimension = dimensions[houseUnit[quantity]];
  const unit = f.unit === undefined ? undefined : unitsRead[f.unit];
  const rule = `be ${unitsOf(dimension)}, because the field is ${quantity}`;
  if (f.unit === undefined) faults.add(`${at}.unit`, rule, undefined);
  else if (unit === undefined) faults.add(`${at}.unit`, `be ${unitsOf(dimension)}`, f.unit, unitHint(f.unit));
  else if (unit.dimension !== dimension) faults.add(`${at}.unit`, rule, f.unit);
  if (f.place !== undefined && places.length > 0 && !places.includes(f.place)) faults.add(`${at}.place`, `be one of the places, ${places.join(", ")}`, f.place);
  const style: NumberStyle = Object.freeze({ decimalChar: f.decimalChar ?? ".", groupChar: f.groupChar ?? "", bareNumber: f.bareNumber ?? true, isInteger: f.type === "integer" });
  if (style.groupChar !== "" && style.groupChar.includes(style.decimalChar)) faults.add(`${at}.groupChar`, `be unlike the decimal character, ${shown(style.decimalChar)}`, style.groupChar);
  const missingAt = f.missingValues === undefined ? `${at.slice(0, at.lastIndexOf(".fields["))}.missingValues` : `${at}.missingValues`;
  return {
    name: f.name ?? "",
    field,
    quantity,
    place: f.place ?? null,
    factor: unit?.factor ?? 1,
    shift: unit?.shift ?? 0,
    style,
    missing: planMissing(f.missingValues ?? shared, missingAt, style, faults),
  };
}

function planMissing(told: MissingDescription, at: string, style: NumberStyle, faults: Surroundings["faults"]): MissingTexts {
  const texts = (told ?? [""]).flatMap((m) => (typeof m === "string" ? [m] : typeof m?.value === "string" ? [m.value] : []));
  const twice = texts.find((t, i) => texts.indexOf(t) < i);
  if (twice !== undefined) faults.say(at, "hold each text once", `${shown(twice)} twice`);
  const numbers = texts.map((t) => t.trim()).map((t) => readNumber(t, 0, t.length, style));
  return Object.freeze({ texts: new Set(texts), numbers: new Set(numbers.filter((n) => !Number.isNaN(n))) });
}
