import { mkdtempSync, rmSync, utimesSync, writeFileSync, mkdirSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { afterAll, beforeAll, describe, expect, it } from "vitest";
import { type CellOutcome, type CellPiece, type Cells, openCells } from "../../lib/door/kernel/openCells.js";

const folder = mkdtempSync(join(tmpdir(), "cells-"));
const pieces: [string, CellPiece][] = [];
let cells: Cells;
let count = 0;

const run = (code: string): Promise<CellOutcome> => cells.run(code, String(++count));
/** The result's text, or the error's first line. */
async function text(code: string): Promise<string | null> {
  const outcome = await run(code);
  if (outcome.status === "error") return `${outcome.ename}: ${outcome.evalue}`;
  return outcome.result === null ? null : String(outcome.result.data["text/plain"]);
}
async function failure(code: string): Promise<Extract<CellOutcome, { status: "error" }>> {
  const outcome = await run(code);
  if (outcome.status !== "error") throw new Error("the cell must fail");
  return outcome;
}

beforeAll(() => {
  // The test runner rewrites stacks; the kernel has them as they are.
  Reflect.deleteProperty(Error, "prepareStackTrace");
  cells = openCells({ folder, put: (tag, piece) => void pieces.push([tag, piece]) });
});
afterAll(() => {
  cells.close();
  rmSync(folder, { recursive: true });
});

describe("names of Node", () => {
  it("few are read at the start, all when a cell needs them, and what was named before still fits", async () => {
    await run("const timer = setTimeout(() => console.table([1]), 60_000)");
    expect(await text("timer.hasRef()")).toBe("true");
    expect(await text("process.version.startsWith('v') && new URL('http://a/b').pathname")).toBe("'/b'");
    expect(await text("clearTimeout(timer); timer.refresh() === timer")).toBe("true");
    expect(await text("clearTimeout(timer); import { readFileSync } from 'node:fs'; import path from 'path'; [typeof readFileSync, path.sep]")).toBe("[ 'function', '/' ]");
    expect((await failure("readFileSync(5, 'no such encoding')")).evalue).toContain("No overload matches");
    expect(cells.complete("process.cw", 10).matches).toEqual(["cwd"]);
  });
});

describe("values and names from cell to cell", () => {
  it("shows the last value, null too, undefined not", async () => {
    expect(await text("1 + 1")).toBe("2");
    expect(await text("null")).toBe("null");
    expect(await text("undefined")).toBe(null);
    expect(await text("const quiet = 1")).toBe(null);
  });

  it("carries types, redeclares, keeps constants constant", async () => {
    await run("const width = 5; interface Box { side: number }; enum Way { Up, Down }; class Thing { constructor(public name: string) {} }");
    expect(await text("const box: Box = { side: width }; box.side + Way.Down")).toBe("6");
    expect(await text("new Thing('a').name")).toBe("'a'");
    expect((await failure("const bad: Box = { side: 'wide' }")).evalue).toContain("not assignable");
    expect((await failure("width = 6")).evalue).toContain("constant");
    expect(await text("const width = 'now text'; width.toUpperCase()")).toBe("'NOW TEXT'");
    expect(await text("await Promise.resolve(41) + 1")).toBe("42");
    expect(await text("(await import('node:path')).basename('/a/b.c')")).toBe("'b.c'");
  });

  it("takes names of earlier cells in every place of the grammar", async () => {
    await run("let o = { a: 1, b: { c: 2 }, f() { return this.a } }; let a = 0; let list = [1, 2]; const key = 'a'; function twice(n: number) { return 2 * n }");
    expect(await text("const { a: renamed, b: { c: deep } } = o; [renamed, deep]")).toBe("[ 1, 2 ]");
    expect(await text("const { b } = o; b.c")).toBe("2");
    expect(await text("({ a } = o); a")).toBe("1");
    expect(await text("({ a: list[0], b: { c: list[1] } } = o); [a, list] = [9, [8]]; ({ a, list })")).toBe("{ a: 9, list: [ 8 ] }");
    expect(await text("({ ...o, key, a: a, twice() { return twice(a) } }).twice()")).toBe("18");
    expect(await text("a++; a += 1; --a; [a, o?.b?.c, o[key], o.f(), typeof o, `<$" + "{a}>`.length]")).toBe("[ 10, 2, 1, 1, 'object', 4 ]");
    expect(await text("class Named { a = 1; list = list; get o() { return o } static key = key }; [new Named().a, new Named().list, Named.key, new Named().o === o]")).toBe("[ 1, [ 8 ], 'a', true ]");
    expect(await text("((x: typeof o, { a: first = 5 }: { a?: number }) => x.a + first)(o, {})")).toBe("6");
    expect(await text("for (a of [1, 2, 3]); a")).toBe("3");
  });
});

describe("the mends of the cells' compiler", () => {
  it("1: files written between cells are seen and break nothing", async () => {
    const path = join(folder, "beside.ts");
    expect((await failure("import { beside } from './beside'")).evalue).toContain("Cannot find module");
    writeFileSync(path, "export const beside: number = 1;\nexport function fail(): never {\n\n  throw new Error('from beside');\n}\n");
    expect(await text("import { beside, fail } from './beside'; beside")).toBe("1");
    expect((await failure("fail()")).traceback.join("\n")).toMatch(/beside\.ts, line 4/);
    writeFileSync(path, "export const beside: string = 'two';\n");
    utimesSync(path, new Date(), new Date(Date.now() + 5000));
    writeFileSync(join(folder, "unrelated.ts"), "export {};");
    mkdirSync(join(folder, "new-folder"));
    expect(await text("1")).toBe("1");
    expect(await text("import { beside } from './beside'; beside.length")).toBe("3");
    writeFileSync(path, "export const beside: string = 2;\n");
    utimesSync(path, new Date(), new Date(Date.now() + 9000));
    const fault = await failure("import { beside } from './beside'; beside");
    expect(fault.traceback.join("\n")).toMatch(/beside\.ts, line 1, column 14/);
    rmSync(path);
    expect(await text("2")).toBe("2");
  });

  it("2: shorthand properties of earlier names", async () => {
    await run("const shared = 5");
    expect(await text("({ shared })")).toBe("{ shared: 5 }");
  });

  it("3: for await outside functions", async () => {
    expect(await text("let sum = 0; async function* two() { yield 1; yield 2 }\nfor await (const v of two()) sum += v;\nsum")).toBe("3");
  });

  it("4: the package's own types and code, from any folder", async () => {
    expect(await text("import { dewPoint } from 'airtides'; import { openRecord } from 'airtides/disk'; [Math.round(dewPoint(20, 50)), typeof openRecord]")).toBe("[ 9, 'function' ]");
    expect((await failure("const wrong: string = dewPoint(20, 50)")).evalue).toContain("'number' is not assignable to type 'string'");
    expect((await failure("dewPoint(20, 50, { form: 'nobody' })")).ename).toBe("TypeScriptError");
  });

  it("5: a cell that throws keeps what it declared", async () => {
    expect((await failure("const before = 7; throw new Error('stop')")).ename).toBe("Error");
    expect(await text("before")).toBe("7");
  });

  it("export is allowed and means nothing", async () => {
    expect(await text("export const given = 1; export default given; export { given }; given")).toBe("1");
    expect(await text("export function exported() { return given } exported()")).toBe("1");
  });
});

describe("errors", () => {
  it("of the compiler: line, column, caret in the cell as written", async () => {
    await run("const early = 1");
    const fault = await failure("const fine = { early };\nconst pair = { early, wrong: nowhere };");
    expect(fault.ename).toBe("TypeScriptError");
    expect(fault.traceback[1]).toBe(`cell ${count}, line 2, column 30: Cannot find name 'nowhere'. (TS2304)\n     2 | const pair = { early, wrong: nowhere };\n       |                              ^^^^^^^`);
  });

  it("of a run: lines of both cells over types, blanks and comments, causes, no inner frames", async () => {
    await run("interface Gone { a: string }\n\n// a comment\nfunction boom(v: Gone): never {\n  throw new RangeError('no ' + v.a, { cause: new TypeError('inner') });\n}");
    const where = count;
    const fault = await failure("type Also = string;\n\nfor (let i = 0; i < 1; i++) await null;\n  boom({ a: 'x' });");
    expect([fault.ename, fault.evalue]).toEqual(["RangeError", "no x"]);
    const lines = fault.traceback.join("\n");
    expect(lines).toContain(`cell ${where}, line 5, column 9, in boom\n     5 |   throw new RangeError(`);
    expect(lines).toContain(`cell ${count}, line 4, column 3\n     4 |   boom({ a: 'x' });\n       |   ^`);
    expect(lines).toContain("caused by TypeError: inner");
    expect(lines).not.toMatch(/node:|tslab|AsyncLocalStorage|evalmachine|lib\/door/);
  });

  it("of the library: its sentence and the cell's line only", async () => {
    const fault = await failure("import { dewPoint } from 'airtides';\ndewPoint(20, 500)");
    expect(fault.ename).toBe("RangeError");
    expect(fault.traceback.slice(1)).toHaveLength(1);
    expect(fault.traceback[1]).toContain(`cell ${count}, line 2, column 9`);
  });

  it("a thrown value that is no error", async () => {
    expect(await failure("throw 5")).toMatchObject({ ename: "Thrown", evalue: "5" });
    expect(await failure("throw undefined")).toMatchObject({ ename: "Thrown", evalue: "undefined" });
  });
});

describe("output", () => {
  it("belongs to the cell that started it, also late", async () => {
    await run("setTimeout(() => console.log('late'), 30); console.log('now'); console.error('bad'); 1");
    const first = String(count);
    await run("await new Promise((r) => setTimeout(r, 80))");
    const of = pieces.filter(([tag]) => tag === first).map(([, p]) => p);
    expect(of).toEqual([
      { kind: "stream", name: "stdout", text: "now\n" },
      { kind: "stream", name: "stderr", text: "bad\n" },
      { kind: "stream", name: "stdout", text: "late\n" },
    ]);
  });

  it("display, update, clear; tslab's own display functions", async () => {
    await run("const handle = display({ a: 1 }); handle.update({ a: 2 }); display.html('<b>'); display.clear(true)");
    const of = pieces.filter(([tag]) => tag === String(count)).map(([, p]) => p);
    expect(of.map((p) => p.kind)).toEqual(["display", "update", "display", "clear"]);
    expect((of[0] as { id: string }).id).toBe((of[1] as { id: string }).id);
    await run("import { display as theirs } from 'tslab'; theirs.html('<i>')");
    expect(pieces.at(-1)?.[1]).toMatchObject({ kind: "display", data: { "text/html": "<i>" } });
  });

  it("prompt is refused where nobody can answer", async () => {
    expect((await failure("prompt('name?')")).evalue).toContain("prompt must have someone to ask");
  });
});

describe("rich results", () => {
  it("a display method, its fault, and no method", async () => {
    expect(await run("({ [Symbol.for('Jupyter.display')]: () => ({ 'text/html': '<b>x</b>', 'image/png': new Uint8Array([1, 2]) }) })")).toMatchObject({
      result: { data: { "text/html": "<b>x</b>", "image/png": "AQI=", "text/plain": expect.any(String) } },
    });
    expect(await text("({ a: 1, [Symbol.for('Jupyter.display')]: () => { throw new Error('shy') } })")).toMatch(/a: 1[\s\S]*display method failed: Error: shy/);
  });

  it("figures carry the library once, again when the carrying cell runs again, missing values as null", async () => {
    const figure = "({ alt: 'a <line>', [Symbol.for('Jupyter.display')]: () => ({ 'text/plain': 'line', 'application/vnd.plotly.v1+json': { data: [{ y: new Float64Array([1, NaN]) }], layout: { height: 300 } } }) })";
    const carried = (): number => pieces.filter(([tag, p]) => tag === String(count) && p.kind === "display" && String(p.data["text/html"]).length > 1e6).length;
    const outcome = await run(figure);
    expect(carried()).toBe(1);
    const data = (outcome as { result: { data: Record<string, any> } }).result.data;
    expect(data["application/vnd.plotly.v1+json"].data[0].y).toEqual([1, null]);
    expect(data["text/html"]).toContain("a &#60;line&#62;");
    await run(`${figure} // another`);
    expect(carried()).toBe(0);
    await run(figure);
    expect(carried()).toBe(1);
  });
});

describe("completion and inspection", () => {
  it("prefixes only, exact case first", async () => {
    expect(cells.complete("Math.sq", 7)).toEqual({ start: 5, end: 7, matches: ["sqrt", "SQRT1_2", "SQRT2"], kinds: ["method", "property", "property"] });
  });

  it("documentation of our own functions, with units", async () => {
    await run("import { dewPoint } from 'airtides'");
    const shown = cells.inspect("dewPoint", 8) ?? "";
    expect(shown).toContain("relativeHumidity: number");
    expect(shown).toContain("@param temperature air temperature · °C");
    expect(cells.inspect("   ", 1)).toBe(null);
  });
});
