import { bundleFrom, bundleOf, type MimeBundle } from "./bundle.js";
import { type CellCode, type CellCompiler, cellCompiler } from "./cellCompiler.js";
import { loadCompiler } from "./compiler.js";
import { libraryHtml } from "./figureHtml.js";
import { type Completions, completeCell, inspectCell } from "./hints.js";
import { displayNames, nameDisplays } from "./cellNames.js";
import type { InterruptGate } from "./interruptGate.js";
import { type CellRun, captureOutput } from "./outputCapture.js";
import { ownPackage } from "./ownPackage.js";
import { type CellError, compileError, runError } from "./traceback.js";

/** Something that a cell puts out while it runs, or later. */
export type CellPiece =
  | { readonly kind: "stream"; readonly name: "stdout" | "stderr"; readonly text: string }
  | { readonly kind: "display"; readonly data: MimeBundle["data"]; readonly metadata: MimeBundle["metadata"]; readonly id?: string }
  | { readonly kind: "update"; readonly data: MimeBundle["data"]; readonly metadata: MimeBundle["metadata"]; readonly id: string }
  | { readonly kind: "clear"; readonly wait: boolean };

/** How a run of a cell ended. */
export type CellOutcome = { readonly status: "ok"; readonly result: MimeBundle | null } | ({ readonly status: "error" } & CellError);

/** What the cells of one process need from outside. */
export interface CellSurroundings {
  /** Folder in which modules are looked for; the process should work there too. */
  readonly folder: string;
  /** Takes each piece of output with the tag of the run it belongs to; an empty tag before the first run. */
  readonly put: (tag: string, piece: CellPiece) => void;
  /** Answers `prompt`; left out, cells that ask are refused. */
  readonly ask?: (tag: string, question: string, secret: boolean) => string;
  /** Where interrupts come from; default nowhere. */
  readonly gate?: InterruptGate;
  /** Whether a run's first figure is preceded by the drawing library; default true. A page that carries it itself says false. */
  readonly carriesLibrary?: boolean;
}

/** Cells that are run one after the other and share their names. One per process. */
export interface Cells {
  /** Version of TypeScript. */
  readonly language: string;
  /**
   * Compiles and runs a cell.
   *
   * @param code TypeScript
   * @param tag  names this run, such as "7"; stands in error messages and with each piece of output
   * @param key  names the cell itself where its place in the document is known, so that the drawing library is carried again when
   *             the cell that carried it is run again; default its code
   */
  run(code: string, tag: string, key?: string): Promise<CellOutcome>;
  /** Value of an expression over the cells' names, leaving nothing behind. */
  evaluate(expression: string, tag: string): Promise<CellOutcome>;
  /** Completions at an offset (UTF-16). */
  complete(code: string, position: number): Completions;
  /** Type and documentation at an offset (UTF-16), or null. */
  inspect(code: string, position: number): string | null;
  /** Is a text a whole cell; see isComplete.ts. */
  readonly parser: CellCompiler["parser"];
  /** Ends what waits in the running cell (a pending promise). */
  interrupt(): void;
  /** An error that belongs to no run any more (a timer, a promise nobody waits for), as output of its cell. */
  late(error: unknown): void;
  /** Gives the process its output back. */
  close(): void;
}

/**
 * Opens the cells of this process: TypeScript, types carried from cell to cell, `airtides` importable from any folder.
 *
 * @param around see CellSurroundings
 * @throws Error when a second set is opened in one process, or the package is not built
 */
