import { unlinkSync } from "node:fs";

const signals = { SIGINT: 2, SIGTERM: 15, SIGHUP: 1 } as const;
type Signal = keyof typeof signals;
/** Listeners of this file, which do not count as somebody else's. */
const own = new Set<unknown>();

/**
 * Does some work that an interrupt (Ctrl-C) ends with one sentence and the exit code of the trade, 128 and the signal's number.
 *
 * Where somebody else listens to the signal (a kernel, a runner with processes of its own) the decision is theirs. Between two pieces of
 * asynchronous work only: what computes without a pause is ended by the system as ever.
 *
 * @param sentence told on standard error when it is interrupted
 * @param work     what to do
 * @param undo     what to clean up when the process ends before the work does; must not fail
 */
export async function heedingInterrupts<T>(sentence: string, work: () => Promise<T>, undo: () => void = () => undefined): Promise<T> {
  const listeners = (Object.keys(signals) as Signal[]).map((signal) => {
    const listener = (): void => {
      if (process.listeners(signal).some((other) => !own.has(other))) return;
      process.stderr.write(`${sentence}\n`);
      process.exit(128 + signals[signal]);
    };
    own.add(listener);
    process.on(signal, listener);
    return [signal, listener] as const;
  });
  process.on("exit", undo);
  try {
    return await work();
  } finally {
    for (const [signal, listener] of listeners) {
      process.off(signal, listener);
      own.delete(listener);
    }
    process.off("exit", undo);
  }
}

/** Takes an unfinished file away, whether or not it is there. */
export function dropUnfinished(path: string): void {
  try {
    unlinkSync(path);
  } catch {
    // It has got its name already, or was never made: there is nothing half written.
  }
}
