import { execFileSync } from "node:child_process";
import { mkdtempSync, symlinkSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { describe, expect, it } from "vitest";
import { airtides, goodDescription, goodRows, recordFolder } from "./run.js";

/** Every bad input: one sentence on standard error, nothing on standard output, the exit code of the contract, no stack. */
function expectSentence(words: string[], code: 1 | 2, pattern: RegExp): void {
  const run = airtides(...words);
  expect(run.err).toMatch(pattern);
  expect(run.code).toBe(code);
  expect(run.out).toBe("");
  expect(run.err.trimEnd().split("\n").length).toBe(1);
  expect(run.err).not.toMatch(/\n\s+at |node:internal|undefined|\[object/);
}

function spoiled(change: (d: Record<string, any>) => void): string {
  const d = goodDescription();
  change(d);
  return recordFolder(d);
}

const field = (d: Record<string, any>, i: number): Record<string, any> => d.resources[0].schema.fields[i];

describe("bad use and faulty descriptions: exit 2", () => {
  it("the folder itself is right", () => {
    expect(airtides("check", recordFolder(goodDescription())).code).toBe(0);
  });

  it.each<[string, () => string, RegExp]>([
    ["no such folder", () => join(tmpdir(), "airtides-not-there"), /airtides-not-there.*(no such|not there)/],
    ["folder without a description", () => recordFolder(undefined), /datapackage\.json/],
    ["broken JSON", () => recordFolder('{ "name": "x", '), /datapackage\.json.*JSON/],
    ["JSON that is no object", () => recordFolder("[1, 2]"), /object/],
    ["empty description", () => recordFolder(""), /datapackage\.json/],
    ["log missing", () => recordFolder(goodDescription(), {}), /card\.txt.*no such file/],
    ["wrong unit", () => spoiled((d) => { field(d, 1).unit = "C"; }), /resources\[0\]\.schema\.fields\[1\]\.unit must .*"C".*degC/],
    ["unit left out", () => spoiled((d) => { field(d, 3).unit = undefined; }), /resources\[0\]\.schema\.fields\[3\]\.unit/],
    ["unknown zone", () => spoiled((d) => { field(d, 0).zone = "Mars/Base"; }), /resources\[0\]\.schema\.fields\[0\]\.zone.*"Mars\/Base"/],
    ["latitude 95", () => spoiled((d) => { d.site.latitude = 95; }), /site\.latitude must .*95/],
    ["missing field", () => spoiled((d) => { d.resources[0].schema.fields.shift(); }), /resources\[0\]\.schema/],
    ["a path above the folder", () => spoiled((d) => { d.resources[0].path = "../card.txt"; }), /resources\[0\]\.path must .*\.\.\/card\.txt/],
  ])("%s", (_what, make, pattern) => {
    expectSentence(["check", make()], 2, pattern);
  });

  it("a pipe in the log's place does not hang", () => {
    const folder = recordFolder(goodDescription(), {});
    execFileSync("mkfifo", [join(folder, "card.txt")]);
    expectSentence(["check", folder], 2, /card\.txt must be an ordinary file \(got a pipe\)/);
  });

  it("a link that leads back to itself", () => {
    const folder = recordFolder(goodDescription(), {});
    symlinkSync("card.txt", join(folder, "card.txt"));
    expectSentence(["check", folder], 2, /card\.txt.*link that leads back to itself/);
    const loop = mkdtempSync(join(tmpdir(), "airtides-loop-"));
    symlinkSync("datapackage.json", join(loop, "datapackage.json"));
    expectSentence(["check", loop], 2, /link that leads back to itself/);
  });

  it("wrong words", () => {
    expect(airtides("chek", "x")).toMatchObject({ code: 2, out: "" });
    expect(airtides("check")).toMatchObject({ code: 2, out: "" });
    expect(airtides("tides", "--export", "xml", "x")).toMatchObject({ code: 2, out: "" });
    expectSentence(["check", "--since", "yesterday", recordFolder(goodDescription())], 2, /--since must .*"yesterday"/);
    expectSentence(["check", "--place", "attic", recordFolder(goodDescription())], 2, /porch.*"attic"/);
    expectSentence(["tides", "--out", "x.csv", recordFolder(goodDescription())], 2, /--out must stand with --export/);
    expectSentence(["tides", "--lines", "S9", recordFolder(goodDescription())], 2, /S9/);
  });
});

describe("data that cannot carry the answer: exit 1", () => {
  it.each<[string, string | Uint8Array, RegExp]>([
    ["an empty log", "", /card\.txt/],
    ["a binary log", Uint8Array.from({ length: 50000 }, (_, i) => (i * 7919) % 256), /card\.txt/],
    ["one line of 10 MB", "x".repeat(10_000_000), /card\.txt/],
    ["no usable row", "a,b\nc,d\n", /card\.txt/],
  ])("%s", (_what, log, pattern) => {
    expectSentence(["check", recordFolder(goodDescription(), { "card.txt": log })], 1, pattern);
  });

  it("a record too short for the tide says how long it must be", () => {
    expectSentence(["tides", recordFolder(goodDescription(), { "card.txt": goodRows(0.8) })], 1, /3 /);
  });

  it("a span that holds nothing", () => {
    expectSentence(["check", "--since", "2031-01-01", recordFolder(goodDescription())], 1, /2030-12-31T17:00:00Z/);
  });

  it("no pressure at all", () => {
    const d = goodDescription();
    field(d, 3).quantity = undefined;
    field(d, 3).unit = undefined;
    expectSentence(["tides", recordFolder(d)], 1, /pressure/);
  });
});

describe("several records", () => {
  it("a failing one stands in its place; the exit code is the highest", () => {
    const good = recordFolder(goodDescription());
    const bad = recordFolder(goodDescription(), { "card.txt": "" });
    const run = airtides("check", "--json", bad, good);
    expect(run.code).toBe(1);
    const document = JSON.parse(run.out);
    expect(Object.keys(document)).toEqual(["records"]);
    expect(Object.keys(document.records[0])).toEqual(["record", "error"]);
    expect(document.records[1].record.name).toBe("trial");
    expect(run.err.trimEnd().split("\n").length).toBe(1);
  });

  it("when everything fails one line tells the first fault and how many more", () => {
    const run = airtides("check", "--json", recordFolder(""), recordFolder(""), recordFolder(undefined));
    expect(run).toMatchObject({ code: 2, out: "" });
    expect(run.err).toMatch(/\(and 2 more\)\n$/);
    expect(run.err.trimEnd().split("\n").length).toBe(1);
  });
});
