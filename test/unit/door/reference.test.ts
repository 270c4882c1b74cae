import { spawnSync } from "node:child_process";
import { mkdtempSync, readdirSync, readFileSync, rmSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { afterAll, beforeAll, describe, expect, it } from "vitest";
import { publicDeclarations, publicFunctions } from "../../laws/publicNames.js";
import { root } from "../../laws/sources.js";

const folder = mkdtempSync(join(tmpdir(), "airtides-reference-"));
afterAll(() => rmSync(folder, { recursive: true }));
const pages = new Map<string, string>();

beforeAll(() => {
  const ran = spawnSync(process.execPath, [join(root, "lib", "door", "reference.mjs"), folder], { encoding: "utf8" });
  expect(ran.status, ran.stderr).toBe(0);
  for (const name of readdirSync(folder)) pages.set(name, readFileSync(join(folder, name), "utf8"));
}, 60_000);

const escaped = (text: string): string => text.replace(/&/g, "&amp;").replace(/</g, "&lt;").replace(/>/g, "&gt;").replace(/"/g, "&quot;");
const entry = (name: string, path: string): string => new RegExp(`<section id="${name}">[\\s\\S]*?</section>`).exec(pages.get(`${path.split("/")[0]}.html`) ?? "")?.[0] ?? "";

describe("the reference pages", () => {
  it("hold every public name, in its room, with its file", () => {
    const names = publicDeclarations();
    expect(names.length).toBeGreaterThan(200);
    expect(names.filter(({ name, path }) => !entry(name, path).includes(`lib/${path}`)).map((n) => n.name)).toEqual([]);
    expect(entry("openRecord", "door/disk/disk.ts")).toContain("airtides/disk");
    expect(entry("noSuchName", "air/dewPoint.ts")).toBe("");
  });

  it("tell of a function what its documentation tells", () => {
    for (const f of publicFunctions()) {
      const text = entry(f.name, f.path);
      for (const example of f.examples) expect(text, f.name).toContain(escaped(example));
      expect(text.includes(">gives<"), f.name).toBe(f.tags.includes("returns"));
      expect(text.includes(">source<"), f.name).toBe(f.tags.includes("source"));
      for (const p of f.described) expect(text, f.name).toMatch(new RegExp(`<code>(\\w+, )*${p}\\b`));
    }
  });

  it("have no link that leads nowhere and no id twice", () => {
    const ids = new Map([...pages].map(([name, html]) => [name, [...html.matchAll(/ id="(\w+)"/g)].map(([, id]) => id)]));
    for (const [name, list] of ids) expect(list.filter((id, i) => list.indexOf(id) !== i), name).toEqual([]);
    const links = [...pages.values()].flatMap((html) => [...html.matchAll(/ href="([^"#]+)(?:#(\w+))?"/g)]);
    expect(links.length).toBeGreaterThan(500);
    expect(links.filter(([, to, id]) => !(id === undefined ? pages.has(to) : ids.get(to)?.includes(id))).map(([link]) => link)).toEqual([]);
  });
});
