import { type DisplayBundle, displaySymbol } from "../ground/display.js";
import type { Layout } from "./layout.js";
import type { Trace } from "./trace.js";

/** The numbers behind a figure, for readers who do not see it, as plain text (not pseudo-HTML). */
export interface FigureTable {
  readonly head: readonly string[];
  /** As many cells as the head; null is missing. */
  readonly rows: readonly (readonly (string | number | null)[])[];
}

/**
 * A picture as a plain description: no drawing code, the same for a notebook, a page and a still.
 *
 * `data` and `layout` are Plotly's, limited to what trace.ts and layout.ts allow. Axis ranges and ticks are always written out; times on
 * date axes are the record's standard time as text.
 */
export interface Figure {
  /** Short name for files and anchors, such as `tide-clock`. */
  readonly name: string;
  readonly data: readonly Trace[];
  readonly layout: Layout;
  /** What is to be seen, for a reader who cannot: kind of picture, axes, course. Plain text. */
  readonly alt: string;
  /** What the picture says, in a sentence or two, with the interval. Plain text. */
  readonly message: string;
  readonly table: FigureTable;
  [displaySymbol](columns?: number): DisplayBundle;
}

/**
 * How the drawing library is set up in a notebook or a page.
 *
 * Left alone it offers to send the chart, data and all, to its maker's server; a record stays with its owner.
 */
export const drawingOptions: Readonly<Record<string, unknown>> = Object.freeze({
  responsive: true,
  displaylogo: false,
  displayModeBar: "hover",
  modeBarButtonsToRemove: ["select2d", "lasso2d", "autoScale2d", "sendChartToCloud"],
  showSendToCloud: false,
  plotlyServerURL: "",
});

/**
 * Freezes a figure through and through and gives it its form in a notebook.
 *
 * The bundle has `text/plain`, the message, and `application/vnd.plotly.v1+json`.
 *
 * @param parts name, data, layout, alt, message and table
 * @returns     the same, frozen, with its form in a notebook
 * @example figure(parts)[displaySymbol]()["text/plain"] // "It rises."
 */
export function figure(parts: Omit<Figure, typeof displaySymbol>): Figure {
  const { name, data, layout, alt, message, table } = parts;
  const result = { name, data, layout, alt, message, table };
  const show = (): DisplayBundle => ({ "text/plain": message, "application/vnd.plotly.v1+json": { data, layout, config: drawingOptions } });
  Object.defineProperty(result, displaySymbol, { value: show, enumerable: false });
  return frozen(result) as Figure;
}

/** Freezes an object with all it holds. */
function frozen<T>(value: T): T {
  if (typeof value !== "object" || value === null || Object.isFrozen(value)) return value;
  for (const part of Object.values(value)) frozen(part);
  return Object.freeze(value);
}

/** Marks that would steer the direction of a whole line of text, and characters that cannot be drawn. */
const unprintable = /[\u0000-\u001f\u007f-\u009f\u200e\u200f\u202a-\u202e\u2066-\u2069]/g;

/**
 * Text of a record (a title, an event) made harmless for labels, names and hover templates.
 *
 * Plotly reads `<b>`, `<a href>`, entities and `%{…}` in texts; none of that may come out of a record.
 *
 * @param text   any text
 * @param longest characters kept; the rest becomes … · default 60
 * @returns       text without markup
 * @example plainText("<b>Loft & co") // "&lt;b&gt;Loft &amp; co"
 */
export function plainText(text: string, longest = 60): string {
  const clean = text.replace(unprintable, " ").replace(/\s+/g, " ").trim();
  const signs = [...clean];
  const short = signs.length > longest ? `${signs.slice(0, longest - 1).join("").trimEnd()}…` : clean;
  return short.replace(/&/g, "&amp;").replace(/</g, "&lt;").replace(/>/g, "&gt;").replace(/%\{/g, "% {");
}
