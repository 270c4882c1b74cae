import { resolve } from "node:path";
import { setTimeout as pause } from "node:timers/promises";
import { parseArgs } from "node:util";
import { RecordError } from "../../ground/complaint.js";
import { requireFree, writeBeside } from "../disk/writeBeside.js";
import { openQueue, type Task, taskKey, type TaskQueue } from "./fleetQueue.js";
import { failureLine, requireAnswering } from "./recordLine.js";
import { stationColumns, stationRows } from "./stationRows.js";

const jobOptions = (task: Task) => ({ jobId: taskKey(task), attempts: 3, backoff: { type: "exponential", delay: 1000 } });

/** Waits until a task has its line; a task that somebody took out of the queue is put in again. */
async function lineOf(queue: TaskQueue, task: Task): Promise<string> {
  for (;;) {
    const state = await queue.getJobState(taskKey(task));
    const job = state === "completed" || state === "failed" ? await queue.getJob(taskKey(task)) : undefined;
    if (job !== undefined && state === "completed") return job.returnvalue;
    if (job !== undefined) return failureLine(task.path, `${task.command} of ${task.path} was given up: ${job.failedReason}`);
    if (state === "unknown") await queue.add(task.command, task, jobOptions(task));
    await pause(100);
  }
}

/** Puts every record into the queue, waits for the lines, writes them in the order of the records, and only then takes them out. */
async function produce(words: string[]): Promise<number> {
  const { values, positionals } = parseArgs({ args: words, allowPositionals: true, options: { redis: { type: "string", default: "redis://127.0.0.1:6379" }, queue: { type: "string", default: "airtides" }, out: { type: "string" } } });
  const [command, ...paths] = [requireAnswering(positionals[0]), ...positionals.slice(1)];
  const { out, redis, queue: name } = values;
  if (paths.length === 0) throw new RecordError("produce.js must be given COMMAND and RECORD… (got no RECORD)", "description");
  const isTable = out?.endsWith(".csv") === true;
  if (out === undefined || !(out.endsWith(".jsonl") || (isTable && command === "tides"))) throw new RecordError(`--out must be a file that ends in .jsonl, or in .csv for tides (got ${out ?? "nothing"})`, "description");
  await requireFree(out);
  const tasks = paths.map((path): Task => ({ command, path: resolve(path) }));
  const queue = await openQueue({ redis, queue: name });
  // A task that stands in the queue already, from a producer that was ended, keeps its state and its result.
  await queue.addBulk(tasks.map((task) => ({ name: command, data: task, opts: jobOptions(task) })));
  const lines: string[] = [];
  for (const task of tasks) lines.push(await lineOf(queue, task));
  const rows = isTable ? [stationColumns, ...lines.flatMap((line) => stationRows(line).rows)] : lines;
  await writeBeside(out, `${rows.join("\n")}\n`);
  for (const task of tasks) await queue.remove(taskKey(task));
  await queue.close();
  const failures = lines.filter((line) => "error" in (JSON.parse(line) as object)).length;
  process.stderr.write(`wrote ${out}: ${lines.length} records, ${failures} of them without an answer\n`);
  return failures > 0 ? 1 : 0;
}

try {
  process.exitCode = await produce(process.argv.slice(2));
} catch (error) {
  if (!(error instanceof RecordError || error instanceof TypeError)) throw error;
  process.stderr.write(`${error.message}\n`);
  process.exit(2);
}
