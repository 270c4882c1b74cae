import { createInterface } from "node:readline";
import { stationColumns, stationRows } from "./stationRows.js";

// `node dist/door/fleet/table.js < LINES > stations.csv`: JSON lines of `tides` as one table, in their order. Exit code 1 when a row is a failure.
process.stdout.on("error", (error: NodeJS.ErrnoException) => {
  if (error.code !== "EPIPE") process.stderr.write(`standard output could not be written: ${error.message}\n`);
  process.exit(2);
});
process.stdout.write(`${stationColumns}\n`);
for await (const text of createInterface({ input: process.stdin })) {
  if (text.trim() === "") continue;
  const { rows, isFailure } = stationRows(text);
  if (isFailure) process.exitCode = 1;
  process.stdout.write(`${rows.join("\n")}\n`);
}
