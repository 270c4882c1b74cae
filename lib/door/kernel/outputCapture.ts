import { AsyncLocalStorage } from "node:async_hooks";

/** One run of a cell: what its output and its late errors are told under. */
export interface CellRun {
  readonly tag: string;
  /** The count of interrupts when it started: a higher one means that it was interrupted. */
  readonly interruptsBefore: number;
}

/** Keeps the output of each cell apart, also what a timer prints after its cell has ended. */
export interface OutputCapture {
  /** Runs something as part of a cell. */
  within<T>(run: CellRun, work: () => T): T;
  /** The cell that the running code belongs to; the last one begun when it belongs to none. */
  current(): CellRun | null;
  /** Gives the process its own output back. */
  release(): void;
}

/**
 * Takes over the process's standard output and error.
 *
 * @param write called with each piece of text and the cell it belongs to; null before the first cell
 */
export function captureOutput(write: (run: CellRun | null, name: "stdout" | "stderr", text: string) => void): OutputCapture {
  const runs = new AsyncLocalStorage<CellRun>();
  let last: CellRun | null = null;
  const current = (): CellRun | null => runs.getStore() ?? last;
  const restore = (["stdout", "stderr"] as const).map((name) => {
    const stream = process[name];
    const original = stream.write;
    stream.write = ((chunk: string | Uint8Array, encoding?: BufferEncoding | (() => void), done?: () => void): boolean => {
      const text = typeof chunk === "string" ? chunk : Buffer.from(chunk).toString("utf8");
      write(current(), name, text);
      const after = typeof encoding === "function" ? encoding : done;
      if (after !== undefined) process.nextTick(after);
      return true;
    }) as typeof stream.write;
    return () => {
      stream.write = original;
    };
  });
  return {
    within: (run, work) => {
      last = run;
      return runs.run(run, work);
    },
    current,
    release: () => {
      for (const back of restore) back();
    },
  };
}
