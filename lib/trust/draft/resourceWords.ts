import { instantText } from "../../ground/instant.js";
import { spanOfTimes, type LogGroup } from "./logGroups.js";

/** A step in the unit a person would use: `5 min`, `1 h`. */
function stepInWords(seconds: number): string {
  if (seconds < 90) return `${Math.round(seconds)} s`;
  return seconds < 3600 ? `${Number((seconds / 60).toFixed(1))} min` : `${Number((seconds / 3600).toFixed(2))} h`;
}

/** Civil time as it stands in the log: `2024-03-01 09:05`. */
function civilWords(ms: number): string {
  return instantText(ms).slice(0, 16).replace("T", " ");
}

/** Why these files are one resource: shape, step, order and overlaps. */
export function pathReason({ tables, because }: LogGroup, step: number): string {
  const every = step > 0 ? `a reading every ${stepInWords(step)}` : "a single time";
  const spans = tables.map((t) => ({ path: t.text.path, ...spanOfTimes(t.times) }));
  const lost = spans.reduce((n, s) => n + s.apart, 0);
  const reset = lost === 0 ? "" : `${lost === 1 ? "one row lies" : `${lost} rows lie`} a year or more from the others: a clock that was not set?`;
  const ends = [Math.min(...spans.map((s) => s.from)), Math.max(...spans.map((s) => s.to))].map(civilWords);
  const whole = ends[0] === ends[1] ? ends[0] : ends.join(" to ");
  if (tables.length === 1) return [`it holds ${every}, ${whole}`, reset, because].filter((s) => s !== "").join("; ");
  const overlaps = spans.slice(1).flatMap((s, i) => (s.from <= spans[i].to ? [`${s.path} begins at ${civilWords(s.from)}, before ${spans[i].path} ends at ${civilWords(spans[i].to)}: what both hold is counted once`] : []));
  return [`${tables.length} files have the same columns and the same stamps, in order of time; ${every}, ${whole}`, ...overlaps.slice(0, 3), overlaps.length > 3 ? `and ${overlaps.length - 3} more overlaps` : "", reset, because].filter((s) => s !== "").join("; ");
}

/** Why the header is, or is not, told to be one. */
export function headerReason({ model: { preamble }, tables }: LogGroup): string {
  if (preamble.hasHeader) {
    const bare = tables.filter((t) => t.preamble.names === null).length;
    const where = preamble.headerRow === null ? "the first line that is no comment" : `line ${preamble.headerRow}`;
    return `${where} names the columns${bare > 0 ? ` (${bare === 1 ? "one file has" : `${bare} files have`} none and follow${bare === 1 ? "s" : ""} it)` : ""}`;
  }
  if (preamble.names !== null && preamble.commentRows.length === 0) return "the names of the columns stand in a comment, so columns are taken by their order";
  if (preamble.names !== null) return "names in the header are doubled, empty, parted by blanks or fewer than the columns, so columns are taken by their order";
  return preamble.commentRows.length > 0 ? "the lines before the first row name no columns" : "the first line is a row already";
}

/** What to ask when day and month cannot be told apart. */
export function rivalQuestion(format: string, rivals: readonly string[], sample: string): string {
  return `in what order are day, month and year written, such as in ${sample}? Nothing in the log tells. Drafted: ${format}; as possible: ${rivals.join(", ")}`;
}

/** What to ask of the zone. */
export function zoneQuestion(zone: string): string {
  const drafted = zone === "Z" ? "UTC (Z) stands here only so that the log can be read" : `${zone} is a guess from its summer time`;
  return `which clock does the logger keep? ${drafted}. Write its fixed offset, such as "+07:00", or, if it follows summer time, an IANA name such as "Europe/London"`;
}

/** What to ask of values with a day and no time of day. */
export const dayQuestion: string =
  'is each value the mean of its civil day? So it is taken, and put at noon. For means that end at 00:00 of the day they are stamped with write "sampling": { "averagedOver": 86400, "stamp": "end" }; for one reading a day add a column with its time; if they are means of their day, take this question out';

/** What to ask of averages. */
export function samplingQuestion(step: number): string {
  return `is each reading of the moment of its stamp, or a mean? For a mean over ${stepInWords(step)} stamped at its end write "sampling": { "averagedOver": ${Math.min(86400, Math.round(step)) || 600}, "stamp": "end" } (or "start", "middle"); if of the moment, take this question out`;
}

/** Usual step between the rows of one place · s; 0 for a single time. */
export function usualStep(rows: readonly number[], times: Float64Array): number {
  const steps: number[] = [];
  for (let i = 1; i < rows.length; i++) {
    const by = Math.abs(times[rows[i]] - times[rows[i - 1]]);
    if (by > 0) steps.push(by);
  }
  return steps.length === 0 ? 0 : steps.sort((a, b) => a - b)[steps.length >> 1] / 1000;
}
