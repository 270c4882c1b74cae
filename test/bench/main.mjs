/**
 * Speed and memory as ratios, each pair measured in alternation in one run: `npm run bench`. Nothing here is a test.
 *
 * The record is an invented year of minutes from two places (about 1.05 million rows); each command runs in a process of its
 * own, so that its peak memory is its own.
 */
import { spawnSync } from "node:child_process";
import { closeSync, mkdtempSync, openSync, readSync, rmSync, statSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { fileURLToPath } from "node:url";
import { fitTides } from "../../dist/index.js";
import { openRecord } from "../../dist/door/disk/disk.js";
import { makeYearOfMinutes } from "./yearOfMinutes.mjs";

const program = fileURLToPath(new URL("../../dist/door/cli/airtides.js", import.meta.url));
const folder = mkdtempSync(join(tmpdir(), "airtides-bench-"));
const seconds = (from) => Number(process.hrtime.bigint() - from) / 1e9;
const median = (list) => [...list].sort((a, b) => a - b)[list.length >> 1];

/** One pass over the bytes of a file through one reused buffer, summing them so that the pass is real. */
function byteScan(path) {
  const from = process.hrtime.bigint();
  const buffer = Buffer.allocUnsafe(1 << 20);
  const file = openSync(path, "r");
  let sum = 0;
  for (let n = readSync(file, buffer); n > 0; n = readSync(file, buffer)) for (let i = 0; i < n; i++) sum += buffer[i];
  closeSync(file);
  return { time: seconds(from), sum };
}

/** Runs a command and reads its peak memory from the system's account of the child. */
function command(...words) {
  const from = process.hrtime.bigint();
  const script = `process.argv.splice(1, 0, ""); process.on("exit", () => process.stderr.write("\\npeak " + process.resourceUsage().maxRSS)); import(${JSON.stringify(program)});`;
  const run = spawnSync(process.execPath, ["--input-type=module", "-e", script, ...words], { encoding: "utf8", maxBuffer: 1 << 28 });
  if (run.status !== 0) throw new Error(`${words.join(" ")} failed: ${run.stderr}`);
  return { time: seconds(from), megabytes: Number(/peak (\d+)/.exec(run.stderr)?.[1]) / 1024 };
}

try {
  const path = makeYearOfMinutes(folder);
  const megabytes = statSync(path).size / 1e6;
  console.log(`a year of minutes, two places: ${megabytes.toFixed(1)} MB; medians of 3 in alternation\n`);
  const runs = { scan: [], read: [], check: [], tides: [], empty: [] };
  const peaks = { check: 0, tides: 0 };
  let record;
  for (let k = 0; k < 3; k++) {
    runs.scan.push(byteScan(path).time);
    const from = process.hrtime.bigint();
    record = await openRecord(folder);
    runs.read.push(seconds(from));
    for (const name of ["check", "tides"]) {
      const run = command(name, "--json", folder);
      runs[name].push(run.time);
      peaks[name] = Math.max(peaks[name], run.megabytes);
    }
    runs.empty.push(command("--help").time);
  }
  const scan = median(runs.scan);
  const row = (what, time, note = "") => console.log(`${what.padEnd(34)} ${time.toFixed(2).padStart(7)} s ${(time / scan).toFixed(1).padStart(7)} × the scan  ${note}`);
  row("bare scan of its bytes", scan, `${(megabytes / scan).toFixed(0)} MB/s`);
  row("read into series", median(runs.read), `${(megabytes / median(runs.read)).toFixed(0)} MB/s`);
  row("airtides check, whole process", median(runs.check), `peak ${peaks.check.toFixed(0)} MB`);
  row("airtides tides, whole process", median(runs.tides), `peak ${peaks.tides.toFixed(0)} MB`);
  row("airtides --help, whole process", median(runs.empty));

  const pressure = record.places.veranda.series.surface_air_pressure;
  const passes = [];
  const fits = [];
  for (let k = 0; k < 3; k++) {
    let from = process.hrtime.bigint();
    let sum = 0;
    for (let i = 0; i < pressure.values.length; i++) sum += pressure.values[i] * pressure.seconds[i];
    passes.push(seconds(from) + 0 * sum);
    from = process.hrtime.bigint();
    fitTides(pressure, { longitude: 110.2, climatology: false });
    fits.push(seconds(from));
  }
  console.log(`\ntide of ${pressure.values.length} readings (year of minutes): ${median(fits).toFixed(2)} s, ${(median(fits) / median(passes)).toFixed(0)} × one pass over the array (${(1000 * median(passes)).toFixed(1)} ms)`);
} finally {
  rmSync(folder, { recursive: true });
}
