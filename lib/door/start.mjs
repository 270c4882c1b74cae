/** `npm start [-- RECORD…]`: builds if needed, then check, tides and report of the record (hill-school when none is named). */
import { ensureBuilt } from "./build.mjs";

if (await ensureBuilt()) {
  const { start } = await import("../../dist/door/cli/start.js");
  process.exitCode = await start(process.argv.slice(2));
} else process.exitCode = 1;
