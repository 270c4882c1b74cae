import { changesBetween, zoneNamed } from "../ground/zone.js";
import type { AirRecord, ClockJump, Disorder, FileAccount, PlaceRecord, RecordEvent, ZoneChange } from "./airRecord.js";
import { instantIn } from "./civilText.js";
import type { RecordPlan } from "./description/plan.js";
import { emptyRecordError } from "./emptyRecordError.js";
import { placeRecord, spanOf } from "./placeRecord.js";
import { quantityWords } from "./quantity.js";
import type { ResourceReader } from "./resourceReader.js";
import { mergeRows, type MergedRows } from "./rows/mergeRows.js";

/** Puts together what the files of a record gave. @throws RecordError when no row was accepted */
export function assembleRecord(plan: RecordPlan, readers: readonly ResourceReader[], files: readonly FileAccount[]): AirRecord {
  if (files.every((f) => f.accepted === 0)) throw emptyRecordError(plan, readers, files);
  const notes = [...plan.notes, ...readers.flatMap((r) => r.notes)];
  const places: Record<string, PlaceRecord> = {};
  const jumps: ClockJump[] = [];
  const disorder: Disorder[] = [];
  for (const place of plan.places) {
    const rows = mergeRows(place.name, readers.flatMap((r) => r.stores.get(place.name) ?? []));
    places[place.name] = placeRecord(place, rows);
    jumps.push(...rows.jumps);
    if (rows.firstLate !== null) disorder.push(Object.freeze({ place: place.name, rows: rows.lateRows, stretches: rows.lateStretches, ...rows.firstLate }));
    notes.push(...notesOn(place.name, rows));
  }
  const span = spanOf(places);
  const inSkippedHours = readers.reduce((n, r) => n + r.inSkippedHours, 0);
  const zoneText = recordZone(plan, readers);
  const zones = new Set([zoneText, ...plan.resources.flatMap((r) => (r.zone === null ? [] : [r.zone.name]))]);
  return Object.freeze({
    name: plan.name,
    title: plan.title,
    site: plan.site,
    zone: zoneText,
    places: Object.freeze(places),
    events: eventsOf(plan, zoneText),
    files: Object.freeze([...files]),
    jumps: Object.freeze(jumps.sort((a, b) => a.at - b.at)),
    ...(disorder.length === 0 ? {} : { disorder: Object.freeze(disorder) }),
    zoneChanges: Object.freeze(changesOf([...zones], span.from, span.to)),
    ...(inSkippedHours === 0 ? {} : { inSkippedHours }),
    corrections: plan.corrections,
    averagedOver: Math.max(...plan.resources.map((r) => r.averagedOver)),
    ...span,
    ...(plan.questions.length === 0 ? {} : { questions: plan.questions }),
    notes: Object.freeze([...new Set(notes)]),
  });
}

function notesOn(place: string, rows: MergedRows): string[] {
  if (rows.times.length === 0) return [`${place} has no reading`];
  const notes: string[] = [];
  for (const [c, q] of rows.quantities.entries()) {
    if (rows.columns[c].every(Number.isNaN)) notes.push(`${place} has no value of ${quantityWords[q]}`);
  }
  if (rows.lateRows > 0) notes.push(`${place}: ${rows.lateRows === 1 ? "1 row stood" : `${rows.lateRows} rows stood`} out of order in the log and ${rows.lateRows === 1 ? "was" : "were"} put in place`);
  if (rows.newestFirstFiles > 0) notes.push(`${place}: ${rows.newestFirstFiles === 1 ? "1 file runs" : `${rows.newestFirstFiles} files run`} from newest to oldest; clock jumps cannot be seen in it`);
  return notes;
}

/** Zone of the record's civil times: that of the first resource, else the offset that its first stamp carried. */
function recordZone(plan: RecordPlan, readers: readonly ResourceReader[]): string {
  const told = plan.resources[0].zone?.name;
  if (told !== undefined) return told;
  const minutes = readers.map((r) => r.firstOffset).find((m) => !Number.isNaN(m)) ?? 0;
  if (minutes === 0) return "Z";
  const two = (n: number): string => String(n).padStart(2, "0");
  return `${minutes < 0 ? "-" : "+"}${two(Math.floor(Math.abs(minutes) / 60))}:${two(Math.abs(minutes) % 60)}`;
}

function eventsOf(plan: RecordPlan, zoneText: string): readonly RecordEvent[] {
  const zone = zoneNamed(zoneText);
  const isBareDay = (text: string): boolean => /^\d{4}-\d{2}-\d{2}$/.test(text.trim());
  return Object.freeze(
    plan.events.map(({ at, to, kind, title, places }) => {
      // A period that ends with a bare day lasts to the end of that day.
      const end = to === null ? null : (instantIn(isBareDay(to) ? `${to.trim()}T24:00:00` : to, zone) as number);
      return Object.freeze({ at: instantIn(at, zone) as number, to: end, kind, title, ...(places === undefined ? {} : { places }) });
    }),
  );
}

function changesOf(zones: readonly string[], from: number, to: number): ZoneChange[] {
  const all = zones.flatMap((name) => {
    const zone = zoneNamed(name);
    return zone === null ? [] : changesBetween(zone, from, to);
  });
  return all.filter((c, i) => all.findIndex((d) => d.at === c.at && d.seconds === c.seconds) === i).sort((a, b) => a.at - b.at);
}
