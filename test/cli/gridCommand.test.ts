import { existsSync, mkdtempSync, readFileSync, readdirSync, writeFileSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { describe, expect, it } from "vitest";
import { root } from "../laws/sources.js";
import { airtides, goodDescription, recordFolder } from "./run.js";

const hillSchool = join(root, "datasets", "hill-school");
const folder = mkdtempSync(join(tmpdir(), "airtides-grid-"));
const trial = recordFolder(goodDescription());

describe("airtides grid", () => {
  it("writes a file and tells it, in one JSON document", () => {
    const out = join(folder, "hills.csv");
    const run = airtides("grid", hillSchool, "--json", "--out", out, "--step", "60", "--fill-up-to", "180", "--with", "dew-point,tide-free");
    expect([run.code, run.err]).toEqual([0, ""]);
    const told = JSON.parse(run.out);
    expect(Object.keys(told)).toEqual(["record", "written", "stepSeconds", "rows", "columns", "warnings"]);
    expect(told.record.name).toBe("hill-school");
    const text = readFileSync(out, "utf8");
    expect(told.written).toEqual([{ path: out, bytes: Buffer.byteLength(text) }]);
    expect([told.stepSeconds, told.rows]).toEqual([3600, text.split("\n").length - 2]);
    expect(told.columns).toHaveLength(10);
    for (const c of told.columns) {
      expect(Object.keys(c).slice(0, 5)).toEqual(["place", "quantity", "unit", "coverage", "filled"]);
      expect(c.coverage).toBeGreaterThan(0.9);
    }
    expect(text.split("\n")[1].split(",")[0]).toBe("2024-04-11T17:00:00Z");
    expect(text.split("\n")[1].split(",")).toHaveLength(31);
    expect(readdirSync(folder).filter((f) => f.endsWith(".part"))).toEqual([]);
  });

  it("tells people the same, and where it went", () => {
    const out = join(folder, "trial.nc");
    const run = airtides("grid", trial, "--out", out);
    expect(run.code).toBe(0);
    expect(run.out).toMatch(/1728 steps of 10 min, stamped by its beginning in UTC; 3 columns/);
    expect(run.out).toContain(`wrote ${out} (`);
    expect(readFileSync(out).subarray(0, 4).toString("latin1")).toBe("CDF\u0002");
    expect(readFileSync(out, "latin1")).toMatch(/\d{4}-\d\d-\d\dT\d\d:\d\d:\d\dZ: airtides grid of trial/);
  });

  it("writes Parquet where its package is installed", () => {
    const out = join(folder, "trial.parquet");
    expect(airtides("grid", trial, "--out", out).code).toBe(0);
    expect(readFileSync(out).subarray(0, 4).toString("latin1")).toBe("PAR1");
  });

  it("narrows like every command", () => {
    const out = join(folder, "narrow.json");
    const run = airtides("grid", trial, "--json", "--out", out, "--since", "2024-05-03", "--until", "2024-05-05");
    expect(JSON.parse(run.out).rows).toBe(288);
    const read = JSON.parse(readFileSync(out, "utf8"));
    // Civil days of the record's zone, UTC+7.
    expect([read.time[0], read.time.at(-1)]).toEqual(["2024-05-02T17:00:00Z", "2024-05-04T16:50:00Z"]);
  });

  it("never writes over a file", () => {
    const out = join(folder, "mine.csv");
    writeFileSync(out, "mine");
    const run = airtides("grid", trial, "--out", out);
    expect([run.code, run.out]).toEqual([2, ""]);
    expect(run.err).toMatch(/mine\.csv exists already and is not written over; name another file or move it away\n$/);
    expect(readFileSync(out, "utf8")).toBe("mine");
  });

  it("a wrong use is one sentence, exit 2, and nothing is written", () => {
    const out = join(folder, "none.csv");
    const cases: [string[], RegExp][] = [
      [[trial], /required option '--out <file>' not specified/],
      [[trial, "--out", join(folder, "none.xlsx")], /the file of a grid must end in \.csv, \.json, \.nc or \.parquet \(got ".*none\.xlsx"\)/],
      [[trial, "--out", out, "--step", "0"], /--step must be a number of minutes above 0 \(got "0"\)/],
      [[trial, "--out", out, "--step", "ten"], /--step must be a number of minutes above 0 \(got "ten"\)/],
      [[trial, "--out", out, "--fill-up-to", "-5"], /--fill-up-to must be a number of minutes from 0 on \(got "-5"\)/],
      [[trial, "--out", out, "--with", "dew-point,frost"], /--with must be of dew-point, absolute-humidity, sea-level, tide-free \(got "frost"\)/],
      [[trial, hillSchool, "--out", out], /--out names one file, so that grid must be given one RECORD \(got 2\); call it once for each/],
      [[trial, "--out", out, "--step", "0.00001"], /^step must leave at most/],
    ];
    for (const [words, says] of cases) {
      const run = airtides("grid", ...words);
      expect([run.code, run.out, run.err.trimEnd().split("\n").length], run.err).toEqual([2, "", 1]);
      expect(run.err).toMatch(says);
    }
    expect(existsSync(out)).toBe(false);
  });

  it("data that cannot carry what was asked for end with exit 1", () => {
    const short = recordFolder(goodDescription(), { "card.txt": "2024-05-01 00:00,22,70,861\n2024-05-01 00:10,22.1,70,861.1\n" });
    const run = airtides("grid", short, "--out", join(folder, "short.csv"), "--with", "tide-free");
    expect([run.code, run.out]).toEqual([1, ""]);
    expect(run.err).toMatch(/trial must let tide-free be made in one place at least/);
  });
});
