import { existsSync, mkdirSync, mkdtempSync, readFileSync, rmSync, writeFileSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { afterAll, afterEach, beforeEach, describe, expect, it, vi } from "vitest";
import { type KernelAction, kernelCommand } from "../../../../lib/door/cli/kernelCommand.js";

const home = mkdtempSync(join(tmpdir(), "home-"));
const machine = { platform: "linux" as const, home, environment: { JUPYTER_DATA_DIR: join(home, "data") } };
const folder = join(home, "data", "kernels", "airtides");
const file = join(folder, "kernel.json");
let out = "";
let notes = "";

beforeEach(() => {
  out = "";
  notes = "";
  vi.spyOn(process.stdout, "write").mockImplementation((text) => { out += String(text); return true; });
  vi.spyOn(process.stderr, "write").mockImplementation((text) => { notes += String(text); return true; });
});
afterEach(() => void vi.restoreAllMocks());
afterAll(() => rmSync(home, { recursive: true, force: true }));

const run = async (action: KernelAction, options: { prefix?: string } = {}): Promise<Record<string, unknown>> => {
  out = "";
  expect(await kernelCommand(action, { json: true, ...options }, machine)).toBe(0);
  return JSON.parse(out) as Record<string, unknown>;
};

describe("airtides kernel", () => {
  it("status, install, install again, status, remove, remove again", async () => {
    expect(await run("status")).toEqual({ name: "airtides", path: folder, installed: false });
    expect(await run("install")).toEqual({ name: "airtides", path: folder, installed: true });
    expect(await run("install")).toEqual({ name: "airtides", path: folder, installed: true });
    const spec = JSON.parse(readFileSync(file, "utf8"));
    expect(spec.argv[0]).toBe(process.execPath);
    expect(existsSync(spec.argv[1])).toBe(true);
    expect(await run("status")).toEqual({ name: "airtides", path: folder, installed: true });
    expect(notes).toBe("");
    expect(await run("remove")).toEqual({ name: "airtides", path: folder, installed: false });
    expect(existsSync(folder)).toBe(false);
    expect(await run("remove")).toEqual({ name: "airtides", path: folder, installed: false });
  });

  it("with --prefix, and says who finds it", async () => {
    const prefix = join(home, "venv");
    const path = join(prefix, "share", "jupyter", "kernels", "airtides");
    expect(await run("install", { prefix })).toEqual({ name: "airtides", path, installed: true });
    expect(notes).toContain(join(prefix, "share", "jupyter"));
    expect(await run("status")).toMatchObject({ installed: false });
    expect(await run("status", { prefix })).toMatchObject({ installed: true, path });
    await run("remove", { prefix });
  });

  it("leaves another's description as it is, and what lies beside", async () => {
    mkdirSync(folder, { recursive: true });
    const theirs = JSON.stringify({ argv: ["/bin/other", "{connection_file}"], display_name: "Other" });
    writeFileSync(file, theirs);
    for (const action of ["install", "remove"] as const) await expect(kernelCommand(action, {}, machine)).rejects.toThrow("was not written by airtides kernel install");
    expect(readFileSync(file, "utf8")).toBe(theirs);
    expect(await run("status")).toMatchObject({ installed: true });
    expect(notes).toContain("was not written by this command");
    rmSync(file);
    await run("install");
    writeFileSync(join(folder, "logo-64x64.png"), "theirs");
    await run("remove");
    expect(existsSync(join(folder, "logo-64x64.png"))).toBe(true);
    expect(existsSync(file)).toBe(false);
  });

  it("notices that the Node or the package it names is gone", async () => {
    await run("install");
    const spec = JSON.parse(readFileSync(file, "utf8"));
    writeFileSync(file, JSON.stringify({ ...spec, argv: ["/gone/node", ...spec.argv.slice(1)] }));
    expect(await run("status")).toMatchObject({ installed: true });
    expect(notes).toContain("/gone/node, which is not there any more; run airtides kernel install again");
  });

  it("speaks plainly without --json", async () => {
    await kernelCommand("install", {}, machine);
    expect(out).toBe(`the kernel “TypeScript (airtides)” stands in ${folder}; start Jupyter and choose it\n`);
  });
});
