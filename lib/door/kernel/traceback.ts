import { SourceMap, type SourceMapPayload } from "node:module";
import { inspect } from "node:util";
import type { MapPair } from "./compiler.js";
import { type EditedText, offsetOf, placeOf } from "./edits.js";

/** What is remembered of compiled code so that an error can name its lines. */
export interface CodeOrigin {
  /** How a reader knows it: `cell 7`, `helper.ts`. */
  readonly title: string;
  /** The text as written, or null when only its lines are known. */
  readonly source: string | null;
  readonly maps: MapPair;
  /** The script before and after guards were put in. */
  readonly script: EditedText & { readonly before: string };
  /** The tidied source that was compiled. */
  readonly tidied: EditedText;
  /** Lines that the compiler put before the source. */
  readonly prefixLines: number;
  /** Characters that stand before the script on its first line when it runs. */
  readonly wrapper: number;
}

/** An error as the protocol and the notebook format want it. */
export interface CellError {
  readonly ename: string;
  readonly evalue: string;
  readonly traceback: readonly string[];
}

/** A fault found by the compiler, in the cell as written. */
export interface CellFault {
  readonly message: string;
  readonly code: number;
  /** Offset and length in the text, or null for a fault elsewhere (then `where` says). */
  readonly at: { readonly start: number; readonly end: number } | null;
  readonly where: string;
}

/**
 * The compiler's faults as one error: a block for each, with its line and a caret.
 *
 * @param title  how a reader knows the cell
 * @param source the cell as written
 * @param faults at least one
 */
export function compileError(title: string, source: string, faults: readonly CellFault[]): CellError {
  const blocks = faults.map(({ message, code, at, where }) => {
    if (at === null) return `${where}: ${message} (TS${code})`;
    const { line, column } = placeOf(source, at.start);
    return `${title}, line ${line + 1}, column ${column + 1}: ${message} (TS${code})\n${excerpt(source, line, column, at.end - at.start)}`;
  });
  const first = faults[0];
  const more = faults.length === 1 ? "" : ` (and ${faults.length - 1} more)`;
  return { ename: "TypeScriptError", evalue: `${first.message.split("\n")[0]}${more}`, traceback: [`TypeScriptError: ${first.message.split("\n")[0]}${more}`, ...blocks] };
}

/**
 * What a cell threw as an error message: name, message and the cells' own lines, causes followed.
 *
 * @param thrown  anything
 * @param origins what is known of the code of cells, by the name in stack frames
 */
export function runError(thrown: unknown, origins: ReadonlyMap<string, CodeOrigin>): CellError {
  if (!isError(thrown)) {
    const shown = typeof thrown === "string" ? thrown : inspect(thrown, { depth: 2 });
    return { ename: "Thrown", evalue: shown, traceback: [`Thrown: ${shown}`] };
  }
  const traceback: string[] = [];
  const seen = new Set<unknown>();
  const tell = (error: unknown, lead: string): void => {
    if (seen.has(error)) return;
    seen.add(error);
    if (!isError(error)) {
      traceback.push(`${lead}${typeof error === "string" ? error : inspect(error, { depth: 2 })}`);
      return;
    }
    traceback.push(`${lead}${nameOf(error)}: ${error.message}`, ...frames(error, origins));
    if (error.cause !== undefined) tell(error.cause, "caused by ");
    const several = (error as { errors?: unknown }).errors;
    if (Array.isArray(several)) for (const one of several) tell(one, "one of them: ");
  };
  tell(thrown, "");
  return { ename: nameOf(thrown), evalue: String(thrown.message), traceback };
}

/** Errors of cells come from the same realm, errors of other realms still look like one. */
function isError(value: unknown): value is Error {
  return value instanceof Error || Object.prototype.toString.call(value) === "[object Error]";
}

function nameOf(error: Error): string {
  const name: unknown = error.name;
  return typeof name === "string" && name !== "" ? name : "Error";
}

/** The frames of an error that lie in cells or in files beside the notebook, the innermost with its line. */
function frames(error: Error, origins: ReadonlyMap<string, CodeOrigin>): string[] {
  const shown: string[] = [];
  for (const frame of String(error.stack ?? "").split("\n")) {
    const match = /^\s+at (?:(?:async )?(.*?) \()?(?:async )?(.+?):(\d+):(\d+)\)?$/.exec(frame);
    if (match === null) continue;
    const [, caller = "", file, row, column] = match;
    const origin = origins.get(file);
    if (origin === undefined) continue;
    const at = written(origin, Number(row) - 1, Number(column) - 1);
    if (at === null) continue;
    const name = caller.replace(/^(?:Object|Proxy)\./, "").replace(/\s*\[as .*\]$/, "");
    const within = name === "" || name === "<anonymous>" || name === "eval" ? "" : `, in ${name}`;
    const head = `  ${origin.title}, line ${at.line + 1}, column ${at.column + 1}${within}`;
    shown.push(origin.source === null ? head : `${head}\n${excerpt(origin.source, at.line, at.column, 1)}`);
  }
  return shown;
}

/** Place in the source as written of a place in the script that ran; null for lines of the wrapper. */
function written(origin: CodeOrigin, row: number, column: number): { line: number; column: number } | null {
  const { script, maps, tidied, prefixLines, wrapper } = origin;
  if (row >= script.text.split("\n").length || (row === 0 && column < wrapper)) return null;
  const inScript = placeOf(script.before, script.back(offsetOf(script.text, row, row === 0 ? column - wrapper : column)));
  const second = new SourceMap(JSON.parse(maps.second) as SourceMapPayload).findEntry(inScript.line, inScript.column);
  if (!("originalLine" in second)) return null;
  const first = new SourceMap(JSON.parse(Buffer.from(maps.first, "base64").toString("utf8")) as SourceMapPayload).findEntry(second.originalLine, second.originalColumn);
  if (!("originalLine" in first) || first.originalLine < prefixLines) return null;
  const line = first.originalLine - prefixLines;
  if (origin.source === null) return { line, column: first.originalColumn };
  if (line >= origin.source.split("\n").length) return null;
  return placeOf(origin.source, tidied.back(offsetOf(tidied.text, line, first.originalColumn)));
}

/** A line of a source with its number, and a caret below. */
function excerpt(source: string, line: number, column: number, length: number): string {
  const text = source.split("\n")[line] ?? "";
  const number = String(line + 1).padStart(6);
  const lead = text.slice(0, column).replace(/[^\t]/g, " ");
  const carets = "^".repeat(Math.max(1, Math.min(length, text.length - column)));
  return `${number} | ${text}\n       | ${lead}${carets}`;
}
