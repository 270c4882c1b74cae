import { spawnSync } from "node:child_process";
import { mkdtempSync, readFileSync, rmSync, writeFileSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { afterAll, describe, expect, it } from "vitest";
import { airtides } from "../cli/run.js";
import { root } from "../laws/sources.js";
import { cells, plantedS2, stationName, stations } from "./stations.js";

const folder = mkdtempSync(join(tmpdir(), "airtides-parallel-"));
const folders = stations(12, { empty: [4], faulty: [7] });
afterAll(() => {
  for (const path of [folder, ...folders]) rmSync(path, { recursive: true, force: true });
});

/** README's recipe, with the place of the package in this tree. */
function recipe(): string {
  const lines = readFileSync(join(root, "README.md"), "utf8").split("\n").filter((l) => /^parallel |^node .*fleet\/table/.test(l));
  return lines.join("\n").replaceAll("node_modules/airtides/dist", join(root, "dist"));
}

describe("many stations by GNU parallel", () => {
  it("one line a record in their order, failures in their place, merged to a table", () => {
    writeFileSync(join(folder, "stations.txt"), `${folders.join("\n")}\n`);
    const run = spawnSync("bash", ["-c", recipe()], { cwd: folder, encoding: "utf8", timeout: 300_000 });
    // Two of the rows are failures.
    expect([run.status, run.error], run.stderr).toEqual([1, undefined]);

    const lines = readFileSync(join(folder, "stations.jsonl"), "utf8").trimEnd().split("\n").map((l) => JSON.parse(l));
    const atOnce = JSON.parse(airtides("tides", "--json", ...folders).out).records;
    expect(lines).toEqual(atOnce);
    expect(lines.map((l) => "error" in l)).toEqual(folders.map((_, k) => k === 4 || k === 7));
    // What failed by its own data is final: no attempt was wasted on it.
    expect(cells(readFileSync(join(folder, "jobs.log"), "utf8").replaceAll("\t", ",")).slice(1).map((c) => c[6])).toEqual(new Array(12).fill("0"));

    const [head, ...rows] = cells(readFileSync(join(folder, "stations.csv"), "utf8"));
    expect(head.slice(0, 5)).toEqual(["record", "place", "days", "line", "amplitude_hPa"]);
    const s2 = rows.filter((r) => r[3] === "S2");
    expect(s2.map((r) => r[0])).toEqual(folders.map((_, k) => stationName(k)).filter((_, k) => k !== 4 && k !== 7));
    // The planted S2 lies inside its interval, widened by the 0.01 hPa to which the rows are rounded.
    for (const r of s2) {
      const planted = plantedS2(Number(r[0].slice(-3)));
      expect(Number(r[5]) - 0.01 <= planted && planted <= Number(r[6]) + 0.01, r.join()).toBe(true);
    }
    expect(rows.filter((r) => r.slice(11).join(",") !== "").map((r) => r[0])).toEqual([4, 7].map((k) => lines[k].record.name));
  });

  it("what was lost on the way is a row with an error, and wrong use is told in one sentence", () => {
    const table = spawnSync(process.execPath, [join(root, "dist/door/fleet/table.js")], { input: '{"record":{"name":"a","er\n\n{"record":{"name":"mill, old"},"error":"no \\"rows\\""}\n', encoding: "utf8" });
    expect(table.status).toBe(1);
    expect(table.stdout.split("\n").slice(1)).toEqual([',,,,,,,,,,,"this line is no answer about a record: {""record"":{""name"":""a"",""er"', '"mill, old",,,,,,,,,,,"no ""rows"""', ""]);
    const line = (...words: string[]) => spawnSync(process.execPath, [join(root, "dist/door/fleet/line.js"), ...words], { encoding: "utf8" });
    expect([line("grid", "x").status, line("grid", "x").stderr]).toEqual([2, 'COMMAND must be one of check, tides, swings, indoors, climate (got "grid")\n']);
    expect([line("tides").status, line("tides").stderr]).toEqual([2, "line.js must be given COMMAND and one RECORD (got 1 words)\n"]);
  });

  it("what broke off without a fault of the record is a line too, and another attempt is asked for", () => {
    // Without leave to start a thread.
    const flag = process.allowedNodeEnvironmentFlags.has("--permission") ? "--permission" : "--experimental-permission";
    const run = spawnSync(process.execPath, [flag, "--allow-fs-read=*", join(root, "dist/door/fleet/line.js"), "tides", folders[0]], { encoding: "utf8" });
    expect(run.status).toBe(3);
    const { record, error } = JSON.parse(run.stdout);
    expect([record.name, error]).toEqual([folders[0], expect.stringContaining(`tides of ${folders[0]} broke off: `)]);
  });
});
