import { createHash } from "node:crypto";
import type { Queue, Worker } from "bullmq";
import { RecordError, shown } from "../../ground/complaint.js";
import type { CommandName } from "../cli/commandNamed.js";

type QueuePackage = typeof import("bullmq");

/** One question: what a job of the queue holds. */
export interface Task {
  readonly command: CommandName;
  /** The record, by a path that is the same for every worker. */
  readonly path: string;
}

/** The queue of tasks, whose results are lines of JSON. */
export type TaskQueue = Queue<Task, string>;
export type TaskWorker = Worker<Task, string>;

/** Where the queue is. */
export interface Place {
  /** redis:// or rediss:// address. */
  readonly redis: string;
  readonly queue: string;
}

/**
 * The key of a task, under which its result stands once, however often it was asked or begun.
 *
 * @example taskKey({ command: "tides", path: "/logs/mill" }).length // 64
 */
export function taskKey({ command, path }: Task): string {
  return createHash("sha256").update(`${command}\n${path}`).digest("hex");
}

async function queuePackage(): Promise<QueuePackage> {
  try {
    return await import("bullmq");
  } catch (error) {
    if ((error as NodeJS.ErrnoException).code !== "ERR_MODULE_NOT_FOUND") throw error;
    throw new RecordError("the queue must be kept by the optional package bullmq (got none installed); run `npm install bullmq ioredis`", "description");
  }
}

/** Waits for Redis the first time, so that a wrong address is told; later losses are waited out, and told once. */
async function answering<T extends TaskQueue | TaskWorker>(one: T, host: string): Promise<T> {
  const emitter = one as { on(event: "error", listener: (error: Error) => void): unknown };
  await new Promise<unknown>((resolve, reject) => {
    let isOpen = false;
    let last = "";
    emitter.on("error", (error) => {
      const why = error.message || ((error as NodeJS.ErrnoException).code ?? "no answer");
      if (!isOpen) reject(new RecordError(`Redis must answer at ${host} (got ${why}); start redis-server, or name another with --redis`, "description"));
      else if (why !== last) process.stderr.write(`note: ${host}: ${why}\n`);
      last = why;
    });
    const open = (): void => {
      isOpen = true;
      resolve(undefined);
    };
    one.waitUntilReady().then(open, () => undefined);
  });
  return one;
}

function hostOf(redis: string): string {
  if (!/^rediss?:\/\//.test(redis) || !URL.canParse(redis)) throw new RecordError(`--redis must be an address such as redis://127.0.0.1:6379 (got ${shown(redis)})`, "description");
  return new URL(redis).host;
}

/**
 * Opens the queue to put tasks in and take results out.
 *
 * @throws RecordError when the package is missing or Redis does not answer
 */
export async function openQueue({ redis, queue }: Place): Promise<TaskQueue> {
  const host = hostOf(redis);
  const { Queue } = await queuePackage();
  return answering(new Queue(queue, { connection: { url: redis } }) as TaskQueue, host);
}

/**
 * Opens a worker on the queue; it works until it is closed.
 *
 * @param work             does one task; `isLast` when no attempt is left after this one
 * @param options.jobs     tasks at a time
 * @param options.patience s of silence after which another worker takes a dead one's task over
 * @throws RecordError     when the package is missing or Redis does not answer
 */
export async function openWorker({ redis, queue }: Place, work: (task: Task, isLast: boolean) => Promise<string>, { jobs, patience }: { readonly jobs: number; readonly patience: number }): Promise<TaskWorker> {
  const host = hostOf(redis);
  const { Worker } = await queuePackage();
  const one = new Worker<Task, string>(queue, (job) => work(job.data, job.attemptsMade + 1 >= (job.opts.attempts ?? 1)), {
    connection: { url: redis },
    concurrency: jobs,
    lockDuration: 1000 * patience,
    stalledInterval: 1000 * patience,
    // A record whose workers die again and again is given up, and told, instead of killing the whole fleet.
    maxStalledCount: 3,
  });
  return answering(one as TaskWorker, host);
}
