import { RecordError } from "../ground/complaint.js";
import type { CivilTime } from "../ground/instant.js";
import type { ReadUnit } from "../ground/units.js";
import { type FieldPlan, placesOf, type ResourcePlan } from "./description/plan.js";

/** A column that holds a stamp, with the last text read from it. */
export interface StampColumn {
  readonly field: FieldPlan;
  readonly at: number;
  lastText: string;
  lastTime: CivilTime | null;
}

/** Where in a row the fields stand. */
export interface RowColumns {
  /** Fields a whole row has. */
  readonly width: number;
  readonly datetime: StampColumn | null;
  readonly date: StampColumn | null;
  readonly time: StampColumn | null;
  readonly place: { readonly name: string; readonly at: number; readonly table: ReadonlyMap<string, string> } | null;
  readonly numbers: readonly { readonly field: FieldPlan; readonly at: number; readonly slot: number }[];
  /** For each place its columns in the order of its quantities; slot is where the row's number waits. */
  readonly byPlace: readonly (readonly [string, readonly { readonly slot: number; readonly unit: ReadUnit }[]])[];
}

/**
 * Finds the described fields in a row, by position without a header, by the header's names under `fieldsMatch` with one.
 *
 * @throws RecordError when the header does not fit the description
 */
export function columnsOf(plan: ResourcePlan, header: readonly string[] | null, file: string, line: number): RowColumns {
  const places = placesOf(plan);
  const positions = header === null ? plan.fields.map((_, i) => i) : matched(plan, header, file, line);
  const width = header === null ? plan.fields.length : trimmedWidth(header);
  const stamp = (kind: FieldPlan["kind"]): StampColumn | null => {
    const k = plan.fields.findIndex((f, i) => f.kind === kind && positions[i] >= 0);
    return k < 0 ? null : { field: plan.fields[k], at: positions[k], lastText: "\u0000", lastTime: null };
  };
  const who = plan.fields.findIndex((f) => f.kind === "place");
  const numbers = plan.fields.flatMap((field, i) => (field.kind === "number" && positions[i] >= 0 ? [{ field, at: positions[i], slot: i }] : []));
  const byPlace = places.map(
    (name) =>
      [
        name,
        plan.fields.flatMap((f, slot) => (f.kind === "number" && (f.place === null || f.place === name) ? [{ slot, unit: f.unit as ReadUnit }] : [])),
      ] as const,
  );
  return {
    width,
    datetime: stamp("datetime"),
    date: stamp("date"),
    time: stamp("time"),
    place: who < 0 ? null : { name: plan.fields[who].name, at: positions[who], table: plan.fields[who].places ?? new Map() },
    numbers,
    byPlace,
  };
}

function trimmedWidth(header: readonly string[]): number {
  return header.length > 1 && header[header.length - 1].trim() === "" ? header.length - 1 : header.length;
}

function matched(plan: ResourcePlan, header: readonly string[], file: string, line: number): number[] {
  const names = header.slice(0, trimmedWidth(header)).map((h) => h.trim());
  const wanted = plan.fields.map((f) => f.name);
  const missing = wanted.filter((n) => !names.includes(n));
  const extra = names.filter((n) => !wanted.includes(n));
  const rule = plan.fieldsMatch;
  const fail = (must: string): never => {
    throw new RecordError(`${file} line ${line}: the header must ${must} under fieldsMatch ${rule} (got ${shortList(names)})`, "description", { file, line });
  };
  if (rule === "exact" && (missing.length > 0 || extra.length > 0 || wanted.some((n, i) => names[i] !== n))) fail(`be ${shortList(wanted)}`);
  if ((rule === "equal" || rule === "subset") && missing.length > 0) fail(`hold ${shortList(missing)}`);
  if ((rule === "equal" || rule === "superset") && extra.length > 0) fail(`hold nothing but ${shortList(wanted)}`);
  if (names.every((n) => !wanted.includes(n))) fail(`share a name with the description, ${shortList(wanted)}`);
  const needed = plan.fields.filter((f) => f.kind === "datetime" || f.kind === "date" || f.kind === "time" || f.kind === "place");
  for (const f of needed) if (!names.includes(f.name)) fail(`hold ${f.name}`);
  return wanted.map((n) => names.indexOf(n));
}

function shortList(names: readonly string[]): string {
  const text = names.slice(0, 8).map((n) => (n.length > 30 ? `${n.slice(0, 27)}...` : n)).join(", ");
  return names.length > 8 ? `${text} and ${names.length - 8} more` : text;
}
