import * as fs from "node:fs";
import { mkdtempSync, rmSync, writeFileSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import ts from "typescript";
import { afterAll, describe, expect, it } from "vitest";
import * as disk from "../../lib/door/disk/disk.js";
import * as airtides from "../../lib/index.js";
import { root } from "../laws/sources.js";
import { readmeBlocks } from "../readmeBlocks.js";

const { job, csv } = readmeBlocks();
const folder = mkdtempSync(join(tmpdir(), "airtides-readme-"));
afterAll(() => rmSync(folder, { recursive: true }));

/** What README.md promises of hill-school's tide; planted, datasets/hill-school/truth.json. */
const planted = 1.08;

/** Runs an example as it stands: its paths are relative to `at`; gives what it prints. */
async function printedBy(block: string, at: string): Promise<unknown[][]> {
  const printed: unknown[][] = [];
  const modules: Record<string, unknown> = {
    airtides,
    "airtides/disk": { ...disk, openRecord: (path: string) => disk.openRecord(join(at, path)) },
    "node:fs": { ...fs, readFileSync: (path: string, encoding: "utf8") => fs.readFileSync(join(at, path), encoding) },
  };
  const script = ts.transpileModule(block, { compilerOptions: { module: ts.ModuleKind.ESNext, target: ts.ScriptTarget.ES2022 } }).outputText;
  const body = script.replace(/^import (\{[^}]+\}) from "([^"]+)";$/gm, (_, names: string, module: string) => {
    const wanted = names.slice(1, -1).split(",").map((n) => n.trim());
    expect(wanted.filter((n) => !(n in (modules[module] as object)))).toEqual([]);
    return `const ${names} = modules[${JSON.stringify(module)}];`;
  });
  const run = new Function("modules", "console", `return (async () => { ${body} })();`) as (modules: unknown, console: unknown) => Promise<void>;
  await run(modules, { log: (...all: unknown[]) => printed.push(all) });
  return printed;
}

describe("the library's examples in README.md", () => {
  it("the job: a verdict, the planted tide, the house", async () => {
    const printed = await printedBy(job, root);
    expect(printed[0][0]).toHaveProperty("level", "usable");
    const s2 = printed.find(([name]) => name === "S2")?.[1] as airtides.Estimate;
    expect(s2.low <= planted && planted <= s2.high).toBe(true);
    expect(printed.some(([inside]) => inside === "library")).toBe(true);
  });

  it("marking the faults matters as much as the page says", async () => {
    const raw = await disk.openRecord(join(root, "datasets", "hill-school"));
    const fit = airtides.fitTides(raw.places.veranda.series.surface_air_pressure!, { longitude: raw.site!.longitude, climatology: false });
    expect(Math.abs(fit.constituents[1].amplitude.value - 1.32)).toBeLessThan(0.01);
    expect(job).toContain("flagRecord(await openRecord(");
  });

  it("a CSV without a description, of a planted wave with noise and holes", async () => {
    const chance = airtides.random(7);
    const from = Date.UTC(2024, 4, 1);
    const lines = Array.from({ length: 24 * 40 }, (_, h) => {
      const at = from + h * 3_600_000;
      // Crest of 0.9 hPa at 10 h of the sun's time at 110.2° east.
      const value = 861 + 0.9 * Math.cos((4 * Math.PI * (airtides.meanSolarHours(at, 110.2) - 10)) / 24) + 0.2 * chance.normal();
      const civil = new Date(at + 7 * 3_600_000).toISOString().replace(".000Z", "+07:00");
      return `${civil},${chance.integer(50) === 0 ? "" : value.toFixed(2)}`;
    });
    writeFileSync(join(folder, "log.csv"), `time,pressure\n${lines.join("\n")}\n`);
    const [[told]] = await printedBy(csv, folder);
    const s2 = JSON.parse(told as string) as airtides.Estimate;
    expect(s2.low <= 0.9 && 0.9 <= s2.high, told as string).toBe(true);
    expect(s2.standardError).toBeLessThan(0.05);
  });
});
