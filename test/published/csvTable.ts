import { readFileSync } from "node:fs";

/** A table of data/, its `#` lines left out: one record of text cells a row, by header name. */
export function csvTable(name: string): Record<string, string>[] {
  const lines = readFileSync(new URL(`./data/${name}`, import.meta.url), "utf8").split("\n").filter((l) => l !== "" && !l.startsWith("#"));
  const header = (lines[0] as string).split(",");
  return lines.slice(1).map((line) => Object.fromEntries(line.split(",").map((cell, i) => [header[i] as string, cell])));
}
