import { drawingOptions } from "../../figure/figure.js";
import { drawStill } from "../../figure/still/still.js";
import { carriedFigures } from "./carriedFigures.js";
import { darkColorsOf } from "./drawScript.js";
import type { PageParts } from "./pageDocument.js";
import { sentenceHtml, tableHtml } from "./reportMarkup.js";
import { darkStillRules, type ThemedFigure } from "./themedFigure.js";

/** Widths a still is drawn for · px: a desk or a sheet of paper, and a phone. */
const stillWidths: Readonly<Record<"wide" | "narrow", number>> = Object.freeze({ wide: 760, narrow: 340 });
/** Beyond this a table on the page is cut short, and says so: the whole stands in `--json`. */
const mostRows = 400;

/** The figures of a report, and what the page must carry for them. */
export interface ReportFigures {
  /** Takes in a figure; gives the html that stands in its place. */
  add(figure: ThemedFigure): string;
  /** What the page carries beside its text. */
  carried(): Pick<PageParts, "data" | "scripts" | "laterScripts">;
  /** Style rules of the stills on a dark page. */
  style(): string;
}

/**
 * Gathers the figures of a report: stills for wide and narrow pages at once, their message, their numbers, and one drawing library.
 */
export function reportFigures(): ReportFigures {
  const held = new Map<string, ThemedFigure>();
  return {
    add(themedFigure) {
      const id = freeName(themedFigure.figure.name, held);
      held.set(id, themedFigure);
      return figureHtml(themedFigure, id);
    },
    carried() {
      const { data = [], ...scripts } = carriedFigures(new Map([...held].map(([id, { figure }]) => [`figure-${id}`, JSON.stringify({ data: figure.data, layout: figure.layout, config: drawingOptions })])));
      const dark = [...held].map(([id, { described }]) => ({ id: darkColorsOf(`figure-${id}`), type: "application/json", text: JSON.stringify(described) }));
      return { ...scripts, data: [...dark, ...data] };
    },
    style() {
      return `@media screen and (prefers-color-scheme: dark) {\n${[...held].map(([id, { drawn }]) => darkStillRules(`#${id} .still`, drawn)).join("\n")}\n}\n`;
    },
  };
}

/** The same figure of another place gets a number behind its name. */
function freeName(name: string, taken: ReadonlyMap<string, unknown>): string {
  let k = 1;
  while (taken.has(k === 1 ? name : `${name}-${k}`)) k++;
  return k === 1 ? name : `${name}-${k}`;
}

function figureHtml({ figure }: ThemedFigure, id: string): string {
  const stills = (Object.keys(stillWidths) as (keyof typeof stillWidths)[])
    .map((size) => `<div class="${size}">${drawStill(figure, { width: stillWidths[size], id: `${id}-${size}`, isFluid: true })}</div>`)
    .join("");
  const { head, rows } = figure.table;
  const cut = rows.length > mostRows ? `<p class="small">The first ${mostRows} of ${rows.length} rows; all of them are in the answers that <code>--json</code> writes.</p>` : "";
  const table = rows.length === 0 ? "" : `<details><summary>The numbers in this figure</summary>${tableHtml({ caption: figure.message, head, rows: rows.slice(0, mostRows) })}${cut}</details>`;
  const message = sentenceHtml(figure.message);
  return `<figure class="figure" id="${id}" data-figure="figure-${id}">
<div class="still">${stills}</div><div class="room" role="group" aria-label="${message}" tabindex="-1" hidden></div>
<figcaption>${message}</figcaption>
<p class="tools screen-only"><button type="button" hidden>Explore this figure</button></p>
${table}</figure>
`;
}
