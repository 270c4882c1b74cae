import { spawnSync } from "node:child_process";
import { existsSync, mkdtempSync, readFileSync, rmSync, writeFileSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { afterAll, beforeAll, describe, expect, it } from "vitest";
import { figureCell, notebookFile } from "./notebookFile.js";

const folder = mkdtempSync(join(tmpdir(), "clients-"));
const commandLine = new URL("../../dist/door/cli/airtides.js", import.meta.url).pathname;
const environment = { ...process.env, JUPYTER_PATH: join(folder, "share", "jupyter") };
/** Debian's interpreter: it has the clients. */
const python = (...args: string[]) => spawnSync("/usr/bin/python3", args, { cwd: folder, encoding: "utf8", env: environment });

beforeAll(() => {
  expect(spawnSync(process.execPath, [commandLine, "kernel", "install", "--prefix", folder, "--quiet"]).status).toBe(0);
});
afterAll(() => rmSync(folder, { recursive: true }));

describe("nbconvert", () => {
  it("lists the kernel and runs a notebook in a folder far from the package", () => {
    expect(python("-c", "from jupyter_client.kernelspec import KernelSpecManager as K; print(K().find_kernel_specs()['airtides'])").stdout.trim()).toBe(join(folder, "share", "jupyter", "kernels", "airtides"));
    const cells = [
      "import { dewPoint, type Estimate } from 'airtides';\nimport { openRecord } from 'airtides/disk';\nconst point: number = dewPoint(20, 50);\nconsole.log('dew point', Math.round(point));\ntypeof openRecord",
      "const waited = await new Promise<string>((done) => setTimeout(() => done('waited'), 20)); waited",
      figureCell("first"),
      figureCell("second"),
      "[{ a: 1 }, { a: 2 }]",
    ];
    writeFileSync(join(folder, "book.ipynb"), notebookFile(cells));
    const run = python("-m", "nbconvert", "--to", "notebook", "--execute", "--output", "done.ipynb", "book.ipynb");
    expect(run.status, run.stderr).toBe(0);
    const outputs = (JSON.parse(readFileSync(join(folder, "done.ipynb"), "utf8")).cells as { outputs: any[] }[]).map((cell) => cell.outputs);
    expect(outputs[0]).toMatchObject([{ output_type: "stream", name: "stdout" }, { output_type: "execute_result" }]);
    expect([outputs[0][0].text].flat().join("")).toBe("dew point 9\n");
    // Notebooks keep text as lists of lines.
    const plain = (output: any): string => [output.data["text/plain"]].flat().join("");
    expect(plain(outputs[0][1])).toBe("'function'");
    expect(plain(outputs[1][0])).toBe("'waited'");
    expect(plain(outputs[4][0])).toBe("a\n1\n2");
    expect([outputs[4][0].data["text/html"]].flat().join("")).toContain("<table>");
    // The first figure carries the library, the second does not.
    expect(outputs[2].map((o) => o.output_type)).toEqual(["display_data", "execute_result"]);
    expect(outputs[3].map((o) => o.output_type)).toEqual(["execute_result"]);
    expect(Object.keys(outputs[3][0].data).sort()).toEqual(["application/vnd.plotly.v1+json", "image/svg+xml", "text/html", "text/plain"]);
    const check = python("-c", "import nbformat; nbformat.validate(nbformat.read('done.ipynb', as_version=4)); print('valid')");
    expect(check.stdout.trim()).toBe("valid");
  });

  it("stops at a failing cell with our traceback", () => {
    writeFileSync(join(folder, "bad.ipynb"), notebookFile(["function f(): never {\n  throw new RangeError('too far');\n}", "f()"]));
    const run = python("-m", "nbconvert", "--to", "notebook", "--execute", "--output", "never.ipynb", "bad.ipynb");
    expect(run.status).not.toBe(0);
    expect(run.stderr).toContain("RangeError: too far");
    expect(run.stderr).toContain("cell 1, line 2, column 9, in f");
    expect(existsSync(join(folder, "never.ipynb"))).toBe(false);
  });
});

describe("the text console", () => {
  it("values, types, input, faults, interrupt, and the end", () => {
    const run = python(new URL("console.py", import.meta.url).pathname);
    expect(`${run.stdout}${run.stderr}`).toContain("the console went through");
    expect(run.status).toBe(0);
  });
});
