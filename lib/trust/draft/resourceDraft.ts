import { RecordError } from "../../ground/complaint.js";
import type { FieldShape, ResourceShape } from "../../record/description/description.js";
import { type ColumnSense, rawColumn } from "./columnSense.js";
import { madeNames, plainName, readingField, stampField } from "./fieldDraft.js";
import { type LogGroup, spanOfTimes } from "./logGroups.js";
import type { Guess, Question } from "./logSample.js";
import { type MarkerGuess, markerGuess } from "./markerGuess.js";
import { missingDraft } from "./missingDraft.js";
import { numberGuess } from "./numberGuess.js";
import { placeColumns, type PlaceColumns, placeName } from "./placeColumns.js";
import { quantityGuess } from "./quantityGuess.js";
import { plainWord } from "./quantityVocabulary.js";
import { dayQuestion, headerReason, pathReason, rivalQuestion, samplingQuestion, usualStep, zoneQuestion } from "./resourceWords.js";
import { isDayAlone } from "./stampGuess.js";
import { refuseTidy } from "./tidyTable.js";
import { type ZoneGuess, zoneClues } from "./zoneClues.js";

/** One resource of a draft, with what was learned of its places. */
export interface ResourceDraft {
  readonly resource: ResourceShape;
  /** Paths begin at the resource: `schema.fields[1].unit`. */
  readonly guesses: readonly Guess[];
  readonly questions: readonly Question[];
  /** What is written for each place in a long layout, by the place's name. */
  readonly marked: Readonly<Record<string, string>>;
  /** Places of the resource; empty when it is of one place that nothing names. */
  readonly places: readonly string[];
  /** Quantities of the lone place. */
  readonly quantities: readonly string[];
  /** Usual step of one place · s. */
  readonly step: number;
  /** First and last civil time · epoch ms as if UTC. */
  readonly from: number;
  readonly to: number;
  readonly zone: ZoneGuess | null;
}

/** Drafts the resource of a group of logs. @throws RecordError when nothing in it is a reading of the air */
export function resourceDraft(group: LogGroup, name: string): ResourceDraft {
  const { model, tables } = group;
  const rows = tables.flatMap((t) => t.rows);
  const times = Float64Array.from(tables.flatMap((t) => Array.from(t.times)));
  const { width } = model.delimiter;
  const told = model.preamble.names;
  const cells = Array.from({ length: width }, (_, c) => rows.map((r) => r[c] ?? ""));
  const stampColumns = new Set(model.stamps.fields.map((f) => f.column));
  const others = cells.map((_, c) => c).filter((c) => !stampColumns.has(c));
  const numbers = cells.map((texts, c) => (stampColumns.has(c) ? null : numberGuess(texts)));
  const labels = others.filter((c) => numbers[c] === null || (cells[c].every((t) => /^\d{1,6}$/.test(t)) && new Set(cells[c]).size <= 24));
  const marker = markerGuess(rows, times, labels, told ?? []);
  refuseTidy(tables[0].text.path, marker, cells, labels);
  const compared = marker === null ? rows.map((_, i) => i) : rows.flatMap((r, i) => (r[marker.column] === marker.texts[0] ? [i] : []));
  const raws = others.filter((c) => c !== marker?.column).map((c) => rawColumn(c, told?.[c] ?? "", model.preamble.units?.[c] ?? "", numbers[c], compared));
  const senses = quantityGuess(raws, compared, times);
  if (senses.every((s) => s.quantity === null)) {
    const why = senses.map((s) => `column ${s.column + 1}: ${s.because}`).slice(0, 4).join("; ");
    throw new RecordError(`${tables[0].text.path} must hold temperature, humidity or air pressure (got none that could be told: ${why})`, "data", { file: tables[0].text.path });
  }
  const columns = marker === null ? ownColumns(senses, group) : { placeOf: senses.map(() => ""), reasons: senses.map(() => ""), places: [] };
  const shown = marker === null ? senses : senses.map((s, k) => doubled(s, senses.slice(0, k)));
  const zone = model.stamps.hasOffset ? null : zoneClues(tables, [...(told === null ? [] : [...stampColumns].map((c) => told[c] ?? "")), ...model.stamps.fields.map((f) => f.form.format ?? ""), ...tables[0].text.head.slice(0, 12).map((l) => (l !== null && !/^\d/.test(l) && l.length < 200 ? l : ""))]);
  return assembled({ group, name, senses: shown, cells, marker, columns, zone, rows: compared, times });
}

/** Places of columns: the file's own place where files part them, else by the columns' names. */
function ownColumns(senses: readonly ColumnSense[], { stem, because }: LogGroup): PlaceColumns {
  const columns = placeColumns(senses);
  if (stem === null) return columns;
  const placeOf = senses.map((s, k) => (s.quantity === null ? "" : columns.places.length === 0 ? stem : `${stem}-${columns.placeOf[k]}`));
  return { placeOf, reasons: senses.map((_, k) => [because, columns.reasons[k]].filter((r) => r !== "").join("; ")), places: [...new Set(placeOf)].filter((p) => p !== "") };
}

interface Found {
  readonly group: LogGroup;
  readonly name: string;
  readonly senses: readonly ColumnSense[];
  readonly cells: readonly (readonly string[])[];
  readonly marker: MarkerGuess | null;
  readonly columns: PlaceColumns;
  readonly zone: ZoneGuess | null;
  readonly rows: readonly number[];
  readonly times: Float64Array;
}

