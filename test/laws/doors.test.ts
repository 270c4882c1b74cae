import { readFileSync } from "node:fs";
import { builtinModules } from "node:module";
import { join } from "node:path";
import { describe, expect, it } from "vitest";
import { root, sources } from "./sources.js";

const manifest = JSON.parse(readFileSync(join(root, "package.json"), "utf8")) as {
  dependencies: Record<string, string>;
  peerDependencies?: Record<string, string>;
  peerDependenciesMeta?: Record<string, { optional?: boolean }>;
};

/** Packages for those who want more: optional peers, loaded by a dynamic import in their one door. */
const optional = Object.keys(manifest.peerDependencies ?? {}).filter((name) => manifest.peerDependenciesMeta?.[name]?.optional === true);

/** Package name of a bare module: `pure-rand/generator/x` is `pure-rand`. */
function packageOf(module: string): string {
  const parts = module.split("/");
  return module.startsWith("@") ? parts.slice(0, 2).join("/") : parts[0];
}

const isBuiltin = (module: string): boolean => module.startsWith("node:") || builtinModules.includes(packageOf(module));

describe("law 2: one package, one door", () => {
  it("each outside package is imported by exactly one file", () => {
    const doors = new Map<string, Set<string>>();
    for (const { path, modules } of sources) {
      for (const module of modules) {
        if (module.startsWith(".") || isBuiltin(module)) continue;
        const name = packageOf(module);
        doors.set(name, (doors.get(name) ?? new Set()).add(path));
      }
    }
    const several = [...doors].filter(([, files]) => files.size > 1).map(([name, files]) => `${name}: ${[...files].join(", ")}`);
    expect(several).toEqual([]);
    expect([...doors.keys()].filter((name) => !(name in manifest.dependencies) && !optional.includes(name))).toEqual([]);
    expect(Object.keys(manifest.dependencies).filter((name) => !doors.has(name))).toEqual([]);
  });

  it("no Node built-in is imported below the door", () => {
    const wrong = sources.filter((s) => !s.path.startsWith("door/") && s.modules.some(isBuiltin)).map((s) => s.path);
    expect(wrong).toEqual([]);
  });
});
