import { dayAndTime } from "../../answers/headText.js";
import { counted, grouped } from "../../answers/words.js";
import { escapeText } from "../../figure/still/svgText.js";
import { instantText } from "../../ground/instant.js";
import { resetWarnings } from "../../trust/findings/resetFindings.js";
import type { ReportAnswers } from "./reportAnswers.js";
import { closed, listHtml, ownWords, foldedTableHtml } from "./reportMarkup.js";

/** Rejected lines told on the page; all of them are in `check --json`. */
const mostLines = 100;
/** Longest description shown whole · characters. */
const longestDescription = 200_000;

/** The description as it was read, with marks that steer the direction of text made visible. */
export function descriptionHtml(description: string): string {
  const cut = description.length > longestDescription;
  const text = description.slice(0, longestDescription).replace(/[\u0000-\u0008\u000b\u000c\u000e-\u001f\u007f-\u009f\u061c\u200e\u200f\u202a-\u202e\u2066-\u2069]/g, (c) => `\\u${c.charCodeAt(0).toString(16).padStart(4, "0")}`);
  return `<pre class="description"><code>${escapeText(text)}</code></pre>${cut ? `<p class="small">The first ${longestDescription} of ${description.length} characters.</p>` : ""}`;
}

/** What of the record stands in no number of the page, and why. */
export function leftOutHtml({ record, check, tides, swings, climate, indoors }: ReportAnswers): string {
  const sentences = [
    ...record.notes,
    ...resetWarnings(record),
    ...Object.values(record.places).flatMap((p) => {
      const { range, spike, stuck, swapped } = check.places[p.name].flags;
      const out = range + spike + stuck + swapped;
      return out === 0 ? [] : [`${p.title === "" ? p.name : p.title}: ${counted(out, "reading")} marked as faulty (${range} that cannot be, ${spike} spikes, ${stuck} stuck, ${swapped} with the places exchanged)`];
    }),
    ...Object.values(record.places).flatMap((p) => (p.repeated + p.conflicting === 0 ? [] : [`${p.title === "" ? p.name : p.title}: ${counted(p.repeated, "row")} that repeat a row, and ${counted(p.conflicting, "row")} that contradict one of the same instant, of which the first was kept`])),
    ...[tides, swings, climate, indoors].flatMap((t) => (t.why === null ? [] : [t.why])),
  ];
  const rejected = record.files.flatMap((f) => f.rejected.map((r) => ({ path: f.path, ...r })));
  const rows = rejected.slice(0, mostLines).map((r) => [r.path, grouped(r.line), r.reason]);
  const lines = rows.length === 0 ? "" : foldedTableHtml({ isForScreen: true, caption: rejected.length > rows.length ? `The first ${rows.length} of ${rejected.length} lines that could not be read` : "Lines that could not be read", head: ["file", "line", "why"], rows });
  const nothing = sentences.length === 0 && rows.length === 0 ? "<p>Nothing: every line was read, and every reading is used.</p>" : "";
  return `${nothing}${listHtml(sentences.map(closed))}${lines}`;
}

/** Dated events of the record as a list; nothing for none. */
export function eventsHtml({ record, view }: ReportAnswers): string {
  if (record.events.length === 0) return "";
  const day = (at: number): string => dayAndTime(instantText(at), view.offsetHours).replace(/ 00:00$/, "");
  const items = record.events.map((e) => `<li>${day(e.at)}${e.to === null ? "" : ` to ${day(e.to)}`}: ${ownWords(e.title)}${e.kind === null ? "" : ` (${ownWords(e.kind)})`}</li>`);
  return `<h3>Dated events</h3><ul>${items.join("")}</ul>`;
}