function assembled({ group, name, senses, cells, marker, columns, zone, rows, times }: Found): ResourceDraft {
  const { model, tables } = group;
  const { preamble, stamps, delimiter, text } = model;
  const guesses: Guess[] = [];
  const questions: Question[] = [];
  const missing = missingDraft(senses, (s) => cells[s.column]);
  const senseAt = (c: number): number => senses.findIndex((s) => s.column === c);
  const kindOf = (c: number): string => {
    const stamp = stamps.fields.find((f) => f.column === c);
    if (stamp !== undefined) return stamp.form.kind === "datetime" ? "when" : stamp.form.kind;
    return c === marker?.column ? "place" : plainName(senses[senseAt(c)], c, columns.placeOf[senseAt(c)] ?? "");
  };
  const names = preamble.hasHeader && preamble.names !== null ? [...preamble.names] : madeNames(cells.length, kindOf, preamble.names);
  const marked: Record<string, string> = {};
  for (const t of marker?.texts ?? []) marked[unlike(placeName(plainWord(t)) || "place", marked)] = t;
  const fields = names.map((field, c): FieldShape => {
    const at = `schema.fields[${c}]`;
    const stamp = stamps.fields.findIndex((f) => f.column === c);
    if (stamp >= 0) {
      const { form } = stamps.fields[stamp];
      guesses.push({ path: form.format === null ? `${at}.type` : `${at}.format`, because: stamp === 0 ? stamps.because : "it reads every row" });
      if (stamp === 0 && stamps.rivals.length > 0) questions.push({ path: `${at}.format`, drafted: form.format ?? "", ask: rivalQuestion(form.format ?? "", stamps.rivals, cells[c][0]) });
      if (stamp === stamps.fields.length - 1 && zone !== null) {
        guesses.push({ path: `${at}.zone`, because: zone.because });
        if (!zone.isTold) questions.push({ path: `${at}.zone`, drafted: zone.zone, ask: zoneQuestion(zone.zone) });
        return stampField(field, form, zone.zone);
      }
      return stampField(field, form, null);
    }
    if (c === marker?.column) {
      guesses.push({ path: `${at}.role`, because: marker.because });
      return { name: field, type: "string", role: "place", values: Object.fromEntries(Object.entries(marked).map(([place, written]) => [written, place])) };
    }
    const k = senseAt(c);
    const sense = senses[k];
    if (sense.quantity === null) guesses.push({ path: at, because: `not read: ${sense.because}` });
    else {
      guesses.push({ path: `${at}.quantity`, because: sense.because }, { path: `${at}.unit`, because: sense.unitBecause });
      if (sense.number !== null && (sense.number.style.decimalChar !== "." || sense.number.style.groupChar !== "" || !sense.number.style.bareNumber)) guesses.push({ path: `${at}.${sense.number.style.decimalChar !== "." ? "decimalChar" : sense.number.style.groupChar !== "" ? "groupChar" : "bareNumber"}`, because: sense.number.because });
      if (columns.placeOf[k] !== "") guesses.push({ path: `${at}.place`, because: columns.reasons[k] });
      if (sense.unitDoubt !== null) questions.push({ path: `${at}.unit`, drafted: sense.unit, ask: sense.unitDoubt });
      if (sense.quantityDoubt !== null) questions.push({ path: `${at}.quantity`, drafted: sense.quantity, ask: sense.quantityDoubt });
    }
    return readingField(field, sense, columns.placeOf[k], missing.own[k]);
  });
  for (const [k, because] of missing.reasons) guesses.push({ path: k < 0 ? "schema.missingValues" : `schema.fields[${senses[k].column}].missingValues`, because });
  const { style } = delimiter;
  const dialect: NonNullable<ResourceShape["dialect"]> = {
    delimiter: style.delimiter,
    header: preamble.hasHeader,
    ...(preamble.headerRow === null ? {} : { headerRows: [preamble.headerRow] }),
    ...(preamble.commentRows.length === 0 ? {} : { commentRows: [...preamble.commentRows] }),
    ...(preamble.commentChar === "" ? {} : { commentChar: preamble.commentChar }),
    ...(style.quoteChar === '"' ? {} : { quoteChar: style.quoteChar }),
    ...(style.skipInitialSpace ? { skipInitialSpace: true } : {}),
  };
  const step = usualStep(rows, times);
  const paths = tables.map((t) => t.text.path);
  guesses.unshift(
    { path: "path", because: pathReason(group, step) },
    ...(text.encoding === null ? [] : [{ path: "encoding", because: text.because }]),
    { path: "dialect.delimiter", because: delimiter.because },
    { path: "dialect.header", because: headerReason(group) },
    ...(preamble.commentChar === "" ? [] : [{ path: "dialect.commentChar", because: `lines that begin with ${preamble.commentChar} are no rows` }]),
  );
  questions.push({ path: "sampling", ask: isDayAlone(stamps.fields) ? dayQuestion : samplingQuestion(step) });
  const resource: ResourceShape = {
    name,
    type: "table",
    path: paths.length === 1 ? paths[0] : paths,
    ...(text.encoding === null ? {} : { encoding: text.encoding }),
    dialect,
    schema: { fields, missingValues: [...missing.shared] },
  };
  const places = marker === null ? columns.places : Object.keys(marked);
  const quantities = senses.flatMap((s) => (s.quantity === null ? [] : [s.quantity]));
  const { from, to } = spanOfTimes(times);
  return { resource, guesses, questions, marked, places, quantities, step, from, to, zone };
}

/** In a long layout a place has one column of each quantity: a second is not read. */
function doubled(sense: ColumnSense, before: readonly ColumnSense[]): ColumnSense {
  const twin = before.find((b) => b.quantity !== null && b.quantity === sense.quantity);
  return twin === undefined ? sense : { ...sense, quantity: null, because: `it is a second column of what column ${twin.column + 1} holds` };
}

function unlike(name: string, taken: Readonly<Record<string, string>>): string {
  let own = name;
  for (let k = 2; own in taken; k++) own = `${name}-${k}`;
  return own;
}
