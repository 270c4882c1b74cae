import { spawnSync } from "node:child_process";
import { existsSync, mkdtempSync, readFileSync, writeFileSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { describe, expect, it } from "vitest";
import { exportedTideAt } from "../../lib/answers/tideExport.js";
import { root } from "../laws/sources.js";
import { airtides } from "./run.js";

const hillSchool = join(root, "datasets", "hill-school");
const folder = mkdtempSync(join(tmpdir(), "airtides-export-"));
const json = airtides("tides", "--export", "json", hillSchool);
const exported = JSON.parse(json.out);

describe("tides --export", () => {
  it("json holds the detected lines and can be read back", () => {
    expect(json.code).toBe(0);
    expect(exported.format).toBe("airtides-tide");
    expect(exported.places.veranda.lines.map((l: { name: string }) => l.name)).toEqual(["S1", "S2", "S3"]);
    // The veranda's tide is highest near 9:26 by the sun, 02:05 UTC at 110.2° E, and lowest near 15:50.
    expect(exportedTideAt(exported.places.veranda, Date.UTC(2024, 4, 1, 2, 5))).toBeGreaterThan(1);
    expect(exportedTideAt(exported.places.veranda, Date.UTC(2024, 4, 1, 8, 29))).toBeLessThan(-1);
  });

  it("csv has a header and a row for each line, month and place", () => {
    const rows = airtides("tides", "--export", "csv", hillSchool).out.trimEnd().split("\n");
    expect(rows[0]).toBe("place,quantity,month,line,cycles_per_day,amplitude_hPa,maximum_h,cosine_hPa,sine_hPa,epoch");
    expect(rows.every((r) => r.split(",").length === 10)).toBe(true);
    expect(rows.filter((r) => r.startsWith("library,"))).toHaveLength(3 + 4 * 3);
  });

  it("never writes over a file", () => {
    const out = join(folder, "tide.csv");
    expect(airtides("tides", "--export", "csv", "--out", out, hillSchool).code).toBe(0);
    const before = readFileSync(out, "utf8");
    const again = airtides("tides", "--export", "json", "--out", out, hillSchool);
    expect(again.code).toBe(2);
    expect(again.err).toMatch(/exists already and is not written over/);
    expect(readFileSync(out, "utf8")).toBe(before);
  });

  // The system's C compiler: installed by the checks on a fresh machine, absent on some readers' machines.
  it.runIf(existsSync("/usr/bin/gcc") || existsSync("/usr/bin/cc"))("the C header compiles without a warning and agrees over a year to 0.01 hPa", () => {
    const header = join(folder, "tide.h");
    expect(airtides("tides", "--export", "c", "--out", header, hillSchool).code).toBe(0);
    const start = Date.UTC(2025, 0, 1) / 1000;
    const main = `#include <stdio.h>\n#include "tide.h"\nint main(void) {\n  for (int64_t t = ${start}; t < ${start} + 31536000; t += 5399) printf("%.5f %.5f\\n", (double)veranda_tide_hpa(t), (double)library_tide_hpa(t));\n  printf("%.5f %s %.4f\\n", (double)veranda_tide_table_hpa(5, 9.5f), veranda_tide_lines[1].name, (double)veranda_tide_lines[1].maximum_h);\n  return library_tide_table_hpa(12, 23.5f) > 9.0f;\n}\n`;
    writeFileSync(join(folder, "main.c"), main);
    const compiled = spawnSync("cc", ["-std=c99", "-O1", "-Wall", "-Wextra", "-Werror", "-o", join(folder, "main"), join(folder, "main.c"), "-lm"], { encoding: "utf8" });
    expect(compiled.stderr).toBe("");
    const lines = spawnSync(join(folder, "main"), { encoding: "utf8", maxBuffer: 1 << 26 }).stdout.trimEnd().split("\n");
    const last = lines.pop()!.split(" ");
    let worst = 0;
    for (const [k, line] of lines.entries()) {
      const [veranda, library] = line.split(" ").map(Number);
      const at = (start + 5399 * k) * 1000;
      worst = Math.max(worst, Math.abs(veranda - exportedTideAt(exported.places.veranda, at)), Math.abs(library - exportedTideAt(exported.places.library, at)));
    }
    expect(lines.length).toBe(Math.ceil(31536000 / 5399));
    expect(worst).toBeLessThan(0.01);
    expect(last[1]).toBe("S2");
    expect(Math.abs(Number(last[2]) - 9.83)).toBeLessThan(0.05);
    expect(Number(last[0])).toBeGreaterThan(1);
  });
});
