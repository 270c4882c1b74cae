import type { ThemedFigure } from "./themedFigure.js";
import type { ReportFigures } from "./reportFigure.js";
import { closed, foldedTableHtml, listHtml, type PlainTable, sentenceHtml } from "./reportMarkup.js";
import { type SourceKey, sourcesHtml } from "./reportSources.js";

/** One answer of the report with all that belongs to it; texts are plain. */
export interface ReportPart {
  /** Anchor on the page. */
  readonly id: string;
  readonly heading: string;
  /** One short sentence for the beginning of the page. */
  readonly brief: string;
  /** The answer with its interval, in one or two sentences. */
  readonly answer: string;
  readonly figures: readonly ThemedFigure[];
  /** Findings one by one, before the tables. */
  readonly found?: readonly string[];
  readonly tables: readonly PlainTable[];
  /** What could mislead. */
  readonly mislead: readonly string[];
  /** How it was computed. */
  readonly made: readonly string[];
  readonly sources: readonly SourceKey[];
  /** Where advice could hurt someone. */
  readonly caution?: string;
}

/** A question of the report with its parts; one part stands without a heading of its own. */
export interface ReportQuestion {
  readonly id: string;
  readonly heading: string;
  readonly parts: readonly ReportPart[];
}

/**
 * A question as html: for each part the answer, the figures, the tables, what could mislead, how it was computed.
 *
 * @param figures takes in the figures and gives their html
 */
export function questionHtml(question: ReportQuestion, figures: ReportFigures): string {
  const isLone = question.parts.length === 1;
  const parts = question.parts.map((part) => {
    const level = isLone ? 3 : 4;
    const heading = isLone ? "" : `<h3 id="part-${part.id}">${sentenceHtml(part.heading)}</h3>\n`;
    return `${heading}${partHtml(part, level, figures)}`;
  });
  return `<section class="question" id="${question.id}" aria-labelledby="${question.id}-heading">
<h2 id="${question.id}-heading">${sentenceHtml(question.heading)}</h2>
${parts.join("\n")}</section>
`;
}

function partHtml(part: ReportPart, level: 3 | 4, figures: ReportFigures): string {
  const heading = (text: string): string => `<h${level}>${text}</h${level}>`;
  const mislead = part.mislead.length === 0 ? "" : `<div class="mislead">${heading("What could mislead")}${listHtml(part.mislead)}</div>\n`;
  const made = part.made.length === 0 ? "" : `<div class="made">${heading("How this was computed")}<p>${sentenceHtml(part.made.map(closed).join(" "))}</p>${sourcesHtml(part.sources)}</div>\n`;
  const caution = part.caution === undefined ? "" : `<p class="warning caution">${sentenceHtml(closed(part.caution))}</p>\n`;
  const found = part.found === undefined || part.found.length === 0 ? "" : `${heading("What was found")}${listHtml(part.found)}`;
  return `<p class="answer">${sentenceHtml(closed(part.answer))}</p>
${part.figures.map((figure) => figures.add(figure)).join("")}${found}${part.tables.map(foldedTableHtml).join("")}${mislead}${caution}${made}`;
}

/** A part for what the record cannot carry: one sentence, and nothing that pretends to be an answer. */
export function untoldPart(id: string, heading: string, why: string): ReportPart {
  const says = `This record cannot carry it: ${why}`;
  return { id, heading, brief: says, answer: says, figures: [], tables: [], mislead: [], made: [], sources: [] };
}
