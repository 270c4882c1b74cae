import { spawnSync } from "node:child_process";
import { mkdtempSync, readFileSync, rmSync, symlinkSync, writeFileSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { publint } from "publint";
import ts from "typescript";
import { afterAll, beforeAll, describe, expect, it } from "vitest";
import { root } from "../laws/sources.js";
import { readmeBlocks } from "../readmeBlocks.js";

const folder = mkdtempSync(join(tmpdir(), "airtides-package-"));
const installed = join(folder, "node_modules", "airtides");
afterAll(() => rmSync(folder, { recursive: true, force: true }));

function run(command: string, args: readonly string[], cwd: string): string {
  const ran = spawnSync(command, args, { cwd, encoding: "utf8", maxBuffer: 1 << 26 });
  if (ran.status !== 0) throw new Error(`${command} ${args.join(" ")} in ${cwd}:\n${ran.stdout}${ran.stderr}`);
  return ran.stdout;
}

const manifest = JSON.parse(readFileSync(join(root, "package.json"), "utf8")) as { name: string; version: string; exports: Record<string, unknown>; bin: Record<string, string> };
const subpaths = Object.keys(manifest.exports).filter((s) => !s.endsWith(".json"));
const tarball = join(folder, `${manifest.name}-${manifest.version}.tgz`);

/** A name that each subpath must give, with a type of its own. */
const using: Readonly<Record<string, string>> = {
  ".": 'import { fitTides, series, type TideFit } from "airtides";\nexport const fit: TideFit = fitTides(series({ times: [0], values: [1], quantity: "surface_air_pressure" }), { longitude: 110.2 });',
  "./disk": 'import { openRecord } from "airtides/disk";\nexport const opened: Promise<{ readonly name: string }> = openRecord("x");',
  "./air": 'import { dewPoint } from "airtides/air";\nexport const point: number = dewPoint(20, 50);',
  "./record": 'import { readRecord, type AirRecord } from "airtides/record";\nexport const read: Promise<AirRecord> = readRecord({}, () => []);',
  "./grid": 'import { detrend, type Detrended } from "airtides/grid";\nexport const flat: Detrended = detrend([1, 2], [0, 1]);',
  "./cycles": 'import { fitTides as fitted, type TideOptions } from "airtides/cycles";\nexport const options: (given: TideOptions) => Parameters<typeof fitted>[1] = (given) => given;',
  "./indoors": 'import { roomResponse } from "airtides/indoors";\nexport const gain: number = roomResponse(12).gain;',
  "./figure": 'import { chart, type Figure } from "airtides/figure";\nexport const drawn: (parts: Parameters<typeof chart>[0]) => Figure = chart;',
};

/** Complaints of the TypeScript compiler about a file of the consumer. */
function complaints(file: string, module: ts.ModuleKind, moduleResolution: ts.ModuleResolutionKind): string[] {
  const options: ts.CompilerOptions = { module, moduleResolution, target: ts.ScriptTarget.ES2022, lib: ["lib.es2023.d.ts"], types: [], strict: true, noEmit: true };
  const program = ts.createProgram([file], options);
  return ts.getPreEmitDiagnostics(program).map((d) => `${d.file?.fileName ?? ""}: ${ts.flattenDiagnosticMessageText(d.messageText, "\n")}`);
}

describe("the package, packed and installed in an empty folder", () => {
  beforeAll(() => {
    run(process.execPath, ["lib/door/build.mjs"], root);
    run("npm", ["pack", "--pack-destination", folder], root);
    writeFileSync(join(folder, "package.json"), JSON.stringify({ name: "consumer", private: true, type: "module" }));
    run("npm", ["install", tarball, "--prefer-offline", "--ignore-scripts", "--no-audit", "--no-fund"], folder);
    // Relative paths of the examples are those of a project that has the records beside it.
    symlinkSync(join(installed, "datasets"), join(folder, "datasets"));
  });

  it("runs README's library example", () => {
    const block = readmeBlocks().job;
    expect(readFileSync(join(installed, "README.md"), "utf8")).toContain(block);
    writeFileSync(join(folder, "example.mjs"), ts.transpileModule(block, { compilerOptions: { module: ts.ModuleKind.ESNext, target: ts.ScriptTarget.ES2022 } }).outputText);
    const printed = run(process.execPath, ["example.mjs"], folder);
    expect(printed).toMatch(/S1[\s\S]*S2[\s\S]*S3/);
    // The planted S2 of hill-school is 1.08 hPa (datasets/hill-school/truth.json).
    const [, low, high] = (/S2[\s\S]*?low: ([\d.]+)[\s\S]*?high: ([\d.]+)/.exec(printed) ?? []).map(Number);
    expect(low <= 1.08 && 1.08 <= high, printed.slice(0, 600)).toBe(true);
  });

  it("holds the reference pages, and README's example as TypeScript without complaint", () => {
    expect(readFileSync(join(installed, "dist", "reference", "cycles.html"), "utf8")).toContain('id="fitTides"');
    const file = join(folder, "job.mts");
    writeFileSync(file, `declare const console: { log(...all: unknown[]): void };\n${readmeBlocks().job}`);
    expect(complaints(file, ts.ModuleKind.Node16, ts.ModuleResolutionKind.Node16)).toEqual([]);
  });

  it("has its command", () => {
    const answer = JSON.parse(run(join(folder, "node_modules", ".bin", "airtides"), ["tides", "datasets/hill-school", "--json"], folder)) as object;
    expect(JSON.stringify(answer)).toContain('"S2"');
  });

  it("carries the licenses of the packages that are bundled into its command", () => {
    const licenses = readFileSync(join(installed, "dist", "door", "cli", "LICENSES.txt"), "utf8");
    for (const name of ["commander", "zod", "temporal-polyfill", "fft\\.js", "jstat"]) expect(licenses).toMatch(new RegExp(`\\n${name} \\d+\\.\\d+\\.\\d+\\b[^─]*?Permission is hereby granted`));
  });

  it("publint finds nothing", async () => {
    const data = readFileSync(tarball);
    const { messages } = await publint({ pack: { tarball: data.buffer.slice(data.byteOffset, data.byteOffset + data.byteLength) as ArrayBuffer }, strict: true });
    expect(messages.map((m) => `${m.type}: ${m.code} at ${m.path.join(".")}`)).toEqual([]);
  });

  it("every subpath has types under node16, nodenext and a bundler, with the libraries checked", () => {
    expect(Object.keys(using)).toEqual(subpaths);
    const file = join(folder, "consumer.mts");
    writeFileSync(file, Object.values(using).join("\n"));
    expect(complaints(file, ts.ModuleKind.Node16, ts.ModuleResolutionKind.Node16)).toEqual([]);
    expect(complaints(file, ts.ModuleKind.NodeNext, ts.ModuleResolutionKind.NodeNext)).toEqual([]);
    expect(complaints(file, ts.ModuleKind.ESNext, ts.ModuleResolutionKind.Bundler)).toEqual([]);
    // A name that is not there is found missing, so the check can fail.
    writeFileSync(file, 'import { fogPoint } from "airtides/air";\nexport const point: unknown = fogPoint;');
    expect(complaints(file, ts.ModuleKind.ESNext, ts.ModuleResolutionKind.Bundler)).toHaveLength(1);
  });

  it("every subpath gives the same values by import and by require", () => {
    const names = subpaths.map((s) => `airtides${s.slice(1)}`);
    writeFileSync(join(folder, "both.cjs"), `(async () => { const out = {}; for (const n of ${JSON.stringify(names)}) { const [a, b] = [require(n), await import(n)]; out[n] = Object.keys(b).filter((k) => k !== "default" && k !== "module.exports").map((k) => a[k] === b[k]); } console.log(JSON.stringify(out)); })();`);
    const same = JSON.parse(run(process.execPath, ["both.cjs"], folder)) as Record<string, boolean[]>;
    for (const name of names) {
      expect(same[name].length, name).toBeGreaterThan(2);
      expect(same[name].every(Boolean), name).toBe(true);
    }
    // A room gives nothing that the whole does not.
    const whole = same.airtides.length;
    expect(names.slice(2).every((n) => same[n].length < whole)).toBe(true);
  });
});
