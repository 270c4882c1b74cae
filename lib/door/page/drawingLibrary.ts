import { createHash } from "node:crypto";
import { readFileSync } from "node:fs";
import { createRequire } from "node:module";
import { gzipSync } from "node:zlib";

/** The drawing library, ready to be put into a page. */
export interface DrawingLibrary {
  /** gzip of the script's UTF-8 text, as base64: no character of it needs escaping in a page. */
  readonly packed: string;
  /** The script's own hash, as a Content-Security-Policy names it: `sha256-…`. */
  readonly hash: string;
  /** Size of the script unpacked · bytes. */
  readonly bytes: number;
}

let kept: DrawingLibrary | undefined;

/**
 * Reads the drawing library from its package and packs it, once a process.
 *
 * A page carries it as text that is not run; it is unpacked with DecompressionStream when a reader first touches a figure.
 *
 * @returns see DrawingLibrary
 * @throws Error when the package is not installed
 * @example drawingLibrary().bytes // 4831222
 */
export function drawingLibrary(): DrawingLibrary {
  if (kept === undefined) {
    const script = readFileSync(createRequire(import.meta.url).resolve("plotly.js-dist-min"));
    const hash = createHash("sha256").update(script).digest("base64");
    kept = Object.freeze({ packed: gzipSync(script, { level: 6 }).toString("base64"), hash: `sha256-${hash}`, bytes: script.length });
  }
  return kept;
}