export function openCells(around: CellSurroundings): Cells {
  const compiler = loadCompiler(around.folder, ownPackage());
  const cells = cellCompiler(compiler, displayNames);
  const output = captureOutput((run, name, text) => around.put(run?.tag ?? "", { kind: "stream", name, text }));
  const gate = around.gate;
  const interrupts = gate?.count ?? ((): number => 0);
  let thrown: { readonly value: unknown } | null = null;
  let pending: CellCode | null = null;
  let carrier: string | null = null;
  let key = "";

  const executor = compiler.newExecutor(
    { ...cells.converter(), convert: () => ({ ...(pending as CellCode).converted, lastExpressionVar: undefined }) },
    (value) => {
      thrown = { value };
    },
  );
  const ended = (): boolean => interrupts() > (output.current()?.interruptsBefore ?? Number.POSITIVE_INFINITY);
  const check = (): void => {
    if (ended()) throw interruption();
  };
  // What the compiled cells call: see cellCompiler.ts and loopGuards.ts.
  Object.assign((globalThis as unknown as { __tslab__: object }).__tslab__, {
    check,
    during: (work: () => unknown): unknown => {
      gate?.enter();
      try {
        check();
        return work();
      } finally {
        gate?.leave();
      }
    },
  });

  /** Sends a figure's library ahead of it when the document does not carry it yet. */
  const carry = (bundle: MimeBundle, tag: string): void => {
    if (!bundle.isFigure || around.carriesLibrary === false) return;
    if (carrier !== null && !(carrier === key && carriedBy !== tag)) return;
    carrier = key;
    carriedBy = tag;
    around.put(tag, { kind: "display", data: { "text/html": libraryHtml(), "text/plain": "(the drawing library of this document's figures)" }, metadata: {} });
  };
  let carriedBy = "";

  const names = nameDisplays({
    show: (bundle, id, isUpdate) => {
      const tag = output.current()?.tag ?? "";
      carry(bundle, tag);
      const { data, metadata } = bundle;
      if (isUpdate && id !== undefined) around.put(tag, { kind: "update", data, metadata, id });
      else around.put(tag, { kind: "display", data, metadata, ...(id === undefined ? {} : { id }) });
    },
    clear: (wait) => around.put(output.current()?.tag ?? "", { kind: "clear", wait }),
    ask: (question, secret) => {
      if (around.ask === undefined) throw new Error("prompt must have someone to ask: these cells run unattended; write the answer into the cell");
      return around.ask(output.current()?.tag ?? "", question, secret);
    },
  });
  for (const [name, value] of Object.entries(names)) executor.locals[name] = value;
  compiler.writeDisplaysTo(({ data, transient }, update) => {
    const tag = output.current()?.tag ?? "";
    const bundle = bundleFrom(data);
    const id = transient?.display_id;
    if (update && id !== undefined) around.put(tag, { kind: "update", data: bundle.data, metadata: {}, id });
    else around.put(tag, { kind: "display", data: bundle.data, metadata: {}, ...(id === undefined ? {} : { id }) });
  });

  const execute = async (code: string, tag: string, keeps: boolean): Promise<{ error: CellError } | { has: boolean; value: unknown }> => {
    const run: CellRun = { tag, interruptsBefore: interrupts() };
    const made = cells.compile(code, tag);
    if ("faults" in made) return { error: compileError(cells.titleOf(tag), code, made.faults) };
    pending = made;
    thrown = null;
    await output.within(run, () => executor.execute("cell"));
    gate?.reset();
    if (keeps) cells.keep(made);
    // The callback above sets it, which the compiler cannot see.
    const fault = thrown as { readonly value: unknown } | null;
    const name = made.converted.lastExpressionVar;
    const has = name !== undefined && fault === null;
    const value = name === undefined ? undefined : executor.locals[name];
    if (name !== undefined) delete executor.locals[name];
    if (fault !== null) return { error: isInterruption(fault.value) ? { ...runError(interruption(), new Map()) } : runError(fault.value, cells.origins) };
    return { has, value };
  };

  return {
    language: compiler.version,
    parser: compiler.parser,
    run: async (code, tag, cellKey = code) => {
      key = cellKey;
      const made = await execute(code, tag, true);
      if ("error" in made) return { status: "error", ...made.error };
      if (!made.has || made.value === undefined) return { status: "ok", result: null };
      const run: CellRun = { tag, interruptsBefore: interrupts() };
      const result = output.within(run, () => bundleOf(made.value));
      carry(result, tag);
      return { status: "ok", result };
    },
    evaluate: async (expression, tag) => {
      const made = await execute(`(${expression}\n)`, tag, false);
      return "error" in made ? { status: "error", ...made.error } : { status: "ok", result: bundleOf(made.value) };
    },
    complete: (code, position) => {
      const look = (): Completions => completeCell(cells.converter(), cells.declarations(), code, position);
      const found = look();
      return found.matches.length > 0 || !cells.widen() ? found : look();
    },
    inspect: (code, position) => {
      const look = (): string | null => inspectCell(cells.converter(), cells.declarations(), code, position);
      const found = look();
      return found !== null || !cells.widen() ? found : look();
    },
    interrupt: () => executor.interrupt(),
    late: (error) => {
      if (isInterruption(error)) return;
      around.put(output.current()?.tag ?? "", { kind: "stream", name: "stderr", text: `${runError(error, cells.origins).traceback.join("\n")}\n` });
    },
    close: () => output.release(),
  };
}

function interruption(): Error {
  return Object.assign(new Error("the cell was interrupted"), { name: "Interrupted" });
}

/** The three ways in which an interrupt arrives: a signal in running code, a promise waited for, a guard in a loop. */
function isInterruption(value: unknown): boolean {
  if (typeof value !== "object" || value === null) return false;
  const { name, message, code } = value as { name?: unknown; message?: unknown; code?: unknown };
  return code === "ERR_SCRIPT_EXECUTION_INTERRUPTED" || message === "Interrupted asynchronously" || name === "Interrupted";
}
