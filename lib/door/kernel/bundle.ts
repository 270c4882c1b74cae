import { inspect } from "node:util";
import { estimateInWords } from "../../answers/words.js";
import type { Figure } from "../../figure/figure.js";
import { drawStill } from "../../figure/still/still.js";
import { displaySymbol } from "../../ground/display.js";
import { type Drawing, figureHtml } from "./figureHtml.js";
import { isEstimate, type OwnForm, ownForm } from "./ownForms.js";

/** A value in the forms in which a notebook may show it. */
export interface MimeBundle {
  /** MIME type to text, base64 or plain JSON; `text/plain` is always there. */
  readonly data: Readonly<Record<string, unknown>>;
  readonly metadata: Readonly<Record<string, unknown>>;
  /** True when it is drawn by the drawing library, which the document must then carry. */
  readonly isFigure: boolean;
}

const drawingType = "application/vnd.plotly.v1+json";

/**
 * A value in all the forms it has: its own by its display method, a figure also as html, everything also as text.
 *
 * The method may give a bundle, or a bundle and its metadata. When it fails the value is shown as text with one line that
 * says why: what a cell has calculated is never lost to a fault in showing it.
 *
 * @param value what a cell gave
 */
export function bundleOf(value: unknown): MimeBundle {
  let note = "";
  try {
    const own = ownBundle(value);
    if (own !== null) return finished(value, own.data, own.metadata);
  } catch (error) {
    note = `\n(its display method failed: ${error instanceof Error ? `${error.name}: ${error.message}` : String(error)})`;
  }
  const form = note === "" ? formOf(value) : null;
  if (form !== null) return { data: { "text/plain": form.text, ...(form.html === undefined ? {} : { "text/html": form.html }) }, metadata: {}, isFigure: false };
  return { data: { "text/plain": `${plainText(value)}${note}` }, metadata: {}, isFigure: false };
}

/** A bundle given as such, such as `{ "text/html": "<b>…" }`, made fit for a message. */
export function bundleFrom(data: Readonly<Record<string, unknown>>): MimeBundle {
  return finished(undefined, data, {});
}

function ownBundle(value: unknown): { data: Record<string, unknown>; metadata: Record<string, unknown> } | null {
  if ((typeof value !== "object" && typeof value !== "function") || value === null) return null;
  const method = (value as Record<symbol, unknown>)[displaySymbol];
  if (typeof method !== "function") return null;
  const made: unknown = method.call(value);
  const [data, metadata = {}] = Array.isArray(made) ? (made as unknown[]) : [made];
  if (typeof data !== "object" || data === null) throw new TypeError(`the display method must return an object of MIME types (got ${inspect(data)})`);
  return { data: { ...data }, metadata: { ...(metadata as object) } };
}

function finished(value: unknown, given: Readonly<Record<string, unknown>>, metadata: Readonly<Record<string, unknown>>): MimeBundle {
  const data: Record<string, unknown> = {};
  for (const [type, part] of Object.entries(given)) {
    if (part === undefined) continue;
    if (part instanceof Uint8Array) data[type] = Buffer.from(part).toString("base64");
    else data[type] = typeof part === "string" ? part : JSON.parse(jsonText(part));
  }
  if (typeof data["text/plain"] !== "string") data["text/plain"] = value === undefined ? Object.keys(data).join(", ") : plainText(value);
  const drawing = data[drawingType] as Drawing | undefined;
  if (drawing !== undefined) {
    const own = isOwnFigure(value) ? value : null;
    if (own !== null) data["image/svg+xml"] ??= stillOf(own);
    const still = data["image/svg+xml"];
    const alt = (value as { alt?: unknown } | undefined)?.alt;
    data["text/html"] ??= figureHtml(drawing, {
      still: typeof still === "string" ? still : undefined,
      alt: typeof alt === "string" ? alt : String(data["text/plain"]),
      message: own?.message,
      table: own?.table,
    });
  }
  return { data, metadata, isFigure: drawing !== undefined };
}

/** A figure of ours, known by its parts: it may come from another copy of the package. */
function isOwnFigure(value: unknown): value is Figure {
  if (typeof value !== "object" || value === null) return false;
  const { name, alt, message, data, layout, table } = value as Partial<Record<keyof Figure, unknown>>;
  return [name, alt, message].every((part) => typeof part === "string") && Array.isArray(data) && typeof layout === "object" && Array.isArray((table as { rows?: unknown } | undefined)?.rows);
}

/** A figure without its still is still a figure: undefined when it cannot be drawn. */
function stillOf(figure: Figure): string | undefined {
  try {
    return drawStill(figure);
  } catch {
    return undefined;
  }
}

/** JSON as messages may carry it: NaN and infinities are null, typed arrays are lists, big integers are text. */
function jsonText(value: unknown): string {
  return JSON.stringify(value, (_key, part: unknown) => {
    if (typeof part === "number") return Number.isFinite(part) ? part : null;
    if (typeof part === "bigint") return part.toString();
    if (ArrayBuffer.isView(part) && !(part instanceof DataView)) return Array.from(part as unknown as ArrayLike<unknown>);
    return part;
  });
}

/** The library's plain things in their own form; a thing that only looks like one is shown as it is. */
function formOf(value: unknown): OwnForm | null {
  try {
    return ownForm(value);
  } catch {
    return null;
  }
}

const mostLines = 150;

/** A value as text, as a reader of a notebook wants it: not deeper than fits a few screens, intervals in words, nothing colored. */
export function plainText(value: unknown): string {
  try {
    const shown = withWords(value);
    let text = "";
    for (const depth of [4, 3, 2, 1]) {
      text = inspect(shown, { depth, maxArrayLength: 60, maxStringLength: 10_000, breakLength: 100, compact: 3 });
      if (typeof value === "string" || text.split("\n").length <= mostLines) return text;
    }
    const lines = text.split("\n");
    return [...lines.slice(0, mostLines), `… and ${lines.length - mostLines} more lines`].join("\n");
  } catch (error) {
    return `(cannot be shown as text: ${error instanceof Error ? error.message : "unknown fault"})`;
  }
}

/** A copy of plain objects and lists in which intervals speak for themselves; anything else, and what is large or goes in circles, stays. */
function withWords(value: unknown): unknown {
  let left = 5000;
  let found = false;
  const above = new Set<unknown>();
  const copy = (part: unknown): unknown => {
    if (typeof part !== "object" || part === null || left < 0) return part;
    if (isEstimate(part)) {
      found = true;
      return { [inspect.custom]: () => estimateInWords(part) };
    }
    const isList = Array.isArray(part);
    if (!isList && (Object.getPrototypeOf(part) !== Object.prototype || Object.values(Object.getOwnPropertyDescriptors(part)).some((d) => d.get !== undefined))) return part;
    left = above.has(part) ? -1 : left - 1;
    if (left < 0) return part;
    above.add(part);
    const copied = isList ? part.map(copy) : Object.fromEntries(Object.entries(part).map(([key, one]) => [key, copy(one)]));
    above.delete(part);
    return copied;
  };
  const copied = copy(value);
  return found && left >= 0 ? copied : value;
}
