import { spawnSync } from "node:child_process";
import { mkdtempSync, rmSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { afterAll, beforeAll, expect, it } from "vitest";

const prefix = mkdtempSync(join(tmpdir(), "kernels-"));
const commandLine = new URL("../../dist/door/cli/airtides.js", import.meta.url).pathname;

beforeAll(() => {
  expect(spawnSync(process.execPath, [commandLine, "kernel", "install", "--prefix", prefix, "--quiet"]).status).toBe(0);
});
afterAll(() => rmSync(prefix, { recursive: true }));

it("the public suite of kernel tests passes, with samples for all its tests (jupyter_kernel_test)", () => {
  const suite = new URL("suite.py", import.meta.url).pathname;
  const run = spawnSync("/usr/bin/python3", [suite], { encoding: "utf8", env: { ...process.env, JUPYTER_PATH: join(prefix, "share", "jupyter") } });
  expect(run.stderr).toMatch(/Ran 12 tests/);
  expect(run.stderr).not.toMatch(/FAIL|ERROR|skipped/);
  expect(run.status).toBe(0);
});
