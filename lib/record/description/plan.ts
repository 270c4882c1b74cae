import { RecordError } from "../../ground/complaint.js";
import { unitHint, type ReadUnit, unitsRead } from "../../ground/units.js";
import { zoneNamed, type Zone } from "../../ground/zone.js";
import { instantIn } from "../civilText.js";
import { houseUnit, type Quantity } from "../quantity.js";
import type { NumberStyle } from "../numberText.js";
import type { LineStyle } from "../splitLine.js";
import { compileFormat, type StampReader } from "../stamp.js";
import { type Description, type FieldDescription, type ResourceDescription, shapeFaults } from "./shape.js";

/** What one field of a row is for. */
export interface FieldPlan {
  readonly name: string;
  readonly kind: "datetime" | "date" | "time" | "place" | "number" | "ignored";
  readonly missing: ReadonlySet<string>;
  readonly read: StampReader | null;
  /** Written text to place, for the field with role place. */
  readonly places: ReadonlyMap<string, string> | null;
  /** Whose number it is in a wide layout. */
  readonly place: string | null;
  readonly quantity: Quantity | null;
  readonly unit: ReadUnit | null;
  readonly style: NumberStyle;
}

/** Everything the reader needs for one resource. */
export interface ResourcePlan {
  readonly name: string;
  readonly paths: readonly string[];
  readonly encoding: string | undefined;
  readonly line: LineStyle;
  readonly commentChar: string;
  readonly commentRows: ReadonlySet<number>;
  /** Line of the header, counted from 1 over the lines that are no comments; 0 without a header. */
  readonly headerRow: number;
  readonly fieldsMatch: "exact" | "equal" | "subset" | "superset" | "partial";
  readonly fields: readonly FieldPlan[];
  /** Whose rows these are when nothing in them tells. */
  readonly lonePlace: string;
  readonly zone: Zone | null;
  readonly zonePath: string;
  /** Clock corrections in order: true instant = written − ahead. `at` epoch ms as the logger's clock read, ahead ms. */
  readonly corrections: readonly { readonly at: number; readonly ahead: number }[];
  readonly averagedOver: number;
  /** Moves a stamp to the middle of its averaging time · ms. */
  readonly stampShift: number;
}

/** A checked description, ready to read by. */
export interface RecordPlan {
  readonly description: Description;
  readonly resources: readonly ResourcePlan[];
  readonly placeNames: readonly string[];
  readonly notes: readonly string[];
}

/**
 * Checks a description whole and compiles it into plans; every fault is found before the first is told.
 *
 * @param document parsed JSON
 * @throws RecordError kind `description`, with the first fault and the others
 */
export function planRecord(document: unknown): RecordPlan {
  const { description, faults } = shapeFaults(document);
  if (description === null) throw faulty(faults);
  const found: string[] = [];
  const names = Object.keys(description.places ?? {});
  const resources = description.resources.map((r, i) => planResource(r, `resources[${i}]`, description, names, found));
  const twice = description.resources.map((r) => r.name).filter((n, i, all) => all.indexOf(n) !== i);
  if (twice.length > 0) found.push(`resources must have different names (got "${twice[0]}" twice)`);
  if (names.length > 1) {
    for (const [i, plan] of resources.entries()) {
      const told = plan.fields.some((f) => f.kind === "place") || plan.fields.every((f) => f.kind !== "number" || f.place !== null);
      if (!told) found.push(`resources[${i}] must say whose rows these are (got ${names.length} places and neither a field with role place nor a place on each number field)`);
    }
  }
  if (found.length > 0) throw faulty(found);
  const notes = description.name === undefined ? ["the description has no name"] : [];
  return { description, resources, placeNames: names.length === 0 ? [...new Set(resources.flatMap(placesOf))] : names, notes };
}

function faulty(faults: readonly string[]): RecordError {
  return new RecordError(faults[0], "description", {}, faults.slice(1));
}

