import type { CheckAnswer } from "../answers/checkRecord.js";
import { faultWords } from "../answers/faultWords.js";
import { recordView } from "../answers/recordView.js";
import { counted, spanInWords } from "../answers/words.js";
import type { AirRecord } from "../record/airRecord.js";
import { flagBit, flagNames, leftOut } from "../record/flag.js";
import { quantityWords } from "../record/quantity.js";
import { standardTime } from "./axisTime.js";
import { type Figure, plainText } from "./figure.js";
import { placeLooks } from "./placeLook.js";
import { axesOf, type Panel, sheet } from "./sheet.js";
import { type FigureOptions, type Palette, paletteOf } from "./theme.js";
import { namedScale, timeScale, timeTitle } from "./tickScale.js";
import type { MarkerSymbol, ScatterTrace } from "./trace.js";

/** Spans nearer than this share of the width are drawn as one. */
const nearest = 1 / 400;
/** Marks of all rows together: the figure stays below 200 kB. */
const mostMarks = 2000;
const rowHeight = 20;

interface Span {
  readonly from: number;
  readonly to: number;
  readonly text: string;
}

interface Row {
  readonly label: string;
  readonly spans: readonly Span[];
  readonly color: string;
  readonly symbol: MarkerSymbol;
}

/**
 * The trust timeline: when there were gaps, faults and jumps of the clock, kind by kind and place by place.
 *
 * A bar runs from the first to the last reading concerned; what is shorter than a bar is wide is a mark. Marks nearer than a 400th of the
 * record (more where there are many kinds) are drawn as one: the table has each kind's count.
 *
 * @param record  for titles and events
 * @param answer  from `checkRecord`
 * @param options theme
 * @returns       a frozen Figure
 * @example trustFigure(record, checkRecord(record)).message
 */
export function trustFigure(record: AirRecord, answer: CheckAnswer, options: FigureOptions = {}): Figure {
  const palette = paletteOf(options.theme);
  const { offsetHours, titles } = recordView(record);
  const groups = placeLooks(record, palette).map((look) => ({ heading: look.title, rows: placeRows(look.place.name, record, answer, palette) }));
  const shared = sharedRows(record, answer, palette);
  if (shared.length > 0) groups.push({ heading: "The civil clock and the house", rows: shared });
  const panels: Panel[] = groups.map(({ heading, rows }) => ({
    heading: rows.length === 0 ? `${heading}: nothing found` : heading,
    y: namedScale([Math.max(1, rows.length) - 0.5, -0.5], rows.length === 0 ? [[0, "–"]] : rows.map((row, i) => [i, row.label] as const)),
    height: rowHeight * Math.max(1, rows.length),
    grid: { x: true, y: true },
  }));
  const rowCount = groups.reduce((n, { rows }) => n + rows.length, 0);
  const least = (record.to - record.from) * Math.max(nearest, rowCount / mostMarks);
  const data = groups.flatMap(({ rows }, k) => rows.map((row, i) => traceOf(row, i, axesOf(panels, k), least, offsetHours)));
  const counts = Object.entries(answer.places).map(([name, p]) => {
    const kinds = flagNames.filter((flag) => p.faults.some((f) => f.flag === flag)).map((flag) => faultWords[flag].what);
    return `${titles[name] ?? name}: ${counted(p.gaps.length, "gap")}, ${kinds.length === 0 ? "no fault found" : `faults: ${kinds.join(", ")}`}`;
  });
  const message = `This record is ${answer.verdict.level}. ${counts.join(". ")}. ${answer.clock.jumps.length === 0 ? "No jump of a clock was found." : `${counted(answer.clock.jumps.length, "jump")} of the clock: ${answer.clock.jumps.map((j) => `${titles[j.place] ?? j.place} ${j.seconds < 0 ? "back" : "forward"} by ${spanInWords(j.seconds)}`).join("; ")}.`}`;
  return sheet({
    name: "trust",
    title: "When to trust the record: gaps, faults and clocks",
    palette,
    panels,
    x: timeScale(record.from, record.to, offsetHours),
    xTitle: timeTitle(offsetHours),
    key: [
      { color: palette.fault, glyph: "■", text: "readings left out" },
      { color: keptColor(palette), glyph: "●", text: "marked, kept" },
    ],
    left: 128,
    data,
    alt: `A timeline with a row for each kind of trouble. ${message}`,
    message,
    table: { head: ["where", "kind", "times", "first", "last"], rows: groups.flatMap(({ heading, rows }) => rows.map((row) => [heading, row.label, row.spans.length, standardTime(offsetHours)(row.spans[0].from), standardTime(offsetHours)(row.spans[row.spans.length - 1].to)])) },
  });
}

