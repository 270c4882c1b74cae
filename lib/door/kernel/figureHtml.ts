import { createHash } from "node:crypto";
import type { FigureTable } from "../../figure/figure.js";
import { drawingLibrary } from "../page/drawingLibrary.js";
import { htmlText } from "../page/pageDocument.js";

/** What the drawing library needs of a figure. */
export interface Drawing {
  readonly data?: unknown;
  readonly layout?: { readonly height?: unknown };
  readonly config?: unknown;
}

/** What stands about the drawing. */
export interface FigureWords {
  /** svg text, if there is a still. */
  readonly still: string | undefined;
  /** What is to be seen, in words. */
  readonly alt: string;
  /** What it says; stands below. */
  readonly message?: string | undefined;
  /** The numbers behind it. */
  readonly table?: FigureTable | undefined;
}

const mostRows = 200;
const waitingLine = "This figure waits for its drawing library: run the first figure's cell again, or trust the notebook.";

/**
 * A figure as a piece of html: its still (or a line that it waits), which the drawing library replaces when it is there.
 *
 * The piece holds no drawing code. Figures may come before or after the library; both meet in one list on the window.
 * Where scripts are taken out, as in an untrusted notebook, the still stays: it is an image with its data inside, the one
 * kind of picture that is let through there.
 *
 * @param drawing data, layout and options of the figure; plain JSON
 * @param words   see FigureWords
 * @returns       html
 */
export function figureHtml(drawing: Drawing, words: FigureWords): string {
  const { still, alt, message, table } = words;
  const json = JSON.stringify(drawing).replace(/</g, "\\u003c").replace(/\u2028/g, "\\u2028").replace(/\u2029/g, "\\u2029");
  const id = createHash("sha256").update(json).digest("hex").slice(0, 16);
  const height = typeof drawing.layout?.height === "number" ? drawing.layout.height : 450;
  const before =
    still === undefined
      ? `<p><em>${htmlText(alt)}</em></p><p><small>${waitingLine}</small></p>`
      : `<img alt="${htmlText(alt)}" src="data:image/svg+xml;base64,${Buffer.from(still, "utf8").toString("base64")}">`;
  const caption = message === undefined ? "" : `<p>${htmlText(message)}</p>\n`;
  return `<div data-airtides-figure="${id}" role="group" aria-label="${htmlText(alt)}" style="min-height:${height}px">${before}</div>
${caption}${table === undefined ? "" : numbersHtml(table)}<script>(window.airtidesFigures = window.airtidesFigures || []).push({ id: "${id}", figure: ${json} });</script>`;
}

/** The numbers behind a figure, folded away. */
function numbersHtml({ head, rows }: FigureTable): string {
  if (rows.length === 0) return "";
  const row = (tag: "th" | "td", cells: readonly unknown[]): string => `<tr>${cells.map((cell) => `<${tag}>${htmlText(String(cell ?? ""))}</${tag}>`).join("")}</tr>`;
  const cut = rows.length > mostRows ? `<p>The first ${mostRows} of ${rows.length} rows; the figure's table holds them all.</p>` : "";
  return `<details><summary>The numbers in this figure</summary><table><thead>${row("th", head)}</thead><tbody>${rows.slice(0, mostRows).map((cells) => row("td", cells)).join("")}</tbody></table>${cut}</details>\n`;
}

/**
 * The drawing library as a piece of html: carried once in a document, before or after its figures.
 *
 * It is gzip in base64, unpacked in the page when the first figure is there; nothing is loaded from anywhere.
 */
export function libraryHtml(): string {
  return `<script>(${unpack.toString()})("${drawingLibrary().packed}");</script>`;
}

/** Runs in the page, not here: its text is put into the html, so it may use nothing from outside. */
function unpack(packed: string): void {
  interface Library {
    newPlot(place: unknown, data: unknown, layout: unknown, config: unknown): Promise<unknown>;
    purge(place: unknown): void;
  }
  interface Place {
    textContent: string | null;
    removeAttribute(name: string): void;
    setAttribute(name: string, value: string): void;
  }
  interface Entry {
    readonly id: string;
    readonly figure: { data: unknown; layout: unknown; config: unknown };
  }
  interface Page {
    airtidesFigures?: { push(entry: Entry): void; readonly ready?: boolean } | Entry[];
    Plotly?: Library;
    document: { querySelectorAll(what: string): Iterable<Place> };
    atob(text: string): string;
    setTimeout(work: () => void, milliseconds: number): void;
  }
  const page = globalThis as unknown as Page;
  const earlier = page.airtidesFigures;
  if (earlier !== undefined && "ready" in earlier) return;
  let library: Promise<Library> | undefined;
  const load = async (): Promise<Library> => {
    const bytes = Uint8Array.from(page.atob(packed), (c) => c.charCodeAt(0));
    const text = await new Response(new Blob([bytes]).stream().pipeThrough(new DecompressionStream("gzip"))).text();
    const module = { exports: {} as Library };
    // Neither a module loader of the page nor a sign in the source can disturb it when it is run as a function.
    new Function("define", "module", "exports", text)(undefined, module, module.exports);
    return typeof module.exports.newPlot === "function" ? module.exports : (page.Plotly as Library);
  };
  const draw = (entry: Entry, attempt: number): void => {
    const places = [...page.document.querySelectorAll(`[data-airtides-figure="${entry.id}"]:not([data-drawn])`)];
    // A front end may run the script before it has put the place into the page.
    if (places.length === 0 && attempt < 100) page.setTimeout(() => draw(entry, attempt + 1), 50);
    for (const place of places) {
      place.setAttribute("data-drawn", "");
      library ??= load();
      library.then(
        (plotly) => {
          place.textContent = "";
          place.removeAttribute("style");
          return plotly.newPlot(place, entry.figure.data, entry.figure.layout, entry.figure.config);
        },
        (fault: unknown) => {
          place.textContent = `The drawing library did not start: ${String(fault)}`;
        },
      );
    }
  };
  page.airtidesFigures = { ready: true, push: (entry: Entry) => draw(entry, 0) };
  for (const entry of Array.isArray(earlier) ? earlier : []) draw(entry, 0);
}
