import { Worker } from "node:worker_threads";
import { kernelInfo } from "../kernel/kernelInfo.js";
import { type Cells, openCells } from "../kernel/openCells.js";
import { ownRoot } from "../kernel/ownPackage.js";
import type { OutputPiece } from "./gatherOutputs.js";
import type { NotebookRun, RunOrder, RunReport } from "./runApart.js";
import { type CellSession, runCells } from "./runCells.js";

/** How long output that a cell left running may still come in after the last cell · ms. */
const lateMilliseconds = 50;

/** The cells of this process as a session: pieces find the run they belong to by its number. */
function sessionOf(folder: string): { readonly session: CellSession; readonly cells: Cells } {
  const takers = new Map<string, (piece: OutputPiece) => void>();
  const cells = openCells({ folder, put: (tag, piece) => takers.get(tag)?.(piece) });
  const session: CellSession = {
    run: async (code, count, put) => {
      takers.set(String(count), put);
      const outcome = await cells.run(code, String(count));
      if (outcome.status === "error") put({ kind: "error", name: outcome.ename, value: outcome.evalue, traceback: outcome.traceback });
      else if (outcome.result !== null) put({ kind: "result", data: outcome.result.data, metadata: outcome.result.metadata, count });
      return outcome.status === "ok";
    },
  };
  return { session, cells };
}

async function runOrder(order: RunOrder, tell: (report: RunReport) => Promise<void>): Promise<void> {
  process.chdir(order.folder);
  const { session, cells } = sessionOf(order.folder);
  process.on("uncaughtException", (error) => cells.late(error));
  process.on("unhandledRejection", (error) => cells.late(error));
  const run = await runCells(order.notebook, session, {
    begins: (at, count) => void tell({ kind: "begins", at, count }),
    ended: (at, cell) => void tell({ kind: "ended", at, cell }),
  });
  await new Promise((resolve) => setTimeout(resolve, lateMilliseconds));
  // Cells may still print: what is sent is what stands now.
  await tell({ kind: "done", cells: structuredClone(run.cells), errors: run.errors, language: kernelInfo(ownRoot()).language_info as NotebookRun["language"] });
}

// A process of its own: this file is started, never imported.
process.once("disconnect", () => process.exit());
// A cell in an endless loop hears nothing: a thread sees that the parent is gone.
new Worker(new URL("./parentGuard.js", import.meta.url)).unref();
process.once("message", (order: RunOrder) => {
  const tell = (report: RunReport): Promise<void> => new Promise((resolve, reject) => process.send?.(report, (error: Error | null) => (error === null || error === undefined ? resolve() : reject(error))));
  runOrder(order, tell).then(
    // What cells left running (timers, servers) must not keep it alive.
    () => process.exit(0),
    (error: unknown) => {
      process.stderr.write(`${error instanceof Error ? error.message : String(error)}\n`);
      process.exit(70);
    },
  );
});
process.send?.({ kind: "ready" } satisfies RunReport);
