import { headLines, zoneText } from "../../answers/headText.js";
import type { Figure } from "../../figure/figure.js";
import type { AirRecord } from "../../record/airRecord.js";
import { resetWarnings } from "../../trust/findings/resetFindings.js";
import { climatePart } from "./climatePart.js";
import { comingPart } from "./comingPart.js";
import { houseParts } from "./housePart.js";
import { descriptionHtml, eventsHtml, leftOutHtml } from "./leftOutHtml.js";
import { pageDocument } from "./pageDocument.js";
import { type ReportAnswers, reportAnswers } from "./reportAnswers.js";
import { reportFigures } from "./reportFigure.js";
import { closed, ownWords, sentenceHtml } from "./reportMarkup.js";
import { questionHtml, type ReportQuestion } from "./reportPart.js";
import { reportPictures } from "./reportPictures.js";
import { allSources, sourcesHtml } from "./reportSources.js";
import { reportStyle } from "./reportStyle.js";
import { swingsPart } from "./swingsPart.js";
import { tidePart } from "./tidePart.js";
import { trustPart } from "./trustPart.js";

/** By this a later run knows its own page. */
export const reportGenerator = "airtides report";

/** A report, ready to be written. */
export interface ReportPage {
  /** One html file that needs nothing from anywhere. */
  readonly html: string;
  /** Its figures, light, in their order; names may repeat for several pairs of places. */
  readonly figures: readonly Figure[];
  /** What the record could not carry. */
  readonly warnings: readonly string[];
}

/**
 * The whole report of a record: the questions in their order, each with answer, figures, what could mislead and how it was computed.
 *
 * @param record              from a reader
 * @param options.description text of its description as read; left out where there is none
 * @param options.answers     the answers, where they are known already
 * @returns                   html, figures, warnings
 */
export function reportPage(record: AirRecord, options: { readonly description?: string; readonly answers?: ReportAnswers } = {}): ReportPage {
  const answers = options.answers ?? reportAnswers(record);
  const pictures = reportPictures(answers);
  const questions: readonly ReportQuestion[] = [
    { id: "question-trust", heading: "Can I trust this record?", parts: [trustPart(answers, pictures.trust)] },
    { id: "question-air", heading: "What does the air do?", parts: [tidePart(answers, pictures.tide), swingsPart(answers, pictures.swings), climatePart(answers, pictures.climate)] },
    { id: "question-house", heading: "What does my house do to the weather?", parts: houseParts(answers, (k) => pictures.house[k] ?? []) },
    { id: "question-coming", heading: "What is really coming?", parts: [comingPart(answers, pictures.coming)] },
  ];
  const figures = reportFigures();
  const main = [
    briefHtml(questions),
    ...questions.map((q) => questionHtml(q, figures)),
    teachHtml(record, pictures.teach.map((figure) => figures.add(figure)).join("")),
    `<section class="question" id="as-read" aria-labelledby="as-read-heading"><h2 id="as-read-heading">The record as it was read</h2>
<h3>What was left out</h3>${leftOutHtml(answers)}${eventsHtml(answers)}
${options.description === undefined ? "" : `<h3>The description</h3>${descriptionHtml(options.description)}`}</section>`,
    `<section class="question" id="sources" aria-labelledby="sources-heading"><h2 id="sources-heading">Sources and cautions</h2>
<p class="warning">Numbers about your air, not advice. Not a storm warning, not for aviation or navigation. Decisions about mould, structure, electricity or energy defer to local codes and licensed practice.</p>
${sourcesHtml(allSources)}</section>`,
  ];
  const title = record.title === "" ? record.name : record.title;
  const html = pageDocument({
    title: plain(`${title}: report`),
    summary: plain(questions[0].parts[0].brief),
    generator: reportGenerator,
    header: headerHtml(answers, options.description),
    main: main.join("\n"),
    footer: "<p>Written by airtides. Every ± is a 95 % interval: of 100 such records, 95 would hold the true number in it. The page is one file and asks nothing of the net.</p>",
    style: `${reportStyle}${figures.style()}`,
    ...figures.carried(),
  });
  const all = [...pictures.trust, ...pictures.tide, ...pictures.swings, ...pictures.climate, ...pictures.house.flat(), ...pictures.coming, ...pictures.teach].map((f) => f.figure);
  const warnings = [...resetWarnings(answers.record), ...[answers.tides, answers.swings, answers.climate, answers.indoors].flatMap((t) => (t.why === null ? [] : [t.why]))];
  return Object.freeze({ html, figures: Object.freeze(all), warnings: Object.freeze([...new Set(warnings)]) });
}

function headerHtml({ record, check, view }: ReportAnswers, description: string | undefined): string {
  const [, facts] = headLines(check.record, view.offsetHours);
  const title = record.title === "" ? record.name : record.title;
  const places = Object.values(record.places).map((p) => `${ownWords(p.title === "" ? p.name : p.title)}${p.exposure === null ? "" : ` (${p.exposure === "indoor" ? "inside" : "outside"})`}`);
  const invented = /\binvented\b/i.test(`${record.title} ${description ?? ""}`) ? '<p class="invented">An invented record, made for trying things out: nothing in it was measured.</p>' : "";
  return `<div><p class="kind">Report on the air</p><h1>${ownWords(title)}</h1>
<p class="facts">${sentenceHtml(facts)}. ${places.join(", ")}. Times are the record's standard time, ${zoneText(view.offsetHours)}, unless they are said to be the sun's.</p>${invented}</div>`;
}

function briefHtml(questions: readonly ReportQuestion[]): string {
  const items = questions.map((q) => `<li><a href="#${q.id}">${sentenceHtml(q.heading)}</a><div>${q.parts.map((p) => `<p>${sentenceHtml(closed(p.brief))}</p>`).join("")}</div></li>`);
  return `<section aria-labelledby="brief-heading"><h2 id="brief-heading">In short</h2>
<ol class="brief">${items.join("\n")}</ol></section>`;
}

function teachHtml(record: AirRecord, figures: string): string {
  const name = sentenceHtml(/^[\w.-]+$/.test(record.name) ? record.name : "RECORD");
  return `<section class="question" id="question-teach" aria-labelledby="teach-heading"><h2 id="teach-heading">How do I show and teach this?</h2>
<p class="answer">Print this page, pass it on as one file, or take its parts: every number and every picture can be had by itself, and checked.</p>
${figures}<ul>
<li>A figure on this page becomes one to zoom and ask when you touch it; below each stand its numbers.</li>
<li><code>airtides report ${name} --pdf --figures figures</code> writes the page for paper, and each figure as SVG (and PNG where a Chromium is found).</li>
<li><code>airtides check|tides|swings|indoors|climate ${name} --json</code> writes every number as JSON, with intervals, counts and warnings.</li>
<li><code>airtides tides ${name} --export c --out tide.h</code> writes the tide for another program, such as your own display.</li>
<li><code>airtides notebooks ${name}</code> works every lesson on this record, step by step.</li>
</ul></section>`;
}

/** Without marks that would turn the page's own title. */
function plain(text: string): string {
  return text.replace(/[\u0000-\u001f\u007f-\u009f\u061c\u200e\u200f\u202a-\u202e\u2066-\u2069]/g, "");
}
