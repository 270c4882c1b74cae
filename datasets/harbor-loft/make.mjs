import { writeFileSync } from "node:fs";
import { fileURLToPath } from "node:url";
import { pageOf } from "../invent/pageOf.mjs";
import { trueAir } from "./air.mjs";
import { description } from "./description.mjs";
import { logRows, writeLogs } from "./log.mjs";
import { truth } from "./truth.mjs";

/**
 * Makes the invented record harbor-loft: true air → hourly rows on the civil clock → logs → truth. Same bytes each time.
 *
 * @returns { name of file: text } of everything that is written beside this script
 */
export function make() {
  const air = trueAir();
  const logs = writeLogs(logRows(air));
  const files = Object.fromEntries(logs.map(({ path, text }) => [path, text]));
  return { ...files, "datapackage.json": pageOf(description()), "truth.json": pageOf(truth(air, logs)) };
}

if (process.argv[1] === fileURLToPath(import.meta.url)) {
  for (const [name, text] of Object.entries(make())) {
    writeFileSync(new URL(name, import.meta.url), text);
    console.log(`${name}  ${Buffer.byteLength(text)} bytes`);
  }
}
