import { drawingOptions, type Figure } from "../../figure/figure.js";
import { drawStill } from "../../figure/still/still.js";
import { carriedFigures } from "../page/carriedFigures.js";
import { colorPairs } from "../page/darkColors.js";
import type { PageParts } from "../page/pageDocument.js";
import { sentenceHtml } from "../page/reportMarkup.js";
import { darkStillRules, themed } from "../page/themedFigure.js";

/** The figures of one notebook's page, and what the page must carry for them. */
export interface PageFigures {
  /** Takes in a figure's description; gives the html that stands in its place. */
  add(description: unknown, text: string): string;
  /** Style rules of the stills on a dark page. */
  style(): string;
  /** What the page carries beside its text. */
  carried(): Pick<PageParts, "data" | "scripts" | "laterScripts">;
}

/** Widths a still is drawn for · px: a desk or a sheet of paper, and a phone. */
const stillWidths = { wide: 720, narrow: 340 } as const;

/**
 * Gathers the figures of one notebook: stills shown at once, one packed drawing library for all.
 *
 * The stills are drawn here from the description that stands in the notebook, so that a notebook need not carry them. A figure
 * that others described, without written ticks, has no still: it is drawn when its button is pressed.
 */
export function pageFigures(): PageFigures {
  const descriptions = new Map<string, string>();
  const rules: string[] = [];
  return {
    add(description, text) {
      const id = `figure-${descriptions.size + 1}`;
      descriptions.set(`${id}-drawing`, JSON.stringify({ config: drawingOptions, ...(description as object) }));
      const figure: Figure = { ...(description as Figure), name: id, alt: text, message: text };
      const stills = stillsOf(figure, id);
      if (stills !== undefined) rules.push(darkStillRules(`#${id} .still`, themed((theme) => (theme === "dark" ? darkTwin(figure) : figure))?.drawn ?? []));
      const message = sentenceHtml(text.trim());
      return `<figure class="figure" id="${id}" data-figure="${id}-drawing">
${stills === undefined ? "" : `<div class="still">${stills}</div>`}<div class="room" role="group" aria-label="${message}" tabindex="-1" hidden></div>
<figcaption>${message}</figcaption>
<p class="tools screen-only"><button type="button" hidden>${stills === undefined ? "Draw this figure" : "Explore this figure"}</button></p>
</figure>
`;
    },
    style: () => `@media screen and (prefers-color-scheme: dark) {\n${rules.join("\n")}\n}\n`,
    carried: () => carriedFigures(descriptions),
  };
}

function stillsOf(figure: Figure, id: string): string | undefined {
  try {
    return (Object.keys(stillWidths) as (keyof typeof stillWidths)[])
      .map((size) => `<div class="${size}">${drawStill(figure, { width: stillWidths[size], id: `${id}-${size}`, isFluid: true })}</div>`)
      .join("");
  } catch {
    return undefined;
  }
}

/** The figure with the dark theme's color for each of the light one's: a notebook holds its figures in one theme. */
function darkTwin(figure: Figure): Figure {
  const pairs = new Map<unknown, string>(colorPairs());
  const turned = (value: unknown): unknown => {
    if (Array.isArray(value)) return value.map(turned);
    if (typeof value === "object" && value !== null) return Object.fromEntries(Object.entries(value).map(([key, part]) => [key, turned(part)]));
    return pairs.get(value) ?? value;
  };
  return turned(figure) as Figure;
}
