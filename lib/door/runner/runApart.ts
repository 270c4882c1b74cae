import { fork } from "node:child_process";
import { fileURLToPath } from "node:url";
import type { Notebook } from "./notebook.js";
import type { NotebookError, RanCell } from "./runCells.js";

/** From the parent to the notebook's process. */
export interface RunOrder {
  readonly notebook: Notebook;
  /** Folder of the notebook: its cells' own folder. */
  readonly folder: string;
}

/** From the notebook's process to its parent. */
export type RunReport =
  | { readonly kind: "ready" }
  | { readonly kind: "begins"; readonly at: number; readonly count: number }
  | { readonly kind: "ended"; readonly at: number; readonly cell: RanCell }
  | { readonly kind: "done"; readonly cells: readonly RanCell[]; readonly errors: readonly NotebookError[]; readonly language: Readonly<Record<string, unknown>> };

/** A notebook's run as its parent knows it. */
export interface NotebookRun {
  readonly cells: readonly RanCell[];
  readonly errors: readonly NotebookError[];
  /** What the notebook format wants to know of the language; empty when the process ended before it could say. */
  readonly language: Readonly<Record<string, unknown>>;
}

const signals = ["SIGINT", "SIGTERM", "SIGHUP"] as const;

/**
 * Runs a notebook in a process of its own, so that one that exits, crashes or fills the memory harms no other.
 *
 * @param order          the notebook and its folder
 * @param options.record whole path of the record, handed on as the variable RECORD; undefined takes RECORD away
 * @param options.begins told when a cell begins
 * @returns              what it put out; when its process ended early, that is an error of the cell that was running
 */
export function runApart(order: RunOrder, options: { readonly record: string | undefined; begins(count: number): void }): Promise<NotebookRun> {
  const { RECORD: _, ...environment } = process.env;
  const child = fork(fileURLToPath(new URL("./notebookProcess.js", import.meta.url)), [], {
    serialization: "advanced",
    stdio: ["ignore", "ignore", "pipe", "ipc"],
    env: options.record === undefined ? environment : { ...environment, RECORD: options.record },
    // Stop signals reach the child through its parent; loaders of a test are not its affair.
    execArgv: [],
  });
  const stop = (signal: NodeJS.Signals): void => {
    child.kill("SIGKILL");
    process.exit(128 + (signal === "SIGINT" ? 2 : signal === "SIGTERM" ? 15 : 1));
  };
  for (const signal of signals) process.once(signal, stop);

  return new Promise((resolve) => {
    const cells: RanCell[] = order.notebook.cells.map(() => ({ outputs: [], count: null }));
    let running: { at: number; count: number } | undefined;
    let last = "";
    let finished: NotebookRun | undefined;
    child.stderr?.setEncoding("utf8").on("data", (text: string) => {
      last = (last + text).slice(-4000);
    });
    child.on("message", (report: RunReport) => {
      if (report.kind === "ready") child.send(order);
      else if (report.kind === "begins") {
        running = report;
        options.begins(report.count);
      } else if (report.kind === "ended") cells[report.at] = report.cell;
      else finished = report;
    });
    child.on("close", (code, signal) => {
      for (const s of signals) process.removeListener(s, stop);
      resolve(finished ?? endedEarly(cells, running, code === null ? `signal ${signal}` : `exit code ${code}`, last));
    });
  });
}

/** The run of a process that ended on its own: the running cell gets an error that says so. */
function endedEarly(cells: readonly RanCell[], running: { readonly at: number; readonly count: number } | undefined, how: string, last: string): NotebookRun {
  const said = last.trim().split("\n").findLast((line) => /^\S/.test(line) && !/^Node\.js v/.test(line));
  const reason = /heap out of memory/.test(last)
    ? "the notebook ran out of memory"
    : running === undefined
      ? `cells could not be run at all (${said ?? how})`
      : `the notebook's process ended by itself (${how})`;
  const error = { output_type: "error", ename: "ProcessEnded", evalue: reason, traceback: [`ProcessEnded: ${reason}`, ...(last.trim() === "" ? [] : [last.trim()])] } as const;
  return {
    cells: cells.map((cell, at) => (at === running?.at ? { outputs: [...cell.outputs, error], count: running.count } : cell)),
    errors: [{ cell: running?.count ?? 0, message: `ProcessEnded: ${reason}` }],
    language: {},
  };
}
