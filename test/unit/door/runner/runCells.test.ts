import { describe, expect, it } from "vitest";
import type { Notebook } from "../../../../lib/door/runner/notebook.js";
import { type CellSession, runCells, withOutputs } from "../../../../lib/door/runner/runCells.js";

/** A session that prints the code, and fails when the code says so. */
const echo: CellSession = {
  run: async (code, count, put) => {
    put({ kind: "stream", name: "stdout", text: `${count}:${code}` });
    if (code.startsWith("fail")) put({ kind: "error", name: "Error", value: `${code}\nsecond line`, traceback: [`Error: ${code}`] });
    return !code.startsWith("fail");
  },
};

function notebook(...cells: readonly (readonly [string, string | string[], ...string[]])[]): Notebook {
  return {
    nbformat: 4,
    nbformat_minor: 5,
    metadata: { title: "kept" },
    cells: cells.map(([kind, source, ...tags], i) => {
      const any = { id: `c${i}`, metadata: { tags }, source };
      return kind === "code" ? { ...any, cell_type: "code", outputs: [{ output_type: "stream", name: "stdout", text: "old" }], execution_count: 9 } : { ...any, cell_type: "markdown" };
    }),
  };
}

const silent = { begins: () => undefined, ended: () => undefined };
const frozen = <T>(value: T): T => {
  if (typeof value === "object" && value !== null) for (const part of Object.values(Object.freeze(value))) frozen(part);
  return value;
};

describe("runCells", () => {
  it("runs code cells in order with numbers from 1, passes over text and empty cells, and leaves its argument alone", async () => {
    const told: string[] = [];
    const book = frozen(notebook(["markdown", "# A"], ["code", ["a\n", "b"]], ["code", "  \n"], ["code", "c"]));
    const run = await runCells(book, echo, { begins: (at, count) => void told.push(`begins ${at} ${count}`), ended: (at, cell) => void told.push(`ended ${at} ${cell.outputs.length}`) });
    expect(run.errors).toEqual([]);
    expect(run.cells.map((c) => c.count)).toEqual([null, 1, null, 2]);
    expect(run.cells[1].outputs).toEqual([{ output_type: "stream", name: "stdout", text: "1:a\nb" }]);
    expect(told).toEqual(["begins 1 1", "ended 1 1", "begins 3 2", "ended 3 1"]);
  });

  it("stops at the first error and names its cell and message on one line", async () => {
    const run = await runCells(notebook(["code", "a"], ["markdown", ""], ["code", "fail here"], ["code", "c"]), echo, silent);
    expect(run.errors).toEqual([{ cell: 2, message: "Error: fail here" }]);
    expect(run.cells.map((c) => c.count)).toEqual([1, null, 2, null]);
    expect(run.cells[3].outputs).toEqual([]);
  });

  it("goes on after an error that its cell announces", async () => {
    const run = await runCells(notebook(["code", "fail", "raises-exception"], ["code", "c"]), echo, silent);
    expect(run.errors).toEqual([]);
    expect(run.cells.map((c) => c.count)).toEqual([1, 2]);
    expect(run.cells[0].outputs.map((o) => o.output_type)).toEqual(["stream", "error"]);
  });

  it("an empty notebook is run to its end", async () => {
    expect(await runCells(notebook(), echo, silent)).toEqual({ cells: [], errors: [] });
  });
});

describe("withOutputs", () => {
  it("puts a run's outputs in the place of the old ones, clears what was not reached, and names kernel and language", () => {
    const made = withOutputs(frozen(notebook(["code", "a"], ["code", "b"], ["markdown", "m"])), [{ outputs: [], count: 1 }, { outputs: [], count: null }], { name: "typescript", version: "5.0" });
    expect(made.cells.map((c) => (c.cell_type === "code" ? [c.execution_count, c.outputs.length] : "text"))).toEqual([[1, 0], [null, 0], "text"]);
    expect(made.metadata).toMatchObject({ title: "kept", kernelspec: { name: "airtides" }, language_info: { name: "typescript", version: "5.0" } });
    expect(withOutputs(notebook(), [], {}).metadata.language_info).toMatchObject({ name: "typescript" });
  });
});
