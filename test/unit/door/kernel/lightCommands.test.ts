import { readFileSync } from "node:fs";
import { dirname, join, relative } from "node:path";
import { expect, it } from "vitest";

const lib = new URL("../../../../lib", import.meta.url).pathname;

/** Every file that a file loads by import statements (types aside), itself with it. */
function loadedBy(entry: string, found: Set<string> = new Set()): Set<string> {
  if (found.has(entry)) return found;
  found.add(entry);
  const text = readFileSync(join(lib, entry), "utf8");
  for (const match of text.matchAll(/^(?:import|export) (?!type )(?:[^;]*? from )?"(\.[^"]+)\.js";/gm)) loadedBy(relative(lib, join(lib, dirname(entry), `${match[1]}.ts`)), found);
  return found;
}

it("commands about records and `airtides kernel` load neither the cells' compiler nor the sockets", () => {
  const heavy = ["door/kernel/compiler.ts", "door/kernel/sockets.ts"];
  expect(heavy.every((file) => [...loadedBy("door/kernel/kernelMain.ts"), ...loadedBy("door/kernel/socketThread.ts")].includes(file))).toBe(true);
  for (const command of ["airtides", "commandLine", "kernelCommand", "checkCommand", "tidesCommand", "swingsCommand", "climateCommand", "runRecords"]) {
    const files = loadedBy(`door/cli/${command}.ts`);
    expect(heavy.filter((file) => files.has(file)), command).toEqual([]);
  }
});
