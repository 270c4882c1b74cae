import { spawnSync } from "node:child_process";
import { join } from "node:path";
import { expect, it } from "vitest";
import { root } from "../laws/sources.js";

interface Heap {
  readonly run: number;
  readonly bytes: number;
}

it("1 000 runs of check and tides in one process leave the heap flat: within 5 % after the first 100", () => {
  const { stdout, stderr, status } = spawnSync(process.execPath, ["--expose-gc", "--import", "tsx", join(root, "test", "slow", "soakRun.ts"), "1000", "100"], { cwd: root, encoding: "utf8" });
  expect([status, stderr]).toEqual([0, ""]);
  const heaps = stdout.trim().split("\n").map((line) => JSON.parse(line) as Heap);
  expect(heaps.map((h) => h.run)).toEqual([100, 200, 300, 400, 500, 600, 700, 800, 900, 1000]);
  const [first, ...later] = heaps.map((h) => h.bytes);
  const shares = later.map((b) => b / first - 1);
  expect(shares.filter((s) => !(Math.abs(s) <= 0.05)), `heap over that after 100 runs: ${shares.map((s) => `${(100 * s).toFixed(1)} %`).join(", ")}`).toEqual([]);
});
