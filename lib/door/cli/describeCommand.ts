import { stat } from "node:fs/promises";
import { basename, dirname, relative, resolve, sep } from "node:path";
import { type DescribeAnswer, describeLogs } from "../../answers/describeLogs.js";
import { RecordError } from "../../ground/complaint.js";
import { displaySymbol } from "../../ground/display.js";
import { pathFault } from "../../record/description/pathFault.js";
import type { LogSample } from "../../trust/draft/logSample.js";
import { sampleLog } from "../disk/sampleLog.js";
import { writeBeside } from "../disk/writeBeside.js";
import { jsonText } from "./json.js";
import { type ExitCode, type Failure, failureOf, firstOf } from "./outcome.js";

/**
 * `airtides describe`: looks at unknown logs and drafts their datapackage.json; writes only with `--out`, never over a file.
 *
 * Logs that cannot be described are told on standard error, one sentence each; the others are described all the same.
 *
 * @param files logs
 * @returns     the exit code: 0, or the highest of what failed
 */
export async function describeCommand(files: readonly string[], options: { readonly out?: string; readonly json?: boolean }): Promise<ExitCode> {
  const { out } = options;
  const failures: Failure[] = [];
  const tell = async <T>(name: string, act: () => Promise<T> | T): Promise<T | null> => {
    try {
      return await act();
    } catch (error) {
      failures.push(failureOf(name, error));
      return null;
    }
  };
  if (out !== undefined && (await stat(out).then(() => true, () => false))) {
    process.stderr.write(`${out} exists already and is not written over; name another file or move it away\n`);
    return 2;
  }
  const folder = out === undefined ? commonFolder(files) : dirname(resolve(out));
  const samples: LogSample[] = [];
  const own = new Set(files.map((f) => resolve(f)));
  for (const file of own) {
    const shown = files.find((f) => resolve(f) === file) ?? file;
    const sample = await tell(shown, () => sampleLog(shown, nameIn(folder, file, shown), own.size));
    if (sample !== null) samples.push(sample);
  }
  const answer = samples.length === 0 ? null : await tell("", () => describeLogs(samples, { name: basename(folder) }));
  for (const f of answer?.failures ?? []) failures.push(failureOf(f.path, new RecordError(f.error, f.kind)));
  const code = Math.max(0, ...failures.map((f) => f.code)) as ExitCode;
  if (answer === null) {
    process.stderr.write(`${firstOf(failures)}\n`);
    return code;
  }
  for (const f of failures) process.stderr.write(`${f.sentence}\n`);
  return (await told(answer, options)) ?? code;
}

/** Writes what is asked for; an exit code when that fails. */
async function told(answer: DescribeAnswer, { out, json }: { readonly out?: string; readonly json?: boolean }): Promise<ExitCode | null> {
  if (out !== undefined) {
    try {
      await writeBeside(out, jsonText(answer.draft));
    } catch (error) {
      const failure = failureOf("", error);
      process.stderr.write(`${failure.sentence}\n`);
      return failure.code;
    }
  }
  if (json === true) process.stdout.write(jsonText(answer));
  else {
    const columns = Math.min(110, Math.max(60, process.stdout.columns ?? 100));
    const end = out === undefined ? "Nothing was written: add --out datapackage.json to write the draft beside the logs, or --json to see it." : `Wrote ${out}. Next: airtides check ${dirname(out)}`;
    process.stdout.write(`${answer[displaySymbol](columns)["text/plain"]}\n${end}\n`);
  }
  return null;
}

/** The folder that holds all logs, where their description would stand. */
function commonFolder(files: readonly string[]): string {
  const parts = files.map((f) => dirname(resolve(f)).split(sep));
  let n = 0;
  while (parts.every((p) => n < p.length && p[n] === parts[0][n])) n++;
  return parts[0].slice(0, n).join(sep) || sep;
}

/** A log's path as the description names it. @throws RecordError when it lies outside the description's folder */
function nameIn(folder: string, file: string, shown: string): string {
  const name = relative(folder, file).split(sep).join("/");
  const fault = pathFault(name);
  if (fault !== null) throw new RecordError(`${shown} must be inside the folder of the description, ${folder} (got ${fault}); put the description beside the logs or above them`, "description", { file: shown });
  return name;
}
