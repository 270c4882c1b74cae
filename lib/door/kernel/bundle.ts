import { inspect } from "node:util";
import { displaySymbol } from "../../ground/display.js";
import { type Drawing, figureHtml } from "./figureHtml.js";

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
  if (drawing !== undefined && data["text/html"] === undefined) {
    const still = data["image/svg+xml"];
    data["text/html"] = figureHtml(drawing, typeof still === "string" ? still : undefined, altOf(value) ?? String(data["text/plain"]));
  }
  return { data, metadata, isFigure: drawing !== undefined };
}

/** What a figure says of itself for a reader who cannot see it. */
function altOf(value: unknown): string | null {
  const alt = (value as { alt?: unknown } | undefined)?.alt;
  return typeof alt === "string" ? alt : null;
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

/** A value as text, as a reader of a notebook wants it: long lists shortened, nothing colored. */
export function plainText(value: unknown): string {
  try {
    return inspect(value, { depth: 4, maxArrayLength: 60, maxStringLength: 10_000, breakLength: 100, compact: 3 });
  } catch (error) {
    return `(cannot be shown as text: ${error instanceof Error ? error.message : "unknown fault"})`;
  }
}
