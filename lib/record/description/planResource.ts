import { zoneFault, type Zone, zoneNamed } from "../../ground/zone.js";
import { isEncoding } from "../line/encoding.js";
import type { Faults } from "./faults.js";
import { pathFault } from "./pathFault.js";
import type { FieldsMatch, ResourcePlan } from "./plan.js";
import { planCorrections } from "./planCorrections.js";
import { planDialect } from "./planDialect.js";
import { planNumber } from "./planNumber.js";
import { planPlaces } from "./planPlaces.js";
import { planStamps } from "./planStamps.js";
import type { FieldDescription, ResourceDescription, Surroundings } from "./surroundings.js";

/** Checks one resource and makes it ready to read by. Faults are collected; a plan with faults is not to be used. */
export function planResource(r: ResourceDescription, at: string, about: Surroundings): ResourcePlan {
  const { faults } = about;
  const fields: FieldDescription[] = (r.schema?.fields ?? []).map((f) => f ?? {});
  const where = (k: number): string => `${at}.schema.fields[${k}]`;
  checkProperties(r, at, faults);
  for (const [k, f] of fields.entries()) {
    if (f.name !== undefined && fields.findIndex((other) => other.name === f.name) < k) faults.add(`${where(k)}.name`, "be unlike those before it", f.name);
  }
  const numbers = fields.flatMap((f, k) => (f.quantity === undefined ? [] : [planNumber(f, k, where(k), r.schema?.missingValues, about)]));
  if (numbers.length === 0 && fields.length > 0) faults.say(`${at}.schema.fields`, "hold a number field with a quantity", "none");
  const { stamps, zoneText, zonePath, hasOwnOffset } = planStamps(fields, `${at}.schema.fields`, r.sampling?.averagedOver !== undefined, faults);
  const zone = zoneFrom(zoneText, zonePath, hasOwnOffset, faults);
  const { who, places, isWide } = planPlaces(fields, numbers, `${at}`, about);
  const told = r.schema?.fieldsMatch;
  const { sampling } = r;
  if (fields.some((f) => (f as Record<string, unknown>).constraints !== undefined)) about.notes.push(`${at}: constraints on fields are not checked`);
  return {
    name: r.name ?? "",
    paths: planPaths(r, at, faults),
    encoding: r.encoding ?? null,
    ...planDialect(r.dialect ?? {}, `${at}.dialect`, about),
    fieldsMatch: (Array.isArray(told) ? told[0] : told) ?? ("exact" satisfies FieldsMatch),
    fieldNames: fields.map((f) => f.name ?? ""),
    neededFields: [...stamps.map((s) => s.field), ...(who === null ? [] : [who.field])],
    stamps,
    who,
    numbers,
    places,
    isWide,
    zone,
    zonePath,
    corrections: planCorrections(about.clock, "clock", zone, faults),
    placeCorrections: new Map(Object.entries(about.placeClocks).map(([place, clock]) => [place, planCorrections(clock, `places.${place}.clock`, zone, faults)])),
    averagedOver: sampling?.averagedOver ?? 0,
    stampShift: sampling?.averagedOver === undefined || sampling.stamp === "middle" ? 0 : (sampling.stamp === "start" ? 500 : -500) * sampling.averagedOver,
  };
}

/** Properties of the standard that mean work we do not do, refused by name. */
function checkProperties(r: ResourceDescription, at: string, faults: Faults): void {
  const raw = r as Record<string, unknown>;
  if (raw.data !== undefined) faults.add(`${at}.data`, "not be used", raw.data, "put the rows in a file and name it in path");
  if (raw.clock !== undefined) faults.add(`${at}.clock`, "not be used", raw.clock, "write it on the place whose logger it was, or on the record for all of them");
  if (raw.compression !== undefined) faults.add(`${at}.compression`, "not be used", raw.compression, "unpack the file first");
  if (typeof raw.format === "string" && /^(json|jsonl|ndjson|xlsx?|ods|parquet|gpkg|sqlite|zip|gz)$/i.test(raw.format)) {
    faults.add(`${at}.format`, "be delimited text such as csv", raw.format, "write the table out as text first");
  }
  if (r.encoding !== undefined && !isEncoding(r.encoding)) {
    faults.add(`${at}.encoding`, "be one that this machine can read", r.encoding, "write utf-8, utf-16le, iso-8859-1, windows-1252 or another name of the Encoding Standard");
  }
  const match = r.schema?.fieldsMatch;
  if (Array.isArray(match) && match.length > 1) faults.add(`${at}.schema.fieldsMatch`, "be one rule", match.join(", "));
}

function planPaths(r: ResourceDescription, at: string, faults: Faults): readonly string[] {
  const { path } = r;
  if (path === undefined) {
    if ((r as Record<string, unknown>).data === undefined) faults.add(`${at}.path`, "name the log", undefined);
    return [];
  }
  const paths = Array.isArray(path) ? path : [path];
  for (const [k, p] of paths.entries()) {
    const wrong = typeof p === "string" ? pathFault(p) : null;
    const place = Array.isArray(path) ? `${at}.path[${k}]` : `${at}.path`;
    if (wrong !== null) faults.add(place, `be inside the record's folder, not ${wrong}`, p);
    else if (paths.indexOf(p) < k) faults.add(place, "be unlike those before it", p);
  }
  return paths;
}

function zoneFrom(text: string | undefined, path: string, hasOwnOffset: boolean, faults: Faults): Zone | null {
  if (text === undefined) {
    if (!hasOwnOffset) faults.add(path, "be given, because the values carry no offset", undefined, 'write the offset of the logger\'s clock, such as "+07:00", or an IANA name such as "Europe/London"');
    return null;
  }
  const zone = zoneNamed(text);
  if (zone === null) faults.tell(path, zoneFault(path, text));
  return zone;
}