function planResource(r: ResourceDescription, at: string, description: Description, names: readonly string[], found: string[]): ResourcePlan {
  const raw = r as Record<string, unknown>;
  if (raw.data !== undefined) found.push(`${at}.data must not be used (got inline data); put the rows in a file and name it in path`);
  if (r.path === undefined && raw.data === undefined) found.push(`${at}.path must name the log (got nothing)`);
  const paths = r.path === undefined ? [] : typeof r.path === "string" ? [r.path] : r.path;
  for (const [k, path] of paths.entries()) {
    const where = typeof r.path === "string" ? `${at}.path` : `${at}.path[${k}]`;
    const wrong = pathFault(path);
    if (wrong !== null) found.push(`${where} must be a file inside the record's folder (got ${wrong}: "${path}")`);
  }
  const d = r.dialect ?? {};
  for (const key of Object.keys(d)) {
    if (!["delimiter", "header", "headerRows", "commentRows", "commentChar", "quoteChar", "doubleQuote", "skipInitialSpace", "lineTerminator", "$schema", "nullSequence", "name", "title"].includes(key)) {
      found.push(`${at}.dialect.${key} must not be used (got it set); it is not supported here`);
    }
  }
  const fields = r.schema.fields.map((f, k) => planField(f, `${at}.schema.fields[${k}]`, r, names, found));
  const twice = r.schema.fields.map((f) => f.name).filter((n, i, all) => all.indexOf(n) !== i);
  if (twice.length > 0) found.push(`${at}.schema.fields must have different names (got "${twice[0]}" twice)`);
  const count = (kind: FieldPlan["kind"]): number => fields.filter((f) => f.kind === kind).length;
  const timed = count("datetime") === 1 ? count("date") + count("time") === 0 : count("datetime") === 0 && count("date") === 1 && count("time") === 1;
  if (!timed) found.push(`${at}.schema.fields must hold one datetime field, or one date and one time field (got ${count("datetime")} datetime, ${count("date")} date, ${count("time")} time)`);
  if (count("number") === 0) found.push(`${at}.schema.fields must hold a number field with a quantity (got none)`);
  if (count("place") > 1) found.push(`${at}.schema.fields must hold at most one field with role place (got ${count("place")})`);
  const wide = fields.some((f) => f.place !== null);
  if (count("place") > 0 && wide) found.push(`${at} must be either long or wide (got a field with role place and a place on a number field)`);
  const zoneField = Math.max(fields.findIndex((f) => f.kind === "datetime"), fields.findIndex((f) => f.kind === "time"));
  const written = zoneField < 0 ? undefined : r.schema.fields[zoneField].zone;
  const zonePath = `${at}.schema.fields[${Math.max(0, zoneField)}].zone`;
  const zone = written === undefined ? null : zoneNamed(written);
  if (written !== undefined && zone === null) found.push(`${zonePath} must be Z, an offset such as +07:00, or an IANA name such as Europe/London (got "${written}")`);
  const format = zoneField < 0 ? undefined : r.schema.fields[zoneField].format;
  if (written === undefined && zoneField >= 0 && format !== undefined && format !== "default" && !format.includes("%z")) {
    found.push(`${zonePath} must be given (got nothing); write the logger's offset, such as +07:00, or an IANA name`);
  }
  const match = r.schema.fieldsMatch;
  const s = r.sampling;
  return {
    name: r.name,
    paths,
    encoding: r.encoding,
    line: { delimiter: d.delimiter ?? ",", quoteChar: d.quoteChar ?? '"', doubleQuote: d.doubleQuote ?? true, skipInitialSpace: d.skipInitialSpace ?? false },
    commentChar: d.commentChar ?? "",
    commentRows: new Set(d.commentRows ?? []),
    headerRow: d.header === false ? 0 : (d.headerRows?.[0] ?? 1),
    fieldsMatch: match === undefined ? "exact" : typeof match === "string" ? match : match[0],
    fields,
    lonePlace: names[0] ?? lonePlaceName,
    zone,
    zonePath,
    corrections: corrections(description, zone, found),
    averagedOver: s?.averagedOver ?? 0,
    stampShift: s === undefined || s.stamp === "middle" ? 0 : (s.stamp === "start" ? 500 : -500) * s.averagedOver,
  };
}

/** Name of the only place of a record whose description names none. */
const lonePlaceName = "here";

/** Places of a resource in the order of its fields. */
export function placesOf(plan: ResourcePlan): string[] {
  const wide = plan.fields.flatMap((f) => (f.kind === "number" && f.place !== null ? [f.place] : []));
  const long = plan.fields.find((f) => f.kind === "place");
  const found = wide.length > 0 ? wide : long?.places ? [...long.places.values()] : [plan.lonePlace];
  return [...new Set(found)];
}

