import { spawnSync } from "node:child_process";
import { mkdtempSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { describe, expect, it } from "vitest";
import { goodDescription, goodRows, recordFolder } from "../cli/run.js";
import { root } from "../laws/sources.js";

/** Rows of goodRows with some columns only. */
const columns = (days: number, keep: readonly number[]): string => goodRows(days).split("\n").map((row) => (row === "" ? "" : keep.map((k) => row.split(",")[k]).join(","))).join("\n");
const fields = goodDescription().resources[0].schema.fields;
const withFields = (name: string, keep: readonly number[]): Record<string, any> => {
  const description: Record<string, any> = { ...goodDescription(), name };
  description.resources[0].schema.fields = keep.map((k) => fields[k]);
  return description;
};

const records = {
  "harbor-loft": join(root, "datasets", "harbor-loft"),
  "puget-normals": join(root, "datasets", "puget-normals"),
  "one place, 45 days": recordFolder({ ...goodDescription(), name: "one-place" }, { "card.txt": goodRows(45) }),
  "pressure only": recordFolder(withFields("pressure-only", [0, 3]), { "card.txt": columns(45, [0, 3]) }),
  "temperature only": recordFolder(withFields("temperature-only", [0, 1]), { "card.txt": columns(30, [0, 1]) }),
  "twelve days": recordFolder({ ...goodDescription(), name: "twelve-days" }, { "card.txt": goodRows(12) }),
};

describe("the teaching notebooks on other records", () => {
  it.each(Object.entries(records))("%s: every cell runs; what the record cannot carry is said in a sentence", (_, path) => {
    const out = mkdtempSync(join(tmpdir(), "airtides-own-"));
    const run = spawnSync(process.execPath, [join(root, "dist", "door", "cli", "airtides.js"), "notebooks", path, "--out", out, "--json"], { encoding: "utf8", maxBuffer: 1 << 26, cwd: root });
    const { notebooks } = JSON.parse(run.stdout);
    expect(notebooks.length).toBe(11);
    expect(notebooks.flatMap((n: any) => n.errors.map((e: any) => `${n.path}: ${e.cell}: ${e.message}`))).toEqual([]);
    expect(run.status).toBe(0);
  }, 600_000);
});
