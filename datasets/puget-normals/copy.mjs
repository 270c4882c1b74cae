import { createHash } from "node:crypto";
import { readFileSync, writeFileSync } from "node:fs";
import { fileURLToPath, pathToFileURL } from "node:url";

/** SHA-256 of the file as vega-datasets 3.2.1 carries it. */
export const fingerprint = "3433511ab963755ec1a573420af962e713e66691c07c068f5a247e6891912311";

/**
 * Copies the hourly normals, unchanged, from the installed package to hourly.csv.
 *
 * `node datasets/puget-normals/copy.mjs [folder that holds node_modules]`, default the project's own.
 */
export function copy(folder) {
  const source = new URL("node_modules/vega-datasets/data/seattle-weather-hourly-normals.csv", folder);
  let bytes;
  try {
    bytes = readFileSync(source);
  } catch {
    throw new Error("vega-datasets is not installed; run `npm install --no-save vega-datasets@3.2.1` first");
  }
  const found = createHash("sha256").update(bytes).digest("hex");
  if (found !== fingerprint) throw new Error(`the file must be that of vega-datasets 3.2.1 (got SHA-256 ${found})`);
  writeFileSync(new URL("hourly.csv", import.meta.url), bytes);
  return bytes.length;
}

if (process.argv[1] === fileURLToPath(import.meta.url)) {
  const folder = process.argv[2] === undefined ? new URL("../../", import.meta.url) : pathToFileURL(`${process.argv[2]}/`);
  try {
    console.log(`hourly.csv  ${copy(folder)} bytes`);
  } catch (error) {
    console.error(error.message);
    process.exitCode = 1;
  }
}
