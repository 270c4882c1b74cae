/**
 * Puts each command into a few files of its own, in the place of the compiled ones: over a hundred small files, and as many of zod, took longer
 * to load than a tide takes to fit. The library stays compiled file by file. Plain JavaScript, because it runs while the package is built.
 */
import { readdirSync, readFileSync, rmSync, writeFileSync } from "node:fs";
import { join } from "node:path";

/** What is started: the program, `npm start`, and the thread behind `--jobs`. */
const entries = ["airtides", "start", "recordThread"];
/** It starts processes from files that lie beside its own, so it stays as it is compiled, and tells its own failures. */
const apart = "./notebooksCommand.js";
const piece = /^piece-\w+\.js$/;

/**
 * Bundles the command line and writes beside it the licenses of the packages that went in.
 *
 * @param root folder of the package, compiled already
 */
export async function bundleCommands(root) {
  const { build } = await import("esbuild");
  const folder = join(root, "dist", "door", "cli");
  for (const name of readdirSync(folder)) if (piece.test(name)) rmSync(join(folder, name));
  const { metafile } = await build({
    absWorkingDir: root,
    entryPoints: entries.map((name) => join(root, "lib", "door", "cli", `${name}.ts`)),
    outdir: folder,
    chunkNames: "piece-[hash]",
    bundle: true,
    splitting: true,
    format: "esm",
    platform: "node",
    target: "node20",
    external: [apart, "hyparquet-writer"],
    // Packages of the older kind ask for Node's own modules by require.
    banner: { js: 'import { createRequire as requireFrom } from "node:module";\nconst require = requireFrom(import.meta.url);' },
    legalComments: "none",
    metafile: true,
    logLevel: "error",
  });
  for (const name of entries) for (const ending of [".js.map", ".d.ts.map"]) rmSync(join(folder, name + ending), { force: true });
  const inside = Object.keys(metafile.inputs).map((path) => /^(.*node_modules\/(?:@[^/]+\/)?[^/]+)\//.exec(path)?.[1]);
  const packages = [...new Set(inside)].filter((path) => path !== undefined).sort();
  writeFileSync(join(folder, "LICENSES.txt"), `The files of this folder hold code of these packages.\n${packages.map((path) => licenseOf(join(root, path))).join("")}`);
}

/** Name, version and license of a package; some keep the text in their README. */
function licenseOf(folder) {
  const { name, version, license } = JSON.parse(readFileSync(join(folder, "package.json"), "utf8"));
  const text = (like) => readdirSync(folder).filter((f) => like.test(f)).map((f) => readFileSync(join(folder, f), "utf8"))[0] ?? "";
  const words = text(/^licen[cs]e/i) || (/^#+ *licen[cs]e.*/ims.exec(text(/^readme/i))?.[0] ?? "");
  return `\n${"─".repeat(60)}\n${name} ${version}${license === undefined ? "" : ` (${license})`}\n\n${words.trim()}\n`;
}