/** A color that is neither side's. */
function keptColor(palette: Palette): string {
  return palette.name === "light" ? "#8a6d00" : "#d9b93b";
}

function placeRows(name: string, record: AirRecord, answer: CheckAnswer, palette: Palette): Row[] {
  const place = answer.places[name];
  if (place === undefined) return [];
  const rows: Row[] = [];
  const add = (label: string, spans: readonly Span[], color: string, symbol: MarkerSymbol): void => {
    if (spans.length > 0) rows.push({ label, spans: [...spans].sort((a, b) => a.from - b.from), color, symbol });
  };
  add("gap", place.gaps.map((g) => ({ from: Date.parse(g.from), to: Date.parse(g.to), text: `gap of ${spanInWords(3600 * g.hours)}` })), palette.reference, "square");
  for (const flag of flagNames) {
    const isKept = (flagBit[flag] & leftOut) === 0;
    const spans = place.faults.filter((f) => f.flag === flag).map((f) => ({ from: Date.parse(f.from), to: Date.parse(f.to), text: `${faultWords[flag].what}: ${quantityWords[f.quantity]}, ${counted(f.readings, "reading")}` }));
    add(faultWords[flag].what, spans, isKept ? keptColor(palette) : palette.fault, isKept ? "circle" : "square");
  }
  const jumps = answer.clock.jumps.filter((j) => j.place === name && Date.parse(j.at) >= record.from && Date.parse(j.at) <= record.to).map((j) => ({ from: Date.parse(j.at), to: Date.parse(j.at), text: `clock ${j.seconds < 0 ? "back" : "forward"} by ${spanInWords(j.seconds)}` }));
  add("clock jump", jumps, palette.ink, "diamond");
  return rows;
}

function sharedRows(record: AirRecord, answer: CheckAnswer, palette: Palette): Row[] {
  const instant = (text: string): ((iso: string) => Span) => (iso) => ({ from: Date.parse(iso), to: Date.parse(iso), text });
  const changes = [...answer.clock.skippedHours.map(instant("clocks go forward")), ...answer.clock.repeatedHours.map(instant("clocks go back"))].sort((a, b) => a.from - b.from);
  const events = record.events.map((e) => ({ from: Math.max(e.at, record.from), to: Math.min(e.to ?? e.at, record.to), text: plainText(e.title) })).filter((e) => e.from <= record.to && e.to >= record.from);
  const rows: Row[] = [];
  if (changes.length > 0) rows.push({ label: "summer time", spans: changes, color: palette.ink, symbol: "diamond" });
  if (events.length > 0) rows.push({ label: "events", spans: events, color: palette.fit, symbol: "triangle-down" });
  return rows;
}

function traceOf(row: Row, index: number, axes: { x: string; y: string }, least: number, offsetHours: number): ScatterTrace {
  const time = standardTime(offsetHours);
  const x: (string | null)[] = [];
  const text: string[] = [];
  for (const span of mergedSpans(row, least)) {
    const isLong = span.to - span.from > least;
    x.push(...(x.length > 0 ? [null] : []), time(span.from), ...(isLong ? [time(span.to)] : []));
    text.push(...(text.length > 0 ? [""] : []), span.text, ...(isLong ? [span.text] : []));
  }
  return { type: "scatter", mode: "lines+markers", name: row.label, x, y: x.map((v) => (v === null ? null : index)), xaxis: axes.x, yaxis: axes.y, line: { color: row.color, width: 7 }, marker: { color: row.color, size: 7, symbol: row.symbol }, text, hovertemplate: "%{text}, %{x}" };
}

/** Spans with neighbors nearer than the eye can part drawn as one. */
function mergedSpans(row: Row, least: number): Span[] {
  const merged: Span[] = [];
  for (const span of row.spans) {
    const before = merged[merged.length - 1];
    if (before === undefined || span.from - before.to >= least) merged.push(span);
    else merged[merged.length - 1] = { from: before.from, to: Math.max(before.to, span.to), text: before.text === span.text ? span.text : `${row.label}, several` };
  }
  return merged;
}
