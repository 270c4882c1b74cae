/**
 * Compiles lib/ to dist/ when dist/ is missing or older than a source. Plain JavaScript, because it runs before anything is compiled.
 *
 * Called by `npm install` (prepare), by `npm start` and by `npm test`.
 */
import { spawnSync } from "node:child_process";
import { existsSync, readdirSync, readFileSync, statSync, writeFileSync } from "node:fs";
import { dirname, join } from "node:path";
import { fileURLToPath, pathToFileURL } from "node:url";
import { bundleCommands } from "./bundleCommands.mjs";

const root = join(dirname(fileURLToPath(import.meta.url)), "..", "..");
const compiler = join(root, "node_modules", "typescript", "bin", "tsc");
const mark = join(root, "dist", "door", "cli", "airtides.js");

function newest(folder) {
  let latest = 0;
  for (const entry of readdirSync(folder, { withFileTypes: true })) {
    const path = join(folder, entry.name);
    if (entry.isDirectory()) latest = Math.max(latest, newest(path));
    else if (/\.(ts|json)$/.test(entry.name)) latest = Math.max(latest, statSync(path).mtimeMs);
  }
  return latest;
}

/** Rooms that can be imported by themselves, as `airtides/air`. */
const rooms = ["air", "record", "grid", "cycles", "indoors", "figure"];

/** Writes dist/NAME.js and .d.ts of each room: the lines of index.ts that come out of it. The list itself stands once. */
function writeRooms() {
  const lines = readFileSync(join(root, "lib", "index.ts"), "utf8").split("\n");
  for (const room of rooms) {
    const own = lines.filter((line) => line.includes(`from "./${room}/`));
    // What is only a type has nothing to be exported from JavaScript.
    const values = own.filter((line) => !line.startsWith("export type ")).map((line) => line.replace(/\btype [^,}]+,? ?/g, "").replace(/,\s*}/, " }"));
    writeFileSync(join(root, "dist", `${room}.js`), `${values.filter((line) => !/{\s*}/.test(line)).join("\n")}\n`);
    writeFileSync(join(root, "dist", `${room}.d.ts`), `${own.join("\n")}\n`);
  }
}

/** Builds if needed; false (with one sentence on stderr) when it cannot. */
export async function ensureBuilt() {
  const have = existsSync(mark) ? statSync(mark).mtimeMs : 0;
  const want = Math.max(newest(join(root, "lib")), statSync(join(root, "tsconfig.json")).mtimeMs);
  if (have > want) return true;
  if (!existsSync(compiler)) {
    if (have > 0) return true;
    process.stderr.write("airtides is not built and the TypeScript compiler is not installed; run `npm install --include=dev` in its folder\n");
    return false;
  }
  const run = spawnSync(process.execPath, [compiler, "-p", join(root, "tsconfig.json")], { cwd: root, encoding: "utf8" });
  if (run.status === 0) {
    writeRooms();
    await bundleCommands(root);
    return true;
  }
  process.stderr.write(`airtides could not be compiled:\n${run.stdout}${run.stderr}`);
  return false;
}

if (import.meta.url === pathToFileURL(process.argv[1] ?? "").href) process.exitCode = (await ensureBuilt()) ? 0 : 1;
