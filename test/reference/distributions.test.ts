import { readFileSync } from "node:fs";
import { describe, expect, it } from "vitest";
import * as ground from "../../lib/ground/distributions.js";
import { isClose } from "../close.js";

const file = JSON.parse(readFileSync(new URL("vectors/distributions.json", import.meta.url), "utf8")) as {
  tool: string;
  version: string;
  rows: Record<string, number[][]>;
};

/** How closely each routine must follow scipy; below and above the change of method the documentation promises different digits. */
const asked: Record<string, { call: (...a: number[]) => number; bound: (row: number[]) => { relative?: number; absolute?: number } }> = {
  tQuantile: { call: ground.tQuantile, bound: ([, dof]) => ({ relative: dof > 1000 ? 1e-9 : 1e-7 }) },
  tCdf: { call: ground.tCdf, bound: ([, dof]) => ({ absolute: dof > 1000 ? 1e-12 : 3e-8 }) },
  chiSquareQuantile: { call: ground.chiSquareQuantile, bound: ([, dof]) => ({ relative: dof > 1e5 ? 2e-7 : 1e-9 }) },
  chiSquareCdf: { call: ground.chiSquareCdf, bound: ([, dof]) => ({ absolute: dof > 1e5 ? 2e-7 : 1e-9 }) },
  fQuantile: { call: ground.fQuantile, bound: () => ({ relative: 3e-7 }) },
  fCdf: { call: ground.fCdf, bound: () => ({ absolute: 2e-7 }) },
  normalQuantile: { call: ground.normalQuantile, bound: () => ({ relative: 5e-9 }) },
  normalCdf: { call: ground.normalCdf, bound: () => ({ absolute: 1e-15 }) },
};

describe(`distributions against ${file.tool} ${file.version}`, () => {
  it("asks every routine", () => expect(Object.keys(file.rows).sort()).toEqual(Object.keys(asked).sort()));

  for (const [name, { call, bound }] of Object.entries(asked)) {
    it(`${name}, ${file.rows[name].length} rows`, () => {
      const wrong = file.rows[name].filter((row) => !isClose(call(...row.slice(0, -1)), row[row.length - 1], bound(row)));
      expect(wrong.map((row) => `${JSON.stringify(row)}: ${call(...row.slice(0, -1))}`)).toEqual([]);
      expect(file.rows[name].length).toBeGreaterThan(10);
    });
  }
});
