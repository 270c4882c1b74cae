import { parseIso } from "../../ground/instant.js";
import { Faults, pathText } from "./faults.js";
import { openQuestions } from "./openQuestions.js";
import type { EventPlan, PlacePlan, RecordPlan } from "./plan.js";
import { planResource } from "./planResource.js";
import type { Description } from "./description.js";
import { type ShapeFault, shapeFaults } from "./shape.js";

/** Name of the only place of a record whose description names none. */
const lonePlaceName = "here";

/**
 * Checks a description whole and makes it ready to read by; every fault is found before the first is told.
 *
 * @param document the parsed datapackage.json · unchanged
 * @throws RecordError kind `description`, with the first fault and the others
 * @source Data Package 2.0; where its published profile is laxer than its prose, the prose holds
 */
export function planRecord(document: unknown): RecordPlan {
  const faults = new Faults();
  const shape = shapeFaults(document);
  for (const { path, requirement, got } of shape) faults.add(pathText(path), requirement, got);
  if (shape.some(({ path }) => path.length === 0)) faults.throwIfAny();
  const description = whole(document, shape);
  const notes: string[] = [];
  const named = Object.entries(description.places ?? {}).map(([name, p]) => Object.freeze({ name, title: titleOf(name, description.places ?? {}), exposure: p?.exposure ?? null, elevation: p?.elevation ?? null }));
  const names = named.map((p) => p.name);
  const placeClocks = Object.fromEntries(Object.entries(description.places ?? {}).flatMap(([name, p]) => (p?.clock === undefined ? [] : [[name, p.clock]])));
  const resources = (description.resources ?? []).map((r, i) => planResource(r ?? {}, `resources[${i}]`, { places: names, lonePlace: names[0] ?? lonePlaceName, clock: description.clock, placeClocks, faults, notes }));
  for (const [i, r] of resources.entries()) {
    if (resources.findIndex((other) => other.name === r.name) < i) faults.add(`resources[${i}].name`, "be unlike those before it", r.name);
  }
  const events = (description.events ?? []).map((e, i) => planEvent(e ?? {}, `events[${i}]`, names, faults));
  faults.throwIfAny();
  const { name, title, site } = description;
  if (name === undefined) notes.unshift("the description has no name; one such as hill-school tells records apart");
  else if (!/^[a-z0-9._-]+$/.test(name)) notes.unshift(`the name "${name}" is best written in a–z, 0–9, point, hyphen and underscore`);
  const places: readonly PlacePlan[] =
    named.length > 0 ? named : [...new Set(resources.flatMap((r) => r.places))].map((p) => Object.freeze({ name: p, title: p, exposure: null, elevation: null }));
  return Object.freeze({
    name: name ?? "record",
    title: title ?? name ?? "record",
    site: site === undefined ? null : Object.freeze({ latitude: site.latitude, longitude: site.longitude, elevation: site.elevation }),
    places,
    events,
    corrections: [description.clock, ...Object.values(placeClocks)].reduce((sum, clock) => sum + (clock?.corrections?.length ?? 0), 0),
    resources,
    questions: openQuestions({ ...description, questions: (description.questions ?? []).filter((q) => typeof q?.path === "string" && typeof q.ask === "string") }),
    notes: Object.freeze(notes),
  });
}

/**
 * The paths of the logs that a description names, relative to its folder, in the order in which they are read.
 *
 * @param document    the parsed datapackage.json · unchanged
 * @returns           every path once a resource
 * @throws RecordError kind `description` when the description is faulty
 * @example recordPaths(description) // ["card-05.txt", "card-06.txt", "card-07.txt"]
 */
export function recordPaths(document: unknown): string[] {
  return planRecord(document).resources.flatMap((r) => r.paths);
}

/** A copy of the description without what is of the wrong shape, so that the rest can be judged too. */
function whole(document: unknown, shape: readonly ShapeFault[]): Partial<Description> {
  if (shape.length === 0) return document as Description;
  const copy = JSON.parse(JSON.stringify(document)) as Record<string | number, unknown>;
  for (const { path } of shape) {
    let parent = copy;
    for (const step of path.slice(0, -1)) parent = (parent[step] ?? {}) as Record<string | number, unknown>;
    if (Array.isArray(parent)) parent[path[path.length - 1] as number] = undefined;
    else delete parent[path[path.length - 1]];
  }
  return copy as Partial<Description>;
}

/** A place's title; of places that share one, with the name behind, so that every sentence says which it means. */
function titleOf(name: string, places: NonNullable<Description["places"]>): string {
  const title = places[name]?.title ?? name;
  const isShared = Object.entries(places).some(([other, p]) => other !== name && (p?.title ?? other) === title);
  return isShared && title !== name ? `${title} (${name})` : title;
}

function planEvent(e: Partial<NonNullable<Description["events"]>[number]>, at: string, names: readonly string[], faults: Faults): EventPlan {
  if (e.at !== undefined && (e.from !== undefined || e.to !== undefined)) faults.add(`${at}.at`, "stand alone, or from and to instead", e.at);
  else if (e.at === undefined && e.from === undefined) faults.add(`${at}.at`, "be given, or from and to", undefined);
  else if (e.from !== undefined && e.to === undefined) faults.add(`${at}.to`, "be given beside from", undefined);
  for (const key of ["at", "from", "to"] as const) {
    const text = e[key];
    if (text !== undefined && parseIso(text) === null) faults.add(`${at}.${key}`, "be a day or time that exists, such as 2024-06-20 or 2024-06-20T09:00", text);
  }
  const from = e.from === undefined ? null : parseIso(e.from);
  const to = e.to === undefined ? null : parseIso(e.to);
  if (from !== null && to !== null && to.civil < from.civil) faults.add(`${at}.to`, `not be before from, ${e.from}`, e.to);
  for (const [i, name] of (e.places ?? []).entries()) {
    if (names.length > 0 && !names.includes(name)) faults.add(`${at}.places[${i}]`, `be one of the places, ${names.join(", ")}`, name);
  }
  const places = e.places === undefined ? {} : { places: Object.freeze([...e.places]) };
  return Object.freeze({ at: e.at ?? e.from ?? "", to: e.to ?? null, kind: e.kind ?? null, title: e.title ?? e.kind ?? "", ...places });
}
