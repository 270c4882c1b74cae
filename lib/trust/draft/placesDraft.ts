import type { ResourceDraft } from "./resourceDraft.js";
import { stemOf } from "./logGroups.js";
import { placeName } from "./placeColumns.js";

/** Which place the rows of each resource belong to, where nothing inside it tells. */
export interface PlacesDraft {
  /** All places of the record in the order met. */
  readonly names: readonly string[];
  /** By resource: name for its lone place, or null where its columns or rows tell themselves. */
  readonly lone: readonly (string | null)[];
}

/** Name of the only place of a record that nothing names. */
export const lonePlace = "here";

/**
 * Names the places of a record: resources of one unnamed place each are the same place where they hold different quantities
 * or different times, and different places where they hold the same quantity at the same time.
 */
export function placesDraft(resources: readonly ResourceDraft[]): PlacesDraft {
  const names: string[] = resources.flatMap((r) => r.places).filter((p, i, all) => all.indexOf(p) === i);
  const lone: (string | null)[] = [];
  const open: { name: string; members: ResourceDraft[] }[] = [];
  for (const r of resources) {
    if (r.places.length > 0) {
      lone.push(null);
      continue;
    }
    const home = open.find((o) => !o.members.some((m) => isRival(m, r)));
    if (home !== undefined) {
      home.members.push(r);
      lone.push(home.name);
      continue;
    }
    const paths = typeof r.resource.path === "string" ? [r.resource.path] : (r.resource.path ?? []);
    let name = placeName(stemOf(paths[0] ?? "")) || lonePlace;
    for (let k = 2; names.includes(name) || open.some((o) => o.name === name); k++) name = `${placeName(stemOf(paths[0] ?? "")) || lonePlace}-${k}`;
    open.push({ name, members: [r] });
    lone.push(name);
  }
  const isAlone = open.length === 1 && names.length === 0;
  if (isAlone) open[0].name = lonePlace;
  return { names: [...names, ...open.map((o) => o.name)], lone: lone.map((l) => (l !== null && isAlone ? lonePlace : l)) };
}

/** Same quantity at the same time. */
function isRival(a: ResourceDraft, b: ResourceDraft): boolean {
  const overlap = Math.min(a.to, b.to) - Math.max(a.from, b.from);
  return a.quantities.some((q) => b.quantities.includes(q)) && overlap > 0.1 * Math.min(a.to - a.from, b.to - b.from);
}
