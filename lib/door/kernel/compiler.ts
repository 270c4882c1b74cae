import { createRequire } from "node:module";
import { dirname } from "node:path";
import type { Converter, ConvertResult, SideOutput } from "tslab/dist/converter.js";
import type { OwnPackage } from "./ownPackage.js";
import { plainGlobals } from "./plainGlobals.js";
import type { Parser, Syntax, SyntaxTree } from "./syntax.js";
import { type FileCallback, type WatchedFiles, watchedFiles } from "./watchedFiles.js";

export type { Converter, ConvertResult, SideOutput };

/** Runs what was compiled and keeps the cells' variables. */
export interface Executor {
  execute(source: string): Promise<boolean>;
  interrupt(): void;
  readonly locals: Record<string, unknown>;
}

/** Both source maps of one compiled file: TypeScript to module, module to script. */
export interface MapPair {
  /** JSON in base64. */
  readonly first: string;
  /** JSON. */
  readonly second: string;
}

/** The compiler of cells for one folder. */
export interface Compiler {
  /** Version of TypeScript that cells are written in. */
  readonly version: string;
  readonly parser: Parser;
  readonly files: WatchedFiles;
  /**
   * A fresh compiler state; takes some tenths of a second.
   *
   * @param types whole: all of Node's types; plain: the few names of plainGlobals.ts, at half the time
   */
  newConverter(types: "plain" | "whole"): Converter;
  /** Whether an import names the kernel's own package. */
  knowsOwn(name: string): boolean;
  /** Runs compiled cells; one per process, as it keeps its state on `globalThis`. */
  newExecutor(converter: Converter, thrown: (value: unknown) => void): Executor;
  /** Source maps of everything compiled since the last call, in the order compiled, by the compiled text. */
  takeMaps(): ReadonlyMap<string, MapPair>;
  /** Sets where tslab's own display functions write (`import { display } from "tslab"` in a cell). */
  writeDisplaysTo(write: (content: { data: Record<string, unknown>; transient?: { display_id?: string } }, update: boolean) => void): void;
}

interface TypeScriptModule {
  readonly version: string;
  readonly sys: {
    useCaseSensitiveFileNames: boolean;
    fileExists(path: string): boolean;
    directoryExists(path: string): boolean;
    readFile(path: string, encoding?: string): string | undefined;
    realpath?(path: string): string;
  };
  readonly ModuleResolutionKind: { readonly Bundler: number };
  readonly ScriptTarget: { readonly Latest: number };
  readonly ScriptKind: { readonly TS: number; readonly JS: number };
  readonly SyntaxKind: Readonly<Record<string, number>>;
  createWatchCompilerHost(files: readonly string[], options: object, ...rest: readonly unknown[]): unknown;
  transpileModule(input: string, options: { compilerOptions?: object }): { outputText: string; sourceMapText?: string };
  createSourceFile(name: string, text: string, target: number, parents: boolean, kind: number): SyntaxTree;
  forEachChild<T>(node: Syntax, see: (child: Syntax) => T | undefined): T | undefined;
}

/** A folder that exists for the compiler only. */
const plainRoot = "__types__";

const inlineMap = /\n?\/\/# sourceMappingURL=data:application\/json;(?:charset=utf-8;)?base64,([A-Za-z0-9+/=]+)\s*$/;

/**
 * Loads tslab with the changes that our cells need, for one folder.
 *
 * tslab promises none of the files used here: its version is pinned, and a missing name is told at once. Its compiler is
 * given a copy of TypeScript that resolves packages as bundlers do, finds the kernel's own package from any folder,
 * watches no files, and keeps source maps.
 *
 * @param folder where cells look for modules and types
 * @param own    the package that cells import by its name
 * @throws Error when tslab is not the expected one
 */
