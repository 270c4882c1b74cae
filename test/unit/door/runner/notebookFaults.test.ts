import { describe, expect, it } from "vitest";
import { mkdtempSync, writeFileSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { notebookFaults } from "../../../../lib/door/runner/notebookFaults.js";
import { readNotebook } from "../../../../lib/door/runner/readNotebook.js";

const good = (): Record<string, any> => ({
  nbformat: 4,
  nbformat_minor: 5,
  metadata: {},
  cells: [
    { cell_type: "markdown", id: "a", metadata: {}, source: ["# A\n", "b"] },
    { cell_type: "code", id: "b", metadata: { tags: ["x"] }, source: "1", execution_count: 1, outputs: [{ output_type: "stream", name: "stdout", text: "1" }] },
  ],
});
const spoiled = (change: (book: Record<string, any>) => void): string[] => {
  const book = good();
  change(book);
  return notebookFaults(book);
};

describe("notebookFaults", () => {
  it("finds none in a notebook", () => expect(notebookFaults(good())).toEqual([]));

  it.each([
    ["the kind of notebook", (b: any) => (b.nbformat = 3), "nbformat must be 4 (got 3)"],
    ["a missing list", (b: any) => delete b.cells, "the notebook.cells must be there (got nothing)"],
    ["a kind of cell", (b: any) => (b.cells[0].cell_type = "heading"), 'cells[0].cell_type must be code, markdown or raw (got "heading")'],
    ["a source", (b: any) => (b.cells[0].source = 7), "cells[0].source must be text or a list of lines (got 7)"],
    ["a name with a blank", (b: any) => (b.cells[0].id = "a b"), 'cells[0].id must be 1 to 64 letters, digits, - or _ (got "a b")'],
    ["a name twice", (b: any) => (b.cells[1].id = "a"), 'cells[1].id must be unlike every other cell\'s (got "a")'],
    ["an output's kind", (b: any) => (b.cells[1].outputs[0].output_type = "pyout"), 'cells[1].outputs[0].output_type must be stream, display_data, execute_result or error (got "pyout")'],
    ["a foreign key", (b: any) => (b.cells[1].prompt = 1), 'cells[1] must hold only id, cell_type, metadata, source, outputs, execution_count (got "prompt")'],
  ])("tells %s", (_what, change, sentence) => expect(spoiled(change)).toContain(sentence));

  it.each([null, [], "text", 7, undefined])("refuses %j as a whole", (value) => expect(notebookFaults(value)[0]).toMatch(/^the notebook must be an object/));
});

describe("readNotebook", () => {
  const file = (content: string): string => {
    const path = join(mkdtempSync(join(tmpdir(), "airtides-notebook-")), "a.ipynb");
    writeFileSync(path, content);
    return path;
  };

  it("reads a notebook as it is, with or without a byte order mark", async () => {
    expect(await readNotebook(file(JSON.stringify(good())))).toEqual(good());
    expect(await readNotebook(file(`\ufeff${JSON.stringify(good())}`))).toEqual(good());
  });

  it("names the cells of an older notebook", async () => {
    const older = good();
    older.nbformat_minor = 2;
    for (const cell of older.cells) delete cell.id;
    const read = await readNotebook(file(JSON.stringify(older)));
    expect([read.nbformat_minor, ...read.cells.map((c) => c.id)]).toEqual([5, "cell-1", "cell-2"]);
  });

  it("tells what is wrong in one sentence, with the file", async () => {
    await expect(readNotebook(file("{"))).rejects.toThrow(/a\.ipynb must hold JSON \(got: /);
    await expect(readNotebook(file("{}"))).rejects.toThrow(/a\.ipynb: nbformat must be 4 \(got nothing\)/);
    await expect(readNotebook("/no/such.ipynb")).rejects.toThrow("/no/such.ipynb could not be read: there is no such file");
  });
});
