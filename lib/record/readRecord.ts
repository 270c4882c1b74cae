import { RecordError } from "../ground/complaint.js";
import { changesBetween, zoneNamed } from "../ground/zone.js";
import type { AirRecord, FileAccount, PlaceRecord, RecordEvent } from "./airRecord.js";
import { instantIn } from "./civilText.js";
import { planRecord, type RecordPlan } from "./description/plan.js";
import { mergeRows, type MergedRows } from "./mergeRows.js";
import { houseUnit, type Quantity } from "./quantity.js";
import { ResourceReader } from "./resourceReader.js";
import type { Series } from "./series.js";

/** A log as the reader takes it: the path as the description has it, and its bytes in chunks. */
export interface LogFile {
  readonly path: string;
  readonly chunks: AsyncIterable<Uint8Array> | Iterable<Uint8Array>;
}

/**
 * Reads a record: one pass over its logs, every line accounted for.
 *
 * @param document the parsed datapackage.json
 * @param open     gives the bytes of a log by the path in the description; called once a path, in order
 * @returns        the record, frozen, in house units and UTC
 * @throws RecordError kind `description` when the description is faulty, kind `data` when no reading was accepted
 * @example await readRecord(description, (path) => [bytesOf(path)])
 */
export async function readRecord(document: unknown, open: (path: string) => LogFile["chunks"]): Promise<AirRecord> {
  const plan = planRecord(document);
  const readers: ResourceReader[] = [];
  for (const resource of plan.resources) {
    const reader = new ResourceReader(resource);
    readers.push(reader);
    for (const path of resource.paths) {
      const file = reader.file(path);
      for await (const chunk of open(path)) file.push(chunk);
      file.end();
    }
  }
  return assemble(plan, readers);
}

function assemble(plan: RecordPlan, readers: readonly ResourceReader[]): AirRecord {
  const { description } = plan;
  const files = readers.flatMap((r) => r.accounts);
  if (files.every((f) => f.accepted === 0)) throw nothingAccepted(files, plan);
  const places: Record<string, PlaceRecord> = {};
  const jumps = [];
  for (const name of plan.placeNames) {
    const merged = mergeRows(name, readers.flatMap((r) => r.stores.get(name) ?? []));
    const told = description.places?.[name];
    places[name] = placeRecord(name, told?.title ?? name, told?.exposure ?? null, told?.elevation ?? null, merged);
    jumps.push(...merged.jumps);
  }
  const span = spanOf(places);
  const zoneText = plan.resources[0].zone?.name ?? "Z";
  const zone = zoneNamed(zoneText);
  const notes = [...plan.notes];
  const skippedRows = readers.reduce((n, r) => n + r.skippedHourRows, 0);
  if (skippedRows > 0) notes.push(`${skippedRows} rows are stamped in an hour that the clocks skipped; the zone ${zoneText} may not be the logger's`);
  return Object.freeze({
    name: description.name ?? "record",
    title: description.title ?? description.name ?? "",
    site: description.site === undefined ? null : Object.freeze({ latitude: description.site.latitude, longitude: description.site.longitude, elevation: description.site.elevation }),
    zone: zoneText,
    places: Object.freeze(places),
    events: Object.freeze(events(plan)),
    files: Object.freeze(files),
    jumps: Object.freeze(jumps),
    zoneChanges: Object.freeze(zone === null ? [] : changesBetween(zone, span.from, span.to)),
    corrections: description.clock?.corrections?.length ?? 0,
    averagedOver: Math.max(...plan.resources.map((r) => r.averagedOver)),
    ...span,
    notes: Object.freeze(notes),
  });
}

/** A place from its merged rows; all its series share one time axis. */
function placeRecord(name: string, title: string, exposure: PlaceRecord["exposure"], elevation: number | null, rows: MergedRows): PlaceRecord {
  const n = rows.times.length;
  const start = n === 0 ? 0 : rows.times[0];
  const seconds = rows.times.map((t) => (t - start) / 1000);
  const flags = new Uint16Array(n);
  const series: Partial<Record<Quantity, Series>> = {};
  for (const [c, quantity] of rows.quantities.entries()) {
    series[quantity] = Object.freeze({ place: name, quantity, unit: houseUnit[quantity], start, seconds, values: rows.columns[c], flags });
  }
  return Object.freeze({ name, title, exposure, elevation, readings: n, repeated: rows.repeated, conflicting: rows.conflicting, start, seconds, series: Object.freeze(series) });
}

/** First and last instant over all places · epoch ms. */
export function spanOf(places: Readonly<Record<string, PlaceRecord>>): { from: number; to: number } {
  let from = Infinity;
  let to = -Infinity;
  for (const p of Object.values(places)) {
    if (p.readings === 0) continue;
    from = Math.min(from, p.start);
    to = Math.max(to, p.start + 1000 * p.seconds[p.readings - 1]);
  }
  return { from, to };
}

function events(plan: RecordPlan): RecordEvent[] {
  const zone = plan.resources[0].zone;
  return (plan.description.events ?? []).map((e, i) => {
    const at = instantIn(e.at ?? e.from ?? "", zone);
    const to = e.to === undefined ? null : instantIn(e.to, zone);
    if (at === null || (e.to !== undefined && to === null)) {
      throw new RecordError(`events[${i}] must have a time that exists, such as 2024-06-20 (got "${at === null ? (e.at ?? e.from ?? "nothing") : e.to}")`, "description");
    }
    return Object.freeze({ at, to, kind: e.kind ?? null, title: e.title ?? "" });
  });
}

function nothingAccepted(files: readonly FileAccount[], plan: RecordPlan): RecordError {
  const file = files.find((f) => f.rejected.length > 0);
  const where = file ?? files[0];
  if (file === undefined) return new RecordError(`${where.path} must hold at least one row (got ${where.lines} lines, none of them data)`, "data", { file: where.path });
  const first = file.rejected[0];
  const kind = first.reason.startsWith("the time has no offset") ? "description" : "data";
  const hint = kind === "description" ? `; give ${plan.resources[0].zonePath}` : "";
  return new RecordError(`${file.path} must hold a row that can be read (got ${file.rejected.length} rejected of ${file.lines} lines; line ${first.line}: ${first.reason})${hint}`, kind, { file: file.path, line: first.line });
}
