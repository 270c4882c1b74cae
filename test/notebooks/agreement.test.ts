import { spawnSync } from "node:child_process";
import { existsSync, readdirSync } from "node:fs";
import { join } from "node:path";
import { beforeAll, describe, expect, it } from "vitest";
import { commandLine, freshFolder, notebooks, readJson, root, samples } from "./runNotebooks.js";

/** Debian's python3-nbconvert, which runs a notebook through Jupyter's own client and the installed kernel. */
function nbconvert(path: string, out: string, data: string): void {
  const words = ["-m", "nbconvert", "--to", "notebook", "--execute", "--ExecutePreprocessor.kernel_name=airtides", "--output-dir", out, path];
  const { RECORD: _, ...environment } = process.env;
  const run = spawnSync("/usr/bin/python3", words, { encoding: "utf8", timeout: 110_000, env: { ...environment, JUPYTER_DATA_DIR: data } });
  if (run.status !== 0) throw new Error(`nbconvert ended with ${run.status}: ${run.stderr}`);
}

const folder = join(root, "notebooks");
const teaching = existsSync(folder) ? readdirSync(folder).filter((f) => f.endsWith(".ipynb")).map((f) => f.slice(0, -6)) : [];

describe("our run and nbconvert's run of one notebook", () => {
  const data = freshFolder();
  beforeAll(() => {
    const run = spawnSync(process.execPath, [commandLine, "kernel", "install"], { encoding: "utf8", env: { ...process.env, JUPYTER_DATA_DIR: data } });
    expect([run.status, run.stderr]).toEqual([0, ""]);
  });

  it.each([...["everything", "record"].map((name) => [name, samples]), ...teaching.map((name) => [name, folder])])("agree cell by cell: %s", (name, place) => {
    const [ours, theirs] = [freshFolder(), freshFolder()];
    const path = join(place, `${name}.ipynb`);
    expect(notebooks([], "--only", path, "--out", ours).code).toBe(0);
    nbconvert(path, theirs, data);
    const [a, b] = [ours, theirs].map((out) => readJson(join(out, `${name}.ipynb`)).cells.filter((c: any) => c.cell_type === "code"));
    expect(a.length).toBeGreaterThan(0);
    expect(a.map((c: any) => ({ count: c.execution_count, outputs: c.outputs.map(plain) }))).toEqual(b.map((c: any) => ({ count: c.execution_count, outputs: c.outputs.map(plain) })));
  });
});

/** An output with its texts as one string each: the format lets a writer keep lines or strings. */
function plain(output: any): any {
  const whole = (text: any): any => (Array.isArray(text) && text.every((l) => typeof l === "string") ? text.join("") : text);
  if (output.output_type === "stream") return { ...output, text: whole(output.text) };
  if (output.data === undefined) return output;
  return { ...output, data: Object.fromEntries(Object.entries(output.data).map(([type, value]) => [type, type.endsWith("json") ? value : whole(value)])) };
}
