import { describe, expect, it } from "vitest";
import { airtides, goodDescription, goodRows, recordFolder } from "./run.js";

const named = (name: string): Record<string, any> => ({ ...goodDescription(), name });
const folders = ["a", "b", "c", "d"].map((name, k) => recordFolder(named(name), { "card.txt": goodRows(6 + k) }));
const broken = recordFolder({ ...named("broken"), site: { latitude: 95, longitude: 0, elevation: 0 } });
const empty = recordFolder(named("empty"), { "card.txt": "nothing\n" });

describe("--jobs", () => {
  it("tells the same as one after the other, in the order of the records, text and JSON", () => {
    for (const more of [[], ["--json"]]) {
      const [one, three] = ["1", "3"].map((jobs) => airtides("tides", "--jobs", jobs, ...more, ...folders));
      expect([three.code, three.err]).toEqual([0, one.err]);
      expect(three.out).toBe(one.out);
    }
  });

  it("a failing record stops none of the others: its sentence is in its place, and the exit code is the highest", () => {
    const paths = [folders[0], broken, folders[1], empty];
    const [one, two] = ["1", "2"].map((jobs) => airtides("check", "--json", "--jobs", jobs, ...paths));
    expect(two.out).toBe(one.out);
    expect(two.err).toBe(one.err);
    expect(two.code).toBe(2);
    const { records } = JSON.parse(two.out);
    expect(records.map((r: any) => [r.record.name, "error" in r])).toEqual([["a", false], [expect.stringContaining("airtides-record"), true], ["b", false], [expect.stringContaining("airtides-record"), true]]);
    expect(airtides("check", "--jobs", "2", folders[0], empty).code).toBe(1);
  });

  it("wrong numbers and wrong options are told once, before anything is read", () => {
    for (const jobs of ["0", "2.5", "many"]) {
      const run = airtides("check", "--jobs", jobs, ...folders);
      expect([run.code, run.out]).toEqual([2, ""]);
      expect(run.err).toBe(`--jobs must be a whole number from 1 to 256 (got "${jobs}")\n`);
    }
    const run = airtides("indoors", "--factor", "7", "--jobs", "2", ...folders);
    expect([run.code, run.out, run.err.split("\n").length]).toEqual([2, "", 2]);
  });
});
