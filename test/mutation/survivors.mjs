/** Prints the mutants of a room's last run that no test noticed: `node test/mutation/survivors.mjs ROOM [FILE]`. */
import { readFileSync } from "node:fs";

const [room, only] = process.argv.slice(2);
const report = JSON.parse(readFileSync(`.mutation/reports/${room}.json`, "utf8"));
for (const [file, { source, mutants }] of Object.entries(report.files)) {
  if (only !== undefined && !file.includes(only)) continue;
  const lines = source.split("\n");
  for (const { mutatorName, status, location, replacement } of mutants) {
    if (status !== "Survived" && status !== "NoCoverage") continue;
    const { start, end } = location;
    const was = start.line === end.line ? lines[start.line - 1].slice(start.column - 1, end.column - 1) : `${lines[start.line - 1].slice(start.column - 1)} … ${lines[end.line - 1].slice(0, end.column - 1).trim()}`;
    console.log(`${file}:${start.line} ${mutatorName}${status === "NoCoverage" ? " (no coverage)" : ""}: ${was}  →  ${(replacement ?? "").replace(/\s+/g, " ")}`);
  }
}
