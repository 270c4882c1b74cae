import { RecordError } from "../../ground/complaint.js";
import type { AirRecord } from "../../record/airRecord.js";
import type { Description } from "../../record/description/description.js";
import { recordPaths } from "../../record/description/planRecord.js";
import { pathText } from "../../record/description/faults.js";
import { type ExposureGuess, exposureGuess } from "./exposureGuess.js";
import { logGroups, partedByFiles } from "./logGroups.js";
import type { Guess, LogSample, Question } from "./logSample.js";
import { type LogTable, logTable } from "./logTable.js";
import { markedGroups } from "./markedGroups.js";
import { lonePlace, placesDraft } from "./placesDraft.js";
import { type ResourceDraft, resourceDraft } from "./resourceDraft.js";
import { sampleRecord } from "./sampleRecord.js";
import { exposureQuestion, placeSwing, siteLines, siteQuestion, warmestHour } from "./siteWords.js";

/** A description drafted from unknown logs. */
export interface Draft {
  /** A datapackage.json that validates and by which the logs can be read. */
  readonly draft: Description;
  /** Everything it says that no one told, with the reason. */
  readonly guesses: readonly Guess[];
  /** What only the owner knows; they stand in the draft too. */
  readonly questions: readonly { readonly path: string; readonly ask: string }[];
  /** The logs as the draft reads them, as far as they were looked at. */
  readonly record: AirRecord;
  /** Logs that could not be described: one complaint each. */
  readonly failures: readonly RecordError[];
}

/**
 * Drafts the description of unknown text logs from their beginnings and ends.
 *
 * Delimiter, header, encoding, stamps, numbers, missing values, quantities, units and places are guessed from the lines, each with
 * its reason. What only the owner knows is asked: the questions stand in the draft, and `checkRecord` repeats them until the
 * value at their path is another than the drafted one, or their entry is taken out.
 *
 * @param samples      beginnings and ends of the logs; paths as the draft is to name them · at least one
 * @param options.name name of the record, default the first log's
 * @returns            see Draft
 * @throws RecordError when no log can be described, with the complaint about the first and the others
 * @example draftDescription([{ path: "card.txt", head: bytes, tail: null, bytes: bytes.length }]).draft.name // "card"
 * @source own method; ranges of unit and quantity: common practice, no source
 */
export function draftDescription(samples: readonly LogSample[], { name }: { name?: string } = {}): Draft {
  const failures: RecordError[] = [];
  const attempt = <T>(act: () => T): T[] => {
    try {
      return [act()];
    } catch (error) {
      if (!(error instanceof RecordError)) throw error;
      failures.push(error);
      return [];
    }
  };
  const tables: LogTable[] = samples.flatMap((s) => attempt(() => logTable(s)));
  const groups = logGroups(tables).flatMap((g) => (markedGroups(g) ? [g] : partedByFiles(g)));
  const used: string[] = [];
  const resources = groups.flatMap((g) => attempt(() => resourceDraft(g, resourceName(g.stem ?? commonName(g.tables.map((t) => t.text.path)), used))));
  if (resources.length === 0) {
    const [first, ...others] = failures;
    if (first === undefined) throw new RangeError("draftDescription: samples must hold at least one log (got none)");
    throw new RecordError(first.message, failures.some((f) => f.kind === "description") ? "description" : "data", first.where, others.map((f) => f.message));
  }
  return Object.freeze({ ...joined(resources, samples, slug(name ?? resources[0].resource.name), siteLines(tables.flatMap(titlesOf))), failures: Object.freeze(failures) });
}

/** The first lines of a log: its titles, and rows that name no coordinate. */
function titlesOf({ text }: LogTable): string[] {
  return text.head.slice(0, 40).flatMap((l) => (l === null ? [] : [l]));
}

/** What the names of files have in common at their beginning, without folders, endings and trailing numbers. */
function commonName(paths: readonly string[]): string {
  const bases = paths.map((p) => (p.split("/").pop() ?? p).replace(/\.[^.]*$/, ""));
  let common = bases[0];
  for (const base of bases) while (!base.startsWith(common)) common = common.slice(0, -1);
  return bases.length === 1 ? common : common.replace(/[\d\s._-]+$/, "") || bases[0];
}

function resourceName(from: string, used: string[]): string {
  const base = slug((from.split("/").pop() ?? from).replace(/\.[^.]*$/, "")) || "log";
  let own = base;
  for (let k = 2; used.includes(own); k++) own = `${base}-${k}`;
  used.push(own);
  return own;
}

