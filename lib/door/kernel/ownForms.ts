import { counted, estimateInWords, unitInWords } from "../../answers/words.js";
import type { Grid } from "../../grid/regularGrid.js";
import type { Estimate } from "../../ground/estimate.js";
import { instantText } from "../../ground/instant.js";
import type { AirRecord } from "../../record/airRecord.js";
import { type Quantity, quantityWords } from "../../record/quantity.js";
import type { Series } from "../../record/series.js";
import { htmlText } from "../page/pageDocument.js";

/** How a notebook shows a value that has no display method: text, and a table where there is one. */
export interface OwnForm {
  readonly text: string;
  readonly html?: string;
}

type Fields = Readonly<Record<string, unknown>>;
type Cell = string | number;

const isFields = (value: unknown): value is Fields => typeof value === "object" && value !== null && !Array.isArray(value);
const isNumber = (value: unknown): value is number => typeof value === "number";

/** Whether a value is an inferred number with its interval. */
export function isEstimate(value: unknown): value is Estimate {
  return isFields(value) && [value.value, value.standardError, value.low, value.high, value.level].every(isNumber) && typeof value.unit === "string";
}

/**
 * The plain things of the library in a form worth reading: an Estimate as a sentence of numbers, a record, a series and a grid as what
 * they hold, a list of like things as a table. They are known by their parts, as they may come from another copy of the package.
 *
 * @param value anything
 * @returns     null for everything else
 */
export function ownForm(value: unknown): OwnForm | null {
  if (isEstimate(value)) return { text: estimateInWords(value) };
  if (Array.isArray(value)) return listForm(value);
  if (!isFields(value)) return null;
  if (isFields(value.places) && Array.isArray(value.files) && isNumber(value.from) && isNumber(value.to)) return recordForm(value as unknown as AirRecord);
  if (value.seconds instanceof Float64Array && value.values instanceof Float64Array && value.flags instanceof Uint16Array) return seriesForm(value as unknown as Series);
  if (isNumber(value.stepSeconds) && isNumber(value.length) && Array.isArray(value.columns)) return gridForm(value as unknown as Grid);
  return null;
}

const shownRows = 20;

function recordForm({ title, name, site, zone, from, to, places, events, files }: AirRecord): OwnForm {
  const rows = Object.values(places).map((place) => [place.title, place.exposure ?? "", place.readings, Object.keys(place.series).map((quantity) => wordsOf(quantity as Quantity)).join(", ")]);
  const rejected = files.reduce((sum, file) => sum + file.rejected.length, 0);
  const lines = files.reduce((sum, file) => sum + file.lines, 0);
  const where = site === null ? "" : `, ${degrees(site.latitude, "N", "S")}, ${degrees(site.longitude, "E", "W")}, ${site.elevation} m`;
  const head = [`${title} [${name}]${where}, zone ${zone}`, `${instantText(from)} to ${instantText(to)}, ${counted(lines, "line")}, ${rejected} of them not readable, ${counted(events.length, "event")}`];
  return tableForm(head, ["place", "exposure", "readings", "quantities"], rows, rows.length);
}

const degrees = (value: number, positive: string, negative: string): string => `${Math.abs(value)}° ${value < 0 ? negative : positive}`;

function seriesForm({ place, quantity, unit, start, seconds, values }: Series): OwnForm {
  const n = values.length;
  const head = [`${wordsOf(quantity)} at ${place}, ${counted(n, "reading")}`];
  const rows = Array.from({ length: Math.min(n, shownRows) }, (_, i) => [instantText(start + (seconds[i] ?? 0) * 1000), shortNumber(values[i] ?? Number.NaN)]);
  return tableForm(head, ["time (UTC)", unitInWords(unit)], rows, n);
}

function gridForm({ start, stepSeconds, length, columns }: Grid): OwnForm {
  const head = [`${counted(length, "step")} of ${stepSeconds} s from ${instantText(start)}, ${counted(columns.length, "column")}`];
  const names = columns.map((c) => `${c.place} ${wordsOf(c.quantity)} (${unitInWords(c.unit)})`);
  const rows = Array.from({ length: Math.min(length, shownRows) }, (_, i) => [instantText(start + i * stepSeconds * 1000), ...columns.map((c) => shortNumber(c.values[i] ?? Number.NaN))]);
  return tableForm(head, ["step (UTC)", ...names], rows, length);
}

/** A list of like, flat objects; null when it is anything else. */
function listForm(list: readonly unknown[]): OwnForm | null {
  const [first] = list;
  if (!isFields(first) || Object.getPrototypeOf(first) !== Object.prototype) return null;
  const keys = Object.keys(first);
  const isFlat = (part: unknown): boolean => part === null || typeof part !== "object" || isEstimate(part);
  const alike = list.every((item) => isFields(item) && Object.keys(item).join() === keys.join() && Object.values(item).every(isFlat));
  if (!alike || keys.length === 0 || keys.length > 12) return null;
  const rows = list.slice(0, shownRows).map((item) => keys.map((key) => shownCell((item as Fields)[key])));
  return tableForm([], keys, rows, list.length);
}

function shownCell(value: unknown): Cell {
  if (isEstimate(value)) return estimateInWords(value);
  if (isNumber(value)) return shortNumber(value);
  return value === null || value === undefined ? "" : String(value);
}

function wordsOf(quantity: Quantity): string {
  return quantityWords[quantity] ?? quantity;
}

/** Six digits are more than a reader of a table wants; NaN is missing. */
function shortNumber(value: number): Cell {
  return Number.isNaN(value) ? "" : Number(value.toPrecision(6));
}

/** The same rows as aligned text and as html. */
function tableForm(head: readonly string[], names: readonly string[], rows: readonly (readonly Cell[])[], all: number): OwnForm {
  const cells = [names, ...rows].map((row) => row.map(String));
  const isRight = names.map((_, i) => rows.length > 0 && rows.every((row) => typeof row[i] === "number" || row[i] === ""));
  const widths = names.map((_, i) => Math.max(...cells.map((row) => (row[i] ?? "").length)));
  const lines = cells.map((row) => row.map((cell, i) => (isRight[i] ? cell.padStart(widths[i] ?? 0) : cell.padEnd(widths[i] ?? 0))).join("  ").trimEnd());
  const rest = all > rows.length ? [`… and ${all - rows.length} more`] : [];
  const tag = (kind: "th" | "td", row: readonly string[]): string => `<tr>${row.map((cell, i) => `<${kind}${isRight[i] ? ' align="right"' : ""}>${htmlText(cell)}</${kind}>`).join("")}</tr>`;
  const [top = [], ...body] = cells;
  const html = `${head.map((line) => `<p>${htmlText(line)}</p>`).join("")}<table><thead>${tag("th", top)}</thead><tbody>${body.map((row) => tag("td", row)).join("")}</tbody></table>${rest.map((line) => `<p>${line}</p>`).join("")}`;
  return { text: [...head, ...lines, ...rest].join("\n"), html };
}
