import { execFileSync } from "node:child_process";
import { readFileSync } from "node:fs";
import { join } from "node:path";
import { describe, expect, it } from "vitest";
import { root, sources } from "./sources.js";

const tracked = execFileSync("git", ["ls-files", "-co", "--exclude-standard"], { cwd: root, encoding: "utf8" }).split("\n").filter((f) => f !== "");
const topLevel = new Set(["README.md", "DEVELOPERS.md", "CHANGELOG.md", "LICENSE", "package.json", "package-lock.json", "tsconfig.json", "lib", "notebooks", "test", "datasets"]);

describe("the house as drawn", () => {
  it("top level holds only what the design names", () => {
    const odd = [...new Set(tracked.map((f) => f.split("/")[0]))].filter((name) => !name.startsWith(".") && !topLevel.has(name));
    expect(odd).toEqual([]);
  });

  it("no drawer for odds and ends", () => {
    expect(tracked.filter((f) => f.startsWith("lib/") && /(^|\/)(utils?|helpers?|common|misc)(\/|\.ts$)/i.test(f))).toEqual([]);
  });

  it("no unfinished marks, no skipped tests, no closeness in decimals", () => {
    // Each word is put together here so that this file does not find itself.
    const words = [["TO", "DO"], ["FIX", "ME"], ["toBe", "CloseTo"], ["it", ".skip"], ["describe", ".skip"], [".on", "ly("]].map((w) => w.join(""));
    const found: string[] = [];
    for (const file of tracked.filter((f) => /^(lib|test|datasets|notebooks)\/.*\.(ts|mjs|md|ipynb)$/.test(f))) {
      const text = readFileSync(join(root, file), "utf8");
      for (const word of words) if (text.includes(word)) found.push(`${file}: ${word}`);
    }
    expect(found).toEqual([]);
  });

  it("the lock file holds no download addresses", () => {
    expect(readFileSync(join(root, "package-lock.json"), "utf8")).not.toMatch(/"resolved": *"http/);
  });
});

describe("law 3 and the documentation of public names", () => {
  it("every exported function of lib has a documentation comment", () => {
    const bare: string[] = [];
    for (const { path, text } of sources) {
      for (const match of text.matchAll(/(^|\n)(?:export (?:async )?function\*? (\w+))/g)) {
        const before = text.slice(0, match.index).trimEnd();
        if (!before.endsWith("*/")) bare.push(`lib/${path}: ${match[2]}`);
      }
    }
    expect(bare).toEqual([]);
  });
});
