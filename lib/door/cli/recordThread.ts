import { parentPort, workerData } from "node:worker_threads";
import { commandNamed } from "./commandNamed.js";
import type { ThreadStart } from "./sideBySide.js";
import { toldRecord } from "./toldRecord.js";

/** The thread behind `--jobs`: is handed the index of a record, and hands back what is to be told of it. */
const { name, options, records, telling } = workerData as ThreadStart;
const command = commandNamed(name, options, records);
parentPort?.on("message", async (index: number) => {
  parentPort?.postMessage({ index, outcome: await toldRecord(records[index], await command, telling) });
});