/** Letters, digits, point, hyphen and underscore only, as names should be. */
function slug(text: string): string {
  return text.normalize("NFD").replace(/\p{M}/gu, "").toLowerCase().replace(/[^a-z0-9._-]+/g, "-").replace(/^[-.]+|[-.]+$/g, "") || "record";
}

function joined(found: readonly ResourceDraft[], samples: readonly LogSample[], name: string, told: readonly string[]): Omit<Draft, "failures"> {
  const places = placesDraft(found);
  const isOne = places.names.length === 1;
  const resources = found.map((r, i) => {
    const lone = places.lone[i];
    // One unnamed place among several: its numbers say so.
    if (lone === null || isOne) return r.resource;
    return { ...r.resource, schema: { ...r.resource.schema, fields: r.resource.schema.fields.map((f) => (f.quantity === undefined ? f : { ...f, place: lone })) } };
  });
  const base: Description = {
    $schema: "https://datapackage.org/profiles/2.0/datapackage.json",
    name,
    title: name,
    places: Object.fromEntries(places.names.map((p) => [p, { title: titleOf(p, found) }])),
    resources,
  };
  const record = sampleRecord(base, samples);
  const exposures = exposureGuess(places.names.map((p) => placeSwing(record, p)));
  const placed = Object.fromEntries(places.names.map((p, i) => [p, { title: titleOf(p, found), ...(exposures[i].exposure === null ? {} : { exposure: exposures[i].exposure }) }]));
  const guesses: Guess[] = [...placeGuesses(places.names, exposures), ...found.flatMap((r, i) => r.guesses.map((g) => ({ ...g, path: `resources[${i}].${g.path}` })))];
  guesses.push(...resources.flatMap((r, i) => lookedAt([r.path ?? []].flat(), samples).map((because) => ({ path: `resources[${i}].path`, because }))));
  for (const [i, lone] of places.lone.entries()) if (lone !== null && !isOne) guesses.push({ path: `resources[${i}].schema.fields`, because: `its rows were put down to ${lone}, because nothing in them names a place and it holds what others hold at the same time` });
  const questions: Question[] = [
    { path: "title", drafted: name, ask: "what shall the record be called?" },
    { path: "site", ask: siteQuestion(record, told) },
    ...places.names.flatMap((p, i) => (exposures[i].isTold ? [] : [exposureQuestion(p, exposures[i], titleOf(p, found))])),
    ...found.flatMap((r, i) => {
      const lone = places.lone[i];
      const hint = r.zone?.zone === "Z" ? warmestHour(record, lone === null ? r.places : [lone]) : "";
      return r.questions.map((q) => ({ ...q, path: `resources[${i}].${q.path}`, ask: q.path.endsWith(".zone") ? `${q.ask}${hint}` : q.ask }));
    }),
  ];
  const { resources: own, ...head } = { ...base, places: placed };
  // A draft with a fault of its own would be our mistake: say so here and not to the reader of it.
  const draft: Description = { ...head, questions: questions.map(({ path, drafted, ask }) => ({ path, ...(drafted === undefined ? {} : { drafted }), ask })), resources: own };
  recordPaths(draft);
  return { draft, guesses: Object.freeze(guesses), questions: Object.freeze(questions.map(({ path, ask }) => Object.freeze({ path, ask }))), record };
}

/** How much of the logs of a resource was looked at, where it was not all. */
function lookedAt(paths: readonly string[], samples: readonly LogSample[]): string[] {
  const own = samples.filter((s) => s.tail !== null && paths.includes(s.path));
  if (own.length === 0) return [];
  const sum = (of: (s: LogSample) => number): string => `${Number((own.reduce((n, s) => n + of(s), 0) / 1e6).toPrecision(2))} MB`;
  const whose = own.length === 1 ? own[0].path : `${own.length} of the files`;
  return [`of ${whose}, ${sum((s) => s.bytes)}, the beginning (${sum((s) => s.head.length)}) and the end (${sum((s) => s.tail?.length ?? 0)}) were looked at, and nothing between; lines of the end are numbered on from those of the beginning`];
}

function titleOf(place: string, found: readonly ResourceDraft[]): string {
  return found.map((r) => r.marked[place]).find((t) => t !== undefined) ?? (place === lonePlace ? "Logger" : place);
}

function placeGuesses(names: readonly string[], exposures: readonly ExposureGuess[]): Guess[] {
  return names.flatMap((p, i) => (exposures[i].exposure === null ? [] : [{ path: pathText(["places", p, "exposure"]), because: exposures[i].because }]));
}
