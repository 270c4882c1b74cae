import { spawn, spawnSync } from "node:child_process";
import { existsSync, readdirSync, readFileSync, writeFileSync } from "node:fs";
import { join } from "node:path";
import { Ajv } from "ajv";
import { beforeAll, describe, expect, it } from "vitest";
import { commandLine, freshFolder, notebooks, readJson, root, type Said, samples } from "./runNotebooks.js";

const { $schema: _, ...schema } = readJson(join(root, "test/notebooks/nbformat.v4.5.schema.json"));
const isNotebook = new Ajv({ strict: false }).compile(schema);
const isAlive = (id: number): boolean => {
  try {
    return process.kill(id, 0);
  } catch {
    return false;
  }
};

describe("airtides notebooks", () => {
  const out = freshFolder();
  let said: Said;
  let document: any;
  beforeAll(() => {
    said = notebooks(["stops", "ends", "record"], "--out", out, "--json");
    document = JSON.parse(said.out);
  });

  it("stops a notebook at its first error, goes on with the next, and says so with exit code 1", () => {
    expect([said.code, said.err]).toEqual([1, ""]);
    expect(document).toEqual({
      notebooks: [
        { path: join(out, "stops.ipynb"), page: join(out, "stops.html"), cells: 2, errors: [{ cell: 2, message: "Error: this one is not meant" }] },
        { path: join(out, "ends.ipynb"), page: join(out, "ends.html"), cells: 2, errors: [{ cell: 2, message: "ProcessEnded: the notebook's process ended by itself (exit code 3)" }] },
        { path: join(out, "record.ipynb"), page: join(out, "record.html"), cells: 2, errors: [] },
      ],
    });
  });

  it("writes notebooks of the format, pages and an index, and leaves nothing else behind", () => {
    expect(readdirSync(out).sort()).toEqual(["ends.html", "ends.ipynb", "index.html", "record.html", "record.ipynb", "stops.html", "stops.ipynb"]);
    for (const { path } of document.notebooks) expect([isNotebook(readJson(path)), isNotebook.errors]).toEqual([true, null]);
    expect(readFileSync(join(out, "index.html"), "utf8")).toContain("2 notebooks stopped at an error");
  });

  it("keeps what was put out before the stop, and leaves what was not reached empty", () => {
    const cells = readJson(join(out, "stops.ipynb")).cells.filter((c: any) => c.cell_type === "code");
    expect(cells.map((c: any) => [c.execution_count, c.outputs.map((o: any) => o.output_type)])).toEqual([
      [1, ["stream"]],
      [2, ["stream", "error"]],
      [null, []],
    ]);
    expect(readJson(join(out, "ends.ipynb")).cells[1].outputs[0].text).toBe("still here\n");
    expect(readFileSync(join(out, "stops.html"), "utf8")).toContain('stopped at <a href="#cell-2">cell 2</a>: Error: this one is not meant');
  });

  it("without a record RECORD is not set; a cell works in its notebook's folder", () => {
    expect(readJson(join(out, "record.ipynb")).cells.slice(1).map((c: any) => c.outputs[0].data["text/plain"])).toEqual(["'none'", "'samples'"]);
  });

  it("a second run takes the place of the first, but not of a notebook that was changed since", () => {
    expect(notebooks(["record"], "--out", out).code).toBe(0);
    expect([...readFileSync(join(out, "index.html"), "utf8").matchAll(/<a href="(\w+)\.html"/g)].map((m) => m[1])).toEqual(["ends", "record", "stops"]);
    const path = join(out, "record.ipynb");
    const changed = readFileSync(path, "utf8").replace("Which record was it?", "My own notes");
    writeFileSync(path, changed);
    const again = notebooks(["record"], "--out", out);
    expect([again.code, again.out, again.err]).toEqual([2, "", `${path} exists already and is not a page or notebook as an earlier run left it; name another folder with --out or move it away\n`]);
    expect(readFileSync(path, "utf8")).toBe(changed);
  });

  it("never writes over the notebooks it runs", () => {
    const before = readFileSync(join(samples, "record.ipynb"), "utf8");
    expect(notebooks(["record"], "--out", samples).code).toBe(2);
    expect(readFileSync(join(samples, "record.ipynb"), "utf8")).toBe(before);
    expect(readdirSync(samples).filter((f) => !f.endsWith(".ipynb"))).toEqual([]);
  });

  it("hands the record on as RECORD and begins the document with it", () => {
    const record = join(root, "datasets", "hill-school");
    const place = freshFolder();
    const run = notebooks(["record"], "datasets/hill-school", "--out", place, "--json");
    expect(run.code).toBe(0);
    expect(Object.keys(JSON.parse(run.out))).toEqual(["record", "notebooks"]);
    expect(JSON.parse(run.out).record.name).toBe("hill-school");
    expect(readJson(join(place, "record.ipynb")).cells[1].outputs[0].data["text/plain"]).toBe(`'${record}'`);
    expect(readFileSync(join(place, "record.html"), "utf8")).toMatch(/<span>Run on .*2024-/);
  });

  it.each([
    ["a record that is not there", ["record"], ["/no/such/record"], "/no/such/record could not be read: there is no such file"],
    ["a name that fits nothing", [], ["--only", "no-such-name"], /^--only must name one of /],
    ["a notebook that is none", [], ["--only", join(root, "package.json.ipynb")], /package\.json\.ipynb could not be read/],
    ["an option that is none", [], ["--outt", "x"], /unknown option '--outt'/],
  ])("refuses %s in one line, with exit code 2, before it writes anything", (_what, names, words, sentence) => {
    const place = join(freshFolder(), "pages");
    const run = notebooks(names, ...words, "--out", place);
    expect([run.code, run.out, existsSync(place)]).toEqual([2, "", false]);
    expect(run.err).toMatch(sentence instanceof RegExp ? sentence : new RegExp(`^${sentence.replaceAll("/", "\\/")}`));
  });

  it("shows its progress on a terminal and only there", () => {
    const script = `import pty, sys; sys.exit(pty.spawn([${[process.execPath, commandLine, "notebooks", "--only", join(samples, "record.ipynb"), "--out", freshFolder()].map((w) => JSON.stringify(w)).join(", ")}]) >> 8)`;
    const run = spawnSync("/usr/bin/python3", ["-c", script], { encoding: "utf8" });
    expect([run.status, run.stdout]).toEqual([0, expect.stringContaining("[1/1] record  cell 2 of 2")]);
  });

  it("ends the notebook's process when it is stopped, even in an endless loop", async () => {
    const place = freshFolder();
    const endless = join(place, "endless.ipynb");
    const mark = join(place, "id");
    const source = `require("node:fs").writeFileSync(${JSON.stringify(mark)}, String(process.pid)); for (;;);`;
    writeFileSync(endless, JSON.stringify({ nbformat: 4, nbformat_minor: 5, metadata: {}, cells: [{ cell_type: "code", id: "a", metadata: {}, source, outputs: [], execution_count: null }] }));
    for (const signal of ["SIGTERM", "SIGKILL"] as const) {
      writeFileSync(mark, "");
      const run = spawn(process.execPath, [commandLine, "notebooks", "--only", endless, "--out", join(place, "out")], { stdio: "ignore" });
      const ended = new Promise((resolve) => run.once("exit", (code, how) => resolve([code, how])));
      while (readFileSync(mark, "utf8") === "") await new Promise((done) => setTimeout(done, 100));
      const id = Number(readFileSync(mark, "utf8"));
      run.kill(signal);
      expect(await ended).toEqual(signal === "SIGTERM" ? [143, null] : [null, "SIGKILL"]);
      for (let waited = 0; isAlive(id) && waited < 100; waited++) await new Promise((done) => setTimeout(done, 100));
      expect(isAlive(id)).toBe(false);
    }
    expect(existsSync(join(place, "out"))).toBe(false);
  });
});
