import { relative } from "node:path";
import type { Compiler, Converter, ConvertResult, MapPair } from "./compiler.js";
import { applyEdits } from "./edits.js";
import { guardLoops } from "./loopGuards.js";
import type { Parser } from "./syntax.js";
import { type TidiedCell, tidyCell } from "./tidy.js";
import type { CellFault, CodeOrigin } from "./traceback.js";

/** A cell compiled. */
export interface CellCode {
  readonly converted: ConvertResult;
}

/** Compiles cells one after the other, each knowing what the earlier ones declared. */
export interface CellCompiler {
  readonly parser: Parser;
  converter(): Converter;
  /** Takes all of Node's types in from now on, which takes a moment; false when they are in already. */
  widen(): boolean;
  /** Declarations of everything the cells so far have named. */
  declarations(): string;
  /** Compiles a cell; declares nothing yet. */
  compile(code: string, tag: string): CellCode | { readonly faults: readonly CellFault[] };
  /** Takes a cell's declarations over, also when it threw: its values exist. */
  keep(cell: CellCode): void;
  /** Compiled code by its name in stack frames. */
  readonly origins: ReadonlyMap<string, CodeOrigin>;
  /** How a reader knows a run. */
  titleOf(tag: string): string;
}

const moduleNotFound = new Set([2307, 7016, 2792]);
const importedName = /\b(?:from|import|require)\s*\(?\s*["'`]([^"'`\n]+)["'`]/g;
const remembered = 2000;

/**
 * Compiles cells with the mends that tslab's converter needs.
 *
 * @param compiler the tslab door
 * @param names    declarations that every cell knows
 */
export function cellCompiler(compiler: Compiler, names: string): CellCompiler {
  let types: "plain" | "whole" = "plain";
  let converter = compiler.newConverter(types);
  let declarations = names;
  const origins = new Map<string, CodeOrigin>();
  const titleOf = (tag: string): string => `cell ${tag}`;

  const convert = (text: string): ConvertResult => {
    compiler.files.look();
    compiler.takeMaps();
    return converter.convert(declarations, text);
  };

  const renew = (): void => {
    converter.close();
    converter = compiler.newConverter(types);
  };
  const widen = (): boolean => {
    if (types === "whole") return false;
    types = "whole";
    renew();
    return true;
  };
  /** A package from outside may speak of Node's types where the compiler does not complain of missing ones. */
  const namesForeign = (code: string): boolean => [...code.matchAll(importedName)].some(([, name]) => !name.startsWith(".") && !compiler.knowsOwn(name));

  return {
    parser: compiler.parser,
    converter: () => converter,
    widen,
    declarations: () => declarations,
    origins,
    titleOf,
    compile: (code, tag) => {
      const tidied = tidyCell(compiler.parser, code);
      let converted: ConvertResult;
      try {
        if (types === "plain" && namesForeign(code)) widen();
        converted = convert(tidied.text);
        // No fault is told before the whole types were asked.
        if (converted.diagnostics.length > 0 && widen()) converted = convert(tidied.text);
        else if (converted.diagnostics.some((d) => moduleNotFound.has(d.code))) {
          // The module may have been made or installed since the compiler last looked.
          renew();
          converted = convert(tidied.text);
        }
      } catch (error) {
        renew();
        return { faults: [compilerFault(error)] };
      }
      if (converted.diagnostics.length > 0) return { faults: faultsOf(converted, tidied, code) };
      const maps = compiler.takeMaps();
      const hasToplevelAwait = converted.hasToplevelAwait === true || tidied.awaitsInLoop;
      const before = converted.output ?? "";
      const script = guardLoops(compiler.parser, before, hasToplevelAwait);
      const file = `cell-${tag}.ts`;
      const pair = maps.get(before);
      // What stands before the script on its first line is the executor's doing.
      const kind = hasToplevelAwait ? "async function" : "function";
      const opening = `return __tslab__.during(${kind} () { `;
      const wrapper = `(${kind}(exports, require) { ${opening}`;
      if (pair !== undefined) remember(file, { title: titleOf(tag), source: code, maps: pair, script: { ...script, before }, tidied, prefixLines: 1, wrapper: wrapper.length });
      for (const side of converted.sideOutputs ?? []) rememberSide(side.path, side.data, maps);
      return { converted: { ...converted, hasToplevelAwait, output: `${opening}${script.text}\n});\n//# sourceURL=${file}` } };
    },
    keep: ({ converted }) => {
      declarations = converted.declOutput ?? "";
    },
  };

  function remember(file: string, origin: CodeOrigin): void {
    origins.delete(file);
    origins.set(file, origin);
    if (origins.size > remembered) for (const oldest of origins.keys()) return void origins.delete(oldest);
  }

  /** A TypeScript file beside the notebook that a cell imports. */
  function rememberSide(path: string, script: string, maps: ReadonlyMap<string, MapPair>): void {
    const pair = maps.get(script);
    if (pair === undefined) return;
    const plain = applyEdits(script, []);
    remember(path, { title: relative(process.cwd(), path).replace(/\.js$/, ".ts"), source: null, maps: pair, script: { ...plain, before: script }, tidied: plain, prefixLines: 0, wrapper: 0 });
  }
}

function faultsOf(converted: ConvertResult, tidied: TidiedCell, code: string): CellFault[] {
  const faults: { message: string; code: number; at: CellFault["at"]; where: string }[] = [];
  for (const { start, end, messageText, code: number, fileName } of converted.diagnostics) {
    if (fileName !== undefined) {
      faults.push({ message: messageText, code: number, at: null, where: `${fileName}, line ${start.line + 1}, column ${start.character + 1}` });
      continue;
    }
    const at = { start: Math.min(tidied.back(start.offset), code.length), end: Math.min(tidied.back(end.offset), code.length) };
    const last = faults.at(-1);
    // The compiler's reasons for one fault come as further faults at the same place.
    if (last?.at != null && last.at.start === at.start && last.at.end === at.end && !last.message.includes(messageText)) last.message += `\n  ${messageText}`;
    else faults.push({ message: messageText, code: number, at, where: "" });
  }
  return faults;
}

function compilerFault(error: unknown): CellFault {
  const message = error instanceof Error ? error.message : String(error);
  const outside = /^unexpected emit path: /.test(message);
  return { message: outside ? "a TypeScript or JavaScript file outside the notebook's folder cannot be imported; move it beside the notebook, or make it a package" : message, code: 0, at: null, where: "the compiler" };
}