export function loadCompiler(folder: string, own: OwnPackage): Compiler {
  const load = createRequire(import.meta.url);
  const home = load.resolve("tslab/dist/converter.js");
  const fromTslab = createRequire(home);
  const place = fromTslab.resolve("@tslab/typescript-for-tslab");
  const typescript = fromTslab(place) as TypeScriptModule;
  const maps = new Map<string, MapPair>();
  const files = watchedFiles();

  const nodeTypes = typesOfNode(load, fromTslab);
  const slashed = folder.replaceAll("\\", "/");
  const plainFile = `${slashed}/${plainRoot}/plain/index.d.ts`;
  const plainFolders: readonly string[] = [`${slashed}/${plainRoot}`, `${slashed}/${plainRoot}/plain`];
  let types: "plain" | "whole" = "plain";
  const options = (): object => ({
    moduleResolution: typescript.ModuleResolutionKind.Bundler,
    paths: Object.fromEntries([...own.entries].map(([name, entry]) => [name, [entry.types.replaceAll("\\", "/")]])),
    ...(types === "whole" && nodeTypes !== null ? { typeRoots: [nodeTypes], types: ["node"] } : { typeRoots: [plainFolders[0]], types: ["plain"] }),
    inlineSourceMap: true,
  });
  const { sys } = typescript;
  sys.useCaseSensitiveFileNames = true;
  const changed: TypeScriptModule = {
    ...typescript,
    sys: Object.assign(Object.create(sys) as TypeScriptModule["sys"], {
      getCurrentDirectory: () => slashed,
      fileExists: (path: string) => path === plainFile || sys.fileExists(path),
      directoryExists: (path: string) => plainFolders.includes(path) || sys.directoryExists(path),
      readFile: (path: string, encoding?: string) => (path === plainFile ? plainGlobals : sys.readFile(path, encoding)),
      realpath: (path: string) => (path === plainFile ? path : (sys.realpath?.(path) ?? path)),
      watchDirectory: () => ({ close: () => undefined }),
      watchFile: (path: string, callback: FileCallback) => files.watch(path, callback),
    }),
    createWatchCompilerHost: (roots, given, ...rest) => typescript.createWatchCompilerHost(roots, { ...given, ...options() }, ...rest),
    transpileModule: (input, given) => {
      const first = inlineMap.exec(input)?.[1];
      const made = typescript.transpileModule(input.replace(inlineMap, ""), { ...given, compilerOptions: { ...given.compilerOptions, sourceMap: first !== undefined } });
      const outputText = made.outputText.replace(/\n?\/\/# sourceMappingURL=\S*\s*$/, "");
      if (first !== undefined && made.sourceMapText !== undefined) maps.set(outputText, { first, second: made.sourceMapText });
      return { outputText };
    },
  };
  const cached = load.cache[place];
  if (cached === undefined) throw new Error("the compiler of cells could not be prepared: TypeScript is not in the module cache");
  cached.exports = changed;

  const { createConverter } = load(home) as { createConverter?: () => Converter };
  const { createExecutor } = load("tslab/dist/executor.js") as {
    createExecutor?: (folder: string, converters: { node: Converter; browser: Converter; close(): void }, console: { log(value: unknown): void; error(value: unknown): void }) => Executor;
  };
  if (createConverter === undefined || createExecutor === undefined) throw new Error("the installed tslab does not have the parts that the kernel uses; install tslab 1.0.22");

  return {
    version: typescript.version,
    parser: parserOf(typescript),
    files,
    newConverter: (wanted) => {
      types = wanted;
      return createConverter();
    },
    knowsOwn: (name) => own.entries.has(name),
    newExecutor: (converter, thrown) => {
      const executor = createExecutor(folder, { node: converter, browser: converter, close: () => undefined }, { log: () => undefined, error: thrown });
      preferOwn(own);
      return executor;
    },
    takeMaps: () => {
      const taken = new Map(maps);
      maps.clear();
      return taken;
    },
    writeDisplaysTo: (write) => {
      (load("tslab/dist/jupyter.js") as { lastWriteDisplayData: unknown }).lastWriteDisplayData = write;
    },
  };
}

function parserOf(typescript: TypeScriptModule): Parser {
  const { SyntaxKind, ScriptKind, ScriptTarget } = typescript;
  return {
    parse: (text, language = "ts") => typescript.createSourceFile(`cell.${language}`, text, ScriptTarget.Latest, true, language === "ts" ? ScriptKind.TS : ScriptKind.JS),
    someChild: (node, see) => typescript.forEachChild(node, (child) => (see(child) === true ? true : undefined)) === true,
    kind: (name) => {
      if (typeof SyntaxKind[name] !== "number") throw new Error(`the compiler of cells must know a syntax kind ${name}; install tslab 1.0.22`);
      return SyntaxKind[name];
    },
  };
}

/** The folder that holds node/ with the types of `console`, `process` and the built-in modules. */
function typesOfNode(...from: readonly NodeJS.Require[]): string | null {
  for (const load of from) {
    try {
      return dirname(dirname(load.resolve("@types/node/package.json"))).replaceAll("\\", "/");
    } catch {
      // The next place may have them.
    }
  }
  return null;
}

/** Lets cells in any folder import the kernel's own package, whatever lies in that folder's node_modules. */
function preferOwn(own: OwnPackage): void {
  const cells = (globalThis as unknown as { __tslab__: { require: (name: string) => unknown } }).__tslab__;
  const found = cells.require;
  const load = createRequire(import.meta.url);
  cells.require = new Proxy(found, {
    apply: (target, self, args: [string]) => {
      const entry = own.entries.get(args[0]);
      return entry === undefined ? Reflect.apply(target, self, args) : load(entry.code);
    },
  });
}
