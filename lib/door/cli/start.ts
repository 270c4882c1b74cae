import { dirname, join, relative } from "node:path";
import { fileURLToPath } from "node:url";
import type { ExitCode } from "./outcome.js";
import { runCommandLine } from "./commandLine.js";

/**
 * `npm start`: checks a record and tells its tide; the invented hill-school when none is named, with a word on one's own.
 *
 * @param words records, with options that both commands know; none for the demonstration
 */
export async function start(words: readonly string[]): Promise<ExitCode> {
  const demo = join(dirname(fileURLToPath(import.meta.url)), "..", "..", "..", "datasets", "hill-school");
  const own = words.some((w) => !w.startsWith("-"));
  const records = own ? words : [relative(process.cwd(), demo) || demo, ...words];
  const checked = await runCommandLine(["check", ...records]);
  if (checked !== 0) return checked;
  process.stdout.write(`\n${"─".repeat(60)}\n\n`);
  const told = await runCommandLine(["tides", ...records]);
  if (!own) process.stdout.write("\nThis record is invented. For your own card: npm start -- FOLDER, a folder with your logs and a datapackage.json (README.md, “Describing your own card”).\n");
  return told;
}
