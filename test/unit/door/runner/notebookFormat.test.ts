import { readdirSync, readFileSync } from "node:fs";
import { join } from "node:path";
import { Ajv } from "ajv";
import { describe, expect, it } from "vitest";
import { random } from "../../../../lib/ground/random.js";
import { notebookFaults } from "../../../../lib/door/runner/notebookFaults.js";

const root = new URL("../../../..", import.meta.url).pathname;

/** The format's own schema; source and license in test/notebooks/README.md. */
const { $schema: _, ...schema } = JSON.parse(readFileSync(join(root, "test/notebooks/nbformat.v4.5.schema.json"), "utf8")) as Record<string, unknown>;
const agreesWithSchema = new Ajv({ strict: false }).compile(schema);

const samples = readdirSync(join(root, "test/notebooks/samples")).filter((f) => f.endsWith(".ipynb"));
const read = (name: string): any => JSON.parse(readFileSync(join(root, "test/notebooks/samples", name), "utf8"));

/** Every output and every piece of metadata that the format names, once. */
function full(): any {
  return {
    nbformat: 4,
    nbformat_minor: 5,
    metadata: { kernelspec: { name: "k", display_name: "K" }, language_info: { name: "l", codemirror_mode: { name: "m" }, file_extension: ".t", mimetype: "text/t", pygments_lexer: "l" }, title: "t", authors: [{ name: "n" }], orig_nbformat: 4 },
    cells: [
      { cell_type: "markdown", id: "a", metadata: { tags: ["x"], name: "n", jupyter: {} }, source: ["l\n"], attachments: { "p.png": { "image/png": "QQ==" } } },
      { cell_type: "raw", id: "b", metadata: { format: "text/x" }, source: "" },
      {
        cell_type: "code",
        id: "c",
        metadata: { collapsed: true, scrolled: "auto", execution: { "iopub.status.busy": "t" } },
        source: "1",
        execution_count: 2,
        outputs: [
          { output_type: "stream", name: "stdout", text: ["a\n"] },
          { output_type: "display_data", data: { "text/plain": "a", "application/json": { a: [1] }, "application/x+json": 1 }, metadata: {} },
          { output_type: "execute_result", data: { "text/plain": ["a"] }, metadata: {}, execution_count: null },
          { output_type: "error", ename: "E", evalue: "v", traceback: ["t"] },
        ],
      },
    ],
  };
}

/** All places of a document: the holder and the key. */
function places(value: any): [any, string | number][] {
  if (typeof value !== "object" || value === null) return [];
  return Object.keys(value).flatMap((key) => [[value, Array.isArray(value) ? Number(key) : key] as [any, string | number], ...places(value[key])]);
}

describe("our check of notebooks and the format's schema", () => {
  it.each(samples.filter((s) => read(s).nbformat_minor === 5))("agree that %s is a notebook", (name) => {
    expect([notebookFaults(read(name)), agreesWithSchema(read(name))]).toEqual([[], true]);
  });

  it("agree on a notebook with everything in it, changed at every place in every way", () => {
    expect([notebookFaults(full()), agreesWithSchema(full())]).toEqual([[], true]);
    const others = [null, true, 0, -1, 1.5, 3, "", "word", "a,b", [], ["a"], ["a", "a"], [1], {}, { a: 1 }, { a: "b" }];
    let refused = 0;
    const differ: string[] = [];
    const judge = (document: any, what: string): void => {
      const [ours, theirs] = [notebookFaults(document).filter((f) => !f.includes("unlike every other")).length === 0, agreesWithSchema(document)];
      if (!theirs) refused++;
      if (ours !== theirs) differ.push(`${what}: ours ${ours}, schema ${theirs}`);
    };
    const count = places(full()).length;
    for (let i = 0; i < count; i++) {
      for (const other of others) {
        const document = full();
        const [holder, key] = places(document)[i];
        holder[key] = other;
        judge(document, `${i} ${key} = ${JSON.stringify(other)}`);
      }
      const without = full();
      const [holder, key] = places(without)[i];
      if (Array.isArray(holder)) holder.splice(Number(key), 1);
      else delete holder[key];
      judge(without, `${i} ${key} gone`);
      const more = full();
      const at = places(more)[i];
      if (typeof at[0][at[1]] === "object" && at[0][at[1]] !== null && !Array.isArray(at[0][at[1]])) {
        at[0][at[1]].other = 1;
        judge(more, `${i} ${at[1]} with another key`);
      }
    }
    expect(differ).toEqual([]);
    expect(refused).toBeGreaterThan(300);
  });

  it("agree on documents with several changes at once (seed 7)", () => {
    const chance = random(7);
    const pick = (n: number): number => chance.integer(n);
    for (let k = 0; k < 300; k++) {
      const document = full();
      for (let c = 0; c < 3; c++) {
        const all = places(document);
        const [holder, key] = all[pick(all.length)];
        const [from, source] = all[pick(all.length)];
        holder[key] = structuredClone(from[source]);
      }
      const ours = notebookFaults(document).filter((f) => !f.includes("unlike every other")).length === 0;
      expect([JSON.stringify(document), ours]).toEqual([JSON.stringify(document), agreesWithSchema(document)]);
    }
  });
});
