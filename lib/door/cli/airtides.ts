#!/usr/bin/env node
import { runCommandLine } from "./commandLine.js";

process.stdout.on("error", (error: NodeJS.ErrnoException) => {
  // The reader of a pipe went away (`| head`): nothing is left to say.
  if (error.code === "EPIPE") process.exit(0);
  throw error;
});

process.exitCode = await runCommandLine(process.argv.slice(2));
