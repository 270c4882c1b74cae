import { parseArgs } from "node:util";
import { RecordError, shown } from "../../ground/complaint.js";
import { openWorker, type Task } from "./fleetQueue.js";
import { recordLine, requireAnswering } from "./recordLine.js";

/** One attempt. What the data cannot carry is final; a record that is not there may be on a disk that is away for a moment. */
async function work({ command, path }: Task, isLast: boolean): Promise<string> {
  const { line, code } = await recordLine(requireAnswering(command), path);
  if (code === 2 && !isLast) throw new Error((JSON.parse(line) as { error: string }).error);
  return line;
}

function wholeNumber(option: string, text: string, low: number, high: number): number {
  const value = Number(text);
  if (Number.isInteger(value) && value >= low && value <= high) return value;
  throw new RecordError(`--${option} must be a whole number from ${low} to ${high} (got ${shown(text)})`, "description");
}

try {
  const text = (value: string) => ({ type: "string", default: value }) as const;
  const { values } = parseArgs({ options: { redis: text("redis://127.0.0.1:6379"), queue: text("airtides"), jobs: text("1"), patience: text("30") } });
  const limits = { jobs: wholeNumber("jobs", values.jobs, 1, 256), patience: wholeNumber("patience", values.patience, 1, 86_400) };
  const worker = await openWorker(values, work, limits);
  process.stderr.write(`working on queue ${values.queue}; Ctrl-C ends after the record in hand\n`);
  const end = (): void => void worker.close();
  process.once("SIGINT", end).once("SIGTERM", end);
} catch (error) {
  if (!(error instanceof RecordError || error instanceof TypeError)) throw error;
  process.stderr.write(`${error.message}\n`);
  process.exit(2);
}
