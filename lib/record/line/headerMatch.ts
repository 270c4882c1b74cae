import type { FieldsMatch, ResourcePlan } from "../description/plan.js";

/** Where in a row the described fields stand. */
export interface Columns {
  /** Cells a whole row has. */
  readonly width: number;
  /** For each field of the description its cell, or −1 where the file has none. */
  readonly at: readonly number[];
}

/** The columns of a file without a header: as the description lists them. */
export function columnsInOrder(plan: ResourcePlan): Columns {
  return { width: plan.fieldNames.length, at: plan.fieldNames.map((_, i) => i) };
}

/**
 * Finds the described fields by the names in a header.
 *
 * @param names the header's cells; an empty one at the end is taken off
 * @returns     the columns, or what the header must do, beginning with the verb after "must"
 * @source Data Package 2.0, fieldsMatch: exact (the same names in the same order), equal (the same names), subset (all
 *         the described names and maybe more), superset (described names only), partial (at least one)
 */
export function matchHeader(plan: ResourcePlan, names: readonly string[]): Columns | string {
  const there = names.length > 1 && names[names.length - 1] === "" ? names.slice(0, -1) : names;
  const { fieldNames: wanted, fieldsMatch: rule } = plan;
  const absent = wanted.filter((n) => !there.includes(n));
  const extra = there.filter((n) => !wanted.includes(n));
  const twice = there.filter((n, i) => wanted.includes(n) && there.indexOf(n) !== i);
  if (rule === "exact" && (there.length !== wanted.length || wanted.some((n, i) => there[i] !== n))) return `be ${listed(wanted)}${remedy(absent, extra)}`;
  if (twice.length > 0) return `hold ${twice[0]} once`;
  if ((rule === "equal" || rule === "subset") && absent.length > 0) return `hold ${listed(absent)}`;
  if ((rule === "equal" || rule === "superset") && extra.length > 0) return `hold nothing but ${listed(wanted)}`;
  const needed = plan.neededFields.map((i) => wanted[i]).filter((n) => !there.includes(n));
  if (needed.length > 0) return `hold ${listed(needed)}`;
  if (plan.numbers.every((n) => !there.includes(n.name))) return `hold one of ${listed(plan.numbers.map((n) => n.name))}`;
  return { width: there.length, at: wanted.map((n) => there.indexOf(n)) };
}

/** Which rule of matching would take a header that is not exact. */
function remedy(absent: readonly string[], extra: readonly string[]): string {
  const rule: FieldsMatch | null = absent.length === 0 ? (extra.length === 0 ? "equal" : "subset") : extra.length === 0 ? "superset" : null;
  return rule === null ? "" : `, or fieldsMatch be "${rule}"`;
}

/** Names for a sentence, cut where there are many. */
export function listed(names: readonly string[]): string {
  const text = names.slice(0, 12).map((n) => (n.length > 30 ? `${n.slice(0, 27)}...` : n)).join(", ");
  return names.length > 12 ? `${text} and ${names.length - 12} more` : text;
}
