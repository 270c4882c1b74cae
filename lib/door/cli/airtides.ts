#!/usr/bin/env node
import { runCommandLine } from "./commandLine.js";

process.stdout.on("error", (error: NodeJS.ErrnoException) => {
  // The reader of a pipe went away (`| head`): nothing is left to say.
  if (error.code === "EPIPE") process.exit(0);
  process.stderr.write(`standard output could not be written: ${error.code === "ENOSPC" ? "the disk is full" : error.message}\n`);
  process.exit(2);
});
// Where even that cannot be said there is nobody to say it to.
process.stderr.on("error", () => undefined);

process.exitCode = await runCommandLine(process.argv.slice(2));
