import { Worker } from "node:worker_threads";
import type { CommandName, CommandOptions } from "./commandNamed.js";
import type { Failure } from "./outcome.js";
import type { Telling, Told } from "./toldRecord.js";

/** What a thread is started with. */
export interface ThreadStart {
  readonly name: CommandName;
  readonly options: CommandOptions;
  readonly records: readonly string[];
  readonly telling: Telling;
}

/** What a thread sends back: which record, and what to tell of it. */
export interface ThreadAnswer {
  readonly index: number;
  readonly outcome: Told | Failure;
}

/**
 * Asks one command about several records, some at a time, each in a thread of its own.
 *
 * @param start what each thread needs
 * @param jobs  threads at most
 * @returns     outcomes in the order of the records
 * @throws      what a thread throws that is no fault of its record: a broken promise of ours
 */
export async function sideBySide(start: ThreadStart, jobs: number): Promise<(Told | Failure)[]> {
  const { records } = start;
  const outcomes: (Told | Failure)[] = new Array(records.length);
  let next = 0;
  const one = (): Promise<void> =>
    new Promise((resolve, reject) => {
      const thread = new Worker(new URL("./recordThread.js", import.meta.url), { workerData: start });
      let isDone = false;
      const finish = (): void => {
        isDone = true;
        resolve(void thread.terminate());
      };
      const hand = (): void => {
        if (next < records.length) thread.postMessage(next++);
        else finish();
      };
      thread.on("message", ({ index, outcome }: ThreadAnswer) => {
        outcomes[index] = outcome;
        hand();
      });
      thread.on("error", reject);
      thread.on("exit", (code) => {
        if (!isDone) reject(new Error(`a thread ended by itself (${code}) before its records were told`));
      });
      hand();
    });
  await Promise.all(Array.from({ length: Math.min(jobs, records.length) }, one));
  return outcomes;
}