/** What is wrong with a path, or null. */
function pathFault(path: string): string | null {
  if (/^[a-z][a-z0-9+.-]*:\/\//i.test(path)) return "a URL, and nothing is fetched";
  if (/^([/\\]|[A-Za-z]:)/.test(path)) return "an absolute path";
  const parts = path.split(/[/\\]/);
  if (parts.includes("..")) return "a path that leads above it";
  if (parts.some((p) => p.startsWith("."))) return "a part that begins with a dot";
  return null;
}

function planField(f: FieldDescription, at: string, r: ResourceDescription, names: readonly string[], found: string[]): FieldPlan {
  const missing = (f.missingValues ?? r.schema.missingValues ?? [""]).map((m) => (typeof m === "string" ? m : m.value));
  if (new Set(missing).size !== missing.length) found.push(`${at}.missingValues must be all different (got one twice)`);
  const base = {
    name: f.name,
    missing: new Set(missing),
    read: null,
    places: null,
    place: null,
    quantity: null,
    unit: null,
    style: { decimalChar: f.decimalChar ?? ".", groupChar: f.groupChar ?? "", bareNumber: f.bareNumber ?? true },
  };
  if (f.quantity !== undefined) {
    if (f.type !== "number" && f.type !== "integer") found.push(`${at}.type must be number or integer because the field has a quantity (got ${f.type === undefined ? "nothing" : `"${f.type}"`})`);
    const unit = f.unit === undefined ? undefined : unitsRead[f.unit];
    if (f.unit === undefined) found.push(`${at}.unit must be given because the field has a quantity (got nothing); ${unitHint("")}`);
    else if (unit === undefined) found.push(`${at}.unit must be a unit that can be read (got "${f.unit}"); ${unitHint(f.unit)}`);
    else if (unit.dimension !== dimensionOf[f.quantity]) found.push(`${at}.unit must be one of ${dimensionOf[f.quantity]} because the field is ${f.quantity} (got "${f.unit}")`);
    if (f.place !== undefined && names.length > 0 && !names.includes(f.place)) found.push(`${at}.place must be one of ${names.join(", ")} (got "${f.place}")`);
    return { ...base, kind: "number", quantity: f.quantity, unit: unit ?? null, place: f.place ?? null };
  }
  if (f.role === "place") return { ...base, kind: "place", places: placeTable(f, at, names, found) };
  if (f.type === "datetime" || f.type === "date" || f.type === "time") {
    const compiled = compileFormat(f.type, f.format);
    if ("fault" in compiled) {
      found.push(`${at}.format must ${compiled.fault} (got "${f.format}")`);
      return { ...base, kind: f.type };
    }
    return { ...base, kind: f.type, read: compiled.read };
  }
  return { ...base, kind: "ignored" };
}

const dimensionOf: Readonly<Record<Quantity, string>> = Object.freeze(
  Object.fromEntries(
    Object.entries(houseUnit).map(([q, unit]) => [q, unit === "degC" ? "temperature" : unit === "hPa" ? "pressure" : unit === "%" ? "ratio" : "density"]),
  ) as Record<Quantity, string>,
);

function placeTable(f: FieldDescription, at: string, names: readonly string[], found: string[]): ReadonlyMap<string, string> {
  const table = new Map<string, string>();
  if (f.values !== undefined) for (const [text, place] of Object.entries(f.values)) table.set(text, place);
  else if (f.categories !== undefined) for (const c of f.categories) table.set(typeof c === "string" ? c : c.value, typeof c === "string" ? c : (c.label ?? c.value));
  else for (const name of names) table.set(name, name);
  if (table.size === 0) found.push(`${at}.values must tell which text means which place (got nothing)`);
  for (const place of table.values()) if (names.length > 0 && !names.includes(place)) found.push(`${at}.values must name places of the record, ${names.join(", ")} (got "${place}")`);
  return table;
}

function corrections(description: Description, zone: Zone | null, found: string[]): { at: number; ahead: number }[] {
  const list = description.clock?.corrections ?? [];
  const read = list.map((c, i) => {
    const at = instantIn(c.at, zone);
    if (at === null) {
      const told = `clock.corrections[${i}].at must be a time as the logger wrote it, such as 2024-03-01T09:00:00 (got "${c.at}")`;
      if (!found.includes(told)) found.push(told);
    }
    return { at: at ?? 0, ahead: 1000 * c.ahead };
  });
  return read.sort((a, b) => a.at - b.at);
}
