import { basename } from "node:path";
import { formulaHtml } from "../page/formulaDoor.js";
import { highlightHtml } from "../page/highlightDoor.js";
import { type MarkdownParts, markdownHtml } from "../page/markdownDoor.js";
import { htmlText, pageDocument } from "../page/pageDocument.js";
import { type Headings, headings } from "./headings.js";
import { type CodeCell, hasTag, type Notebook, type NotebookCell, type NotebookText, textOf } from "./notebook.js";
import { notebookStyle } from "./notebookStyle.js";
import { outputsHtml } from "./outputHtml.js";
import { type PageFigures, pageFigures } from "./pageFigures.js";

/** Where a page stands among the others. */
export interface PagePlace {
  /** Name of the notebook's file, without its ending. */
  readonly name: string;
  /** One sentence on the data, such as the record's title; empty when the notebook chose its own. */
  readonly about: string;
  /** The error that stopped it, if one did. */
  readonly stopped?: { readonly cell: number; readonly message: string };
  readonly previous?: { readonly address: string; readonly title: string };
  readonly next?: { readonly address: string; readonly title: string };
}

/** By this name a later run knows a page as its own. */
export const pageGenerator = "airtides notebooks";

/**
 * A notebook that was run, as one page that needs nothing from anywhere.
 *
 * Markdown cells tagged `answer` stand behind a disclosure; cells tagged `remove-cell`, sources tagged `remove-input` and
 * raw cells are left out; links to other notebooks lead to their pages.
 *
 * @param notebook with its outputs
 * @param place    its name, data and neighbors
 * @returns        html5
 */
export function notebookPage(notebook: Notebook, place: PagePlace): string {
  const order = headings();
  const figures = pageFigures();
  const body = notebook.cells.map((cell) => cellHtml(cell, order, figures)).join("");
  const title = order.all[0]?.level === 1 ? order.all[0].text : place.name;
  // A notebook without any heading gets its name as one.
  const whole = order.all.length === 0 ? `<h1>${htmlText(place.name)}</h1>\n${body}` : withContents(body, order);
  const stopped = place.stopped === undefined ? "" : `<p class="warning">This notebook stopped at <a href="#cell-${place.stopped.cell}">cell ${place.stopped.cell}</a>: ${htmlText(place.stopped.message)}. What follows it was not run.</p>\n`;
  const main = stopped === "" ? whole : whole.replace(/<\/h1>\s*/, (end) => `${end}${stopped}`);
  const about = place.about === "" ? "" : `<span>${htmlText(place.about)}</span>`;
  return pageDocument({
    title,
    summary: notebookQuestion(notebook),
    generator: pageGenerator,
    header: `<div><nav aria-label="All notebooks"><a href="index.html">All notebooks</a>${about}</nav></div>`,
    main,
    ...(place.previous === undefined && place.next === undefined
      ? {}
      : { footer: `<nav aria-label="Neighbors">${neighbor("Before", "prev", place.previous)}${neighbor("Next", "next", place.next)}</nav>` }),
    style: `${notebookStyle()}${figures.style()}`,
    ...figures.carried(),
  });
}

/**
 * The first heading of a notebook as plain text.
 *
 * @param notebook any
 * @param name     what to take when it has none
 */
export function notebookTitle(notebook: Notebook, name: string): string {
  for (const cell of notebook.cells) {
    const found = cell.cell_type === "markdown" ? /^#{1,6}[ \t]+(.+?)[ \t#]*$/m.exec(textOf(cell.source)) : null;
    if (found !== null) return plainMarkdown(found[1]);
  }
  return name;
}

/**
 * The question a notebook opens with: its first paragraph that is no heading, as plain text; empty when there is none.
 *
 * @param notebook any
 */
export function notebookQuestion(notebook: Notebook): string {
  for (const cell of notebook.cells) {
    if (cell.cell_type !== "markdown") continue;
    const paragraph = textOf(cell.source).split(/\n\s*\n/).find((p) => p.trim() !== "" && !/^\s*(#|\||```|\$\$|[-*+>] |\d+\. |!\[)/.test(p));
    if (paragraph !== undefined) return plainMarkdown(paragraph.replace(/\s+/g, " ").trim());
  }
  return "";
}

function plainMarkdown(text: string): string {
  return text.replace(/!?\[([^\]]*)\]\([^)]*\)/g, "$1").replace(/(\*\*|__|\*|`|\$)/g, "").trim();
}

function neighbor(word: string, relation: string, to: PagePlace["next"]): string {
  return to === undefined ? "" : `<a rel="${relation}" href="${htmlText(to.address)}">${word}: ${htmlText(to.title)}</a>`;
}

/** The list of parts behind the opening words, when there are three parts or more. */
function withContents(body: string, order: Headings): string {
  const parts = order.all.filter((h) => h.level === 2);
  if (parts.length < 3) return body;
  // Before the opening's first cell, where it has one: a list of parts belongs to the opening words.
  const at = body.search(/<h2 id="|<div class="cell"/);
  const items = parts.map((h) => `<li><a href="#${h.id}">${htmlText(h.text)}</a></li>`).join("");
  return `${body.slice(0, at)}<nav class="contents" aria-label="On this page"><p>On this page</p><ol>${items}</ol></nav>\n${body.slice(at)}`;
}

function cellHtml(cell: NotebookCell, order: Headings, figures: PageFigures): string {
  if (cell.cell_type === "raw" || hasTag(cell, "remove-cell")) return "";
  const parts = markdownParts(cell, order);
  if (cell.cell_type === "code") return codeHtml(cell, parts, figures);
  const text = textOf(cell.source);
  if (!hasTag(cell, "answer")) return markdownHtml(text, parts);
  // Inside an answer no heading is made: a hidden part must not stand in the page's order.
  const inside = markdownHtml(text, { ...parts, heading: () => undefined });
  return `<details class="solution"><summary>Show the answer</summary>\n${inside}</details>\n`;
}

function codeHtml(cell: CodeCell, parts: MarkdownParts, figures: PageFigures): string {
  const source = textOf(cell.source);
  const code = hasTag(cell, "remove-input") || source.trim() === "" ? "" : highlightHtml(source, "typescript");
  const outputs = hasTag(cell, "remove-output") ? "" : outputsHtml(cell.outputs, { figure: figures.add, markdown: (text) => markdownHtml(text, parts) });
  if (code === "" && outputs === "") return "";
  const count = cell.execution_count === null ? "" : ` id="cell-${cell.execution_count}" data-count="${cell.execution_count}"`;
  return `<div class="cell"${count}>${code}${outputs === "" ? "" : `<div class="outputs">${outputs}</div>`}</div>\n`;
}

function markdownParts(cell: NotebookCell, order: Headings): MarkdownParts {
  return {
    formula: formulaHtml,
    code: highlightHtml,
    heading: (level, text) => order.next(level, text),
    link: (address) => (/^[^:/?#]+\.ipynb(#.*)?$/.test(address) ? basename(address).replace(/\.ipynb/, ".html") : address),
    picture: (address) => {
      if (/^data:image\/(png|jpeg|gif|webp|svg\+xml)[;,]/.test(address)) return address;
      const bundle = address.startsWith("attachment:") ? cell.attachments?.[decodeURIComponent(address.slice(11))] : undefined;
      const type = Object.keys(bundle ?? {}).find((t) => t.startsWith("image/"));
      return type === undefined ? undefined : `data:${type};base64,${textOf(bundle?.[type] as NotebookText).replace(/\s/g, "")}`;
    },
  };
}
