import { createRequire } from "node:module";
import { expect, it } from "vitest";
import { ownPackage } from "../../lib/door/kernel/ownPackage.js";

it("the package's declarations hold under the older compiler of the cells, which else would silently read any", () => {
  const load = createRequire(createRequire(import.meta.url).resolve("tslab/package.json"));
  const ts = load("@tslab/typescript-for-tslab");
  const own = ownPackage();
  const entries = [...own.entries.values()].map((entry) => entry.types);
  const program = ts.createProgram(entries, { target: ts.ScriptTarget.ES2022, lib: ["lib.es2022.d.ts"], module: ts.ModuleKind.ESNext, moduleResolution: ts.ModuleResolutionKind.Bundler, types: ["node"], skipLibCheck: false, noEmit: true });
  const faults = ts
    .getPreEmitDiagnostics(program)
    .filter((d: any) => d.file?.fileName.startsWith(`${own.root.replace(/\/$/, "")}/dist/`))
    .map((d: any) => `${d.file.fileName}: ${ts.flattenDiagnosticMessageText(d.messageText, " ")}`);
  expect(entries.length).toBeGreaterThan(1);
  expect(program.getSourceFiles().filter((f: any) => f.fileName.includes("/dist/")).length).toBeGreaterThan(20);
  expect(faults).toEqual([]);
});
