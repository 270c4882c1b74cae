import { spawnSync } from "node:child_process";
import { mkdtempSync, readFileSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";

export const root: string = new URL("../..", import.meta.url).pathname;
export const samples: string = join(root, "test", "notebooks", "samples");
export const commandLine: string = join(root, "dist", "door", "cli", "airtides.js");

/** What `airtides notebooks` said. */
export interface Said {
  readonly code: number | null;
  readonly out: string;
  readonly err: string;
}

/** Runs the built command on sample notebooks. */
export function notebooks(names: readonly string[], ...words: string[]): Said {
  const only = names.flatMap((name) => ["--only", join(samples, `${name}.ipynb`)]);
  const run = spawnSync(process.execPath, [commandLine, "notebooks", ...words, ...only], { encoding: "utf8", timeout: 110_000, maxBuffer: 1 << 26 });
  return { code: run.status, out: run.stdout, err: run.stderr };
}

/** A folder of its own for a test. */
export function freshFolder(): string {
  return mkdtempSync(join(tmpdir(), "airtides-pages-"));
}

/** A JSON file. */
export function readJson(path: string): any {
  return JSON.parse(readFileSync(path, "utf8"));
}
