import { execFileSync, spawnSync } from "node:child_process";
import { mkdtempSync, rmSync, statSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { expect, it } from "vitest";
import { root } from "../laws/sources.js";
import { printed } from "./inventedWeather.js";

/**
 * A log larger than one string may be: seven years of minutes from two places, 7.55 million lines. `check` reads it as a stream; what it holds
 * are the readings (five arrays of a minute's numbers a place, 290 MB) and not the text.
 */
it("check on a 300-MB log keeps below 700 MB and accounts for every line", () => {
  const folder = mkdtempSync(join(tmpdir(), "airtides-streaming-"));
  try {
    const rows = 7_550_000;
    const maker = JSON.stringify(join(root, "test", "bench", "yearOfMinutes.mjs"));
    execFileSync(process.execPath, ["--input-type=module", "-e", `import { makeYearOfMinutes } from ${maker}; makeYearOfMinutes(${JSON.stringify(folder)}, ${rows})`]);
    const megabytes = statSync(join(folder, "card.txt")).size / 1e6;
    expect(megabytes).toBeGreaterThan(300);
    const program = JSON.stringify(join(root, "dist", "door", "cli", "airtides.js"));
    const script = `process.argv.splice(1, 0, ""); process.on("exit", () => process.stderr.write("\\npeak " + process.resourceUsage().maxRSS)); import(${program});`;
    const run = spawnSync(process.execPath, ["--input-type=module", "-e", script, "check", "--json", folder], { encoding: "utf8", maxBuffer: 1 << 26 });
    expect(run.status, run.stderr).toBe(0);
    const peak = Number(/peak (\d+)/.exec(run.stderr)?.[1]) / 1024;
    const answer = JSON.parse(run.stdout);
    printed("check on a large log", [["log, MB", "lines", "peak memory, MB"], [megabytes.toFixed(0), answer.files[0].lines, peak.toFixed(0)]]);
    expect(answer.files).toEqual([{ path: "card.txt", lines: rows, accepted: rows, skipped: 0, rejected: [] }]);
    expect(answer.places.veranda.readings + answer.places.library.readings).toBe(rows);
    expect(peak).toBeLessThan(700);
  } finally {
    rmSync(folder, { recursive: true });
  }
});
