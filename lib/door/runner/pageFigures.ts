import type { Figure } from "../../figure/figure.js";
import { drawStill } from "../../figure/still/still.js";
import { paletteOf } from "../../figure/theme.js";
import { drawIds, drawScript } from "../page/drawScript.js";
import { drawingLibrary } from "../page/drawingLibrary.js";
import { htmlText, type PageParts } from "../page/pageDocument.js";

/** The figures of one page, and what the page must carry for them. */
export interface PageFigures {
  /** Takes in a figure; gives the html that stands in its place. */
  add(description: unknown, still: string | undefined, text: string): string;
  /** What the page carries beside its text. */
  carried(): Pick<PageParts, "data" | "scripts" | "laterScripts">;
}

/**
 * Gathers the figures of one page: stills shown at once, one packed drawing library for all.
 */
export function pageFigures(): PageFigures {
  const descriptions: string[] = [];
  return {
    add(description, still, text) {
      const id = `figure-${descriptions.length + 1}`;
      descriptions.push(JSON.stringify(description));
      const label = htmlText(text.split("\n")[0]);
      const wide = still ?? stillOf(description, text, 720);
      const picture = wide === undefined ? "" : `<div class="still">${stillHtml(wide, stillOf(description, text, 340), text)}</div>`;
      return `<div class="figure" data-figure="${id}" role="group" aria-label="${label}">${picture}<div class="room" tabindex="-1" hidden></div><button type="button" hidden>${wide === undefined ? "Draw this figure" : "Explore this figure"}</button></div>\n`;
    },
    carried() {
      if (descriptions.length === 0) return { scripts: [drawScript] };
      const library = drawingLibrary();
      const json = (id: string, text: string): NonNullable<PageParts["data"]>[number] => ({ id, type: "application/json", text });
      return {
        data: [
          ...descriptions.map((text, i) => json(`figure-${i + 1}`, text)),
          json(drawIds.colors, JSON.stringify(darkColors())),
          { id: drawIds.library, type: "application/gzip", text: library.packed },
        ],
        scripts: [drawScript],
        laterScripts: [`'${library.hash}'`],
      };
    },
  };
}

/** A still of a figure of ours; undefined for a description that others made and that cannot be drawn without a browser. */
function stillOf(description: unknown, text: string, width: number): string | undefined {
  try {
    return drawStill({ ...(description as Figure), name: "figure", alt: text, message: text }, { width });
  } catch {
    return undefined;
  }
}

/** The still on light and dark ground, wide and narrow, as pictures that can do nothing. */
function stillHtml(wide: string, narrow: string | undefined, text: string): string {
  const address = (svg: string): string => `data:image/svg+xml;base64,${Buffer.from(svg, "utf8").toString("base64")}`;
  const dark = "(prefers-color-scheme: dark)";
  const small = "(max-width: 32rem)";
  const sources = [
    ...(narrow === undefined ? [] : [{ media: `screen and ${small} and ${dark}`, svg: darkened(narrow) }, { media: `screen and ${small}`, svg: narrow }]),
    { media: `screen and ${dark}`, svg: darkened(wide) },
  ];
  const html = sources.map(({ media, svg }) => `<source media="${media}" srcset="${address(svg)}">`).join("");
  return `<picture>${html}<img src="${address(wide)}" alt="${htmlText(text)}"></picture>`;
}

/** Every color of the light theme beside the dark theme's one of the same role, as texts. */
function darkColors(): [string, string][] {
  const [light, dark] = [paletteOf("light"), paletteOf("dark")];
  const pairs = new Map<string, string>();
  for (const role of Object.keys(light) as (keyof typeof light)[]) {
    const [from, to] = [light[role], dark[role]];
    if (role === "name") continue;
    if (typeof from === "string") pairs.set(from, to as string);
    else from.forEach(([, color], i) => void (pairs.has(color) || pairs.set(color, (to as typeof from)[i][1])));
  }
  return [...pairs];
}

function darkened(svg: string): string {
  const pairs = new Map(darkColors());
  return svg.replace(/#[0-9a-f]{6}\b|rgba?\([^)]*\)/gi, (color) => pairs.get(color) ?? pairs.get(color.toLowerCase()) ?? color);
}
