import { dirname, join, relative } from "node:path";
import { fileURLToPath } from "node:url";
import type { ExitCode } from "./outcome.js";
import { runCommandLine } from "./commandLine.js";

/**
 * `npm start`: checks a record, tells its tide and writes its report; the invented hill-school when none is named, with a word on one's own.
 *
 * @param words records, with options that the commands know; none for the demonstration
 */
export async function start(words: readonly string[]): Promise<ExitCode> {
  const demo = join(dirname(fileURLToPath(import.meta.url)), "..", "..", "..", "datasets", "hill-school");
  const own = words.some((w) => !w.startsWith("-"));
  const records = own ? words : [relative(process.cwd(), demo) || demo, ...words];
  const code = records.every((w) => !w.startsWith("-")) ? await together(records) : await oneByOne(records);
  if (!own && code === 0) process.stdout.write("\nThis record is invented. For your own card: npm start -- FOLDER, a folder with your logs and a datapackage.json (README.md, “Describing your own card”).\n");
  return code;
}

/** Opens each record once for all that is told. */
async function together(records: readonly string[]): Promise<ExitCode> {
  const { runRecords } = await import("./runRecords.js");
  const { startCommand } = await import("./startCommand.js");
  return runRecords(records, {}, startCommand(records.length));
}

/** With options each command reads them for itself. */
async function oneByOne(words: readonly string[]): Promise<ExitCode> {
  let code: ExitCode = 0;
  for (const command of ["check", "tides", "report"]) {
    if (command !== "check") process.stdout.write(`\n${"─".repeat(60)}\n\n`);
    code = await runCommandLine([command, ...words]);
    if (code !== 0) return code;
  }
  return code;
}
