/**
 * Speed and memory as ratios, each pair measured in alternation in one run: `npm run bench`. Nothing here is a test.
 *
 * The record is an invented year of minutes from two places (about 1.05 million rows). Each command, and each job of the comparator
 * (skilled.py: pandas, scipy, statsmodels), runs in a process of its own, so that processor time and peak memory are its own.
 * Options: `--rounds N` (default 3), `--ten-million` adds 10^7 rows to the growth.
 */
import { closeSync, mkdirSync, mkdtempSync, openSync, readSync, rmSync, statSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { fitTides } from "../../dist/index.js";
import { openRecord } from "../../dist/door/disk/disk.js";
import { airtides, bareNode, median, skilled } from "./sideRun.mjs";
import { makeYearOfMinutes } from "./yearOfMinutes.mjs";

const folder = mkdtempSync(join(tmpdir(), "airtides-bench-"));
const seconds = (from) => Number(process.hrtime.bigint() - from) / 1e9;
const rounds = Number(process.argv[process.argv.indexOf("--rounds") + 1]) || 3;
const sizes = [1e4, 1e5, 1e6, ...(process.argv.includes("--ten-million") ? [1e7] : [])];

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

/** Words of a command; a report goes into a folder of its own and is written over by itself. */
const wordsOf = (name, record) => (name === "report" ? [name, "--json", "--out", join(folder, "report"), record] : [name, "--json", record]);

/** Slope of ln y over ln x by least squares: 1 is growth in step with the rows. */
function exponent(x, y) {
  const [u, v] = [x, y].map((list) => list.map(Math.log));
  const [mu, mv] = [u, v].map((list) => list.reduce((a, b) => a + b, 0) / list.length);
  return u.reduce((sum, ui, i) => sum + (ui - mu) * (v[i] - mv), 0) / u.reduce((sum, ui) => sum + (ui - mu) ** 2, 0);
}

/** Both sides at some jobs, by turns. */
function compared(what, path, jobs) {
  console.log(`\n${what} against skilled.py (pandas, scipy, statsmodels), processor time and peak memory, medians of ${rounds} by turns`);
  for (const job of jobs) {
    const own = [];
    const other = [];
    for (let k = 0; k < rounds; k++) {
      own.push(airtides(...wordsOf(job, join(path, ".."))));
      const run = skilled(path, job);
      if (run === null) return void console.log("  the comparator needs Debian's python3-pandas, python3-scipy and python3-statsmodels: not compared");
      other.push(run);
    }
    const of = (list, what) => median(list.map((r) => r[what]));
    const [a, b] = [own, other].map((list) => ({ time: of(list, "processor"), memory: of(list, "megabytes") }));
    console.log(`  ${job.padEnd(8)} ${a.time.toFixed(2)} s against ${b.time.toFixed(2)} s: ${(b.time / a.time).toFixed(2)} times as fast; ${a.memory.toFixed(0)} MB against ${b.memory.toFixed(0)} MB: ${(a.memory / b.memory).toFixed(2)}`);
  }
}

/** Time and memory over the number of rows, less what an empty run costs, and the exponents of their growth. */
function growth() {
  console.log("\ngrowth with the rows, processor time and peak memory beyond those of `--help` (goal: exponents at most 1.05)");
  const empty = airtides("--help");
  for (const job of ["check", "tides", "report"]) {
    const found = sizes.map((rows) => {
      const record = join(folder, `rows-${rows}`);
      mkdirSync(record, { recursive: true });
      makeYearOfMinutes(record, rows);
      const run = airtides(...wordsOf(job, record));
      rmSync(record, { recursive: true });
      return { time: Math.max(0.01, run.processor - empty.processor), memory: Math.max(1, run.megabytes - empty.megabytes) };
    });
    const cells = found.map((f, i) => `10^${Math.log10(sizes[i])}: ${f.time.toFixed(2)} s, ${f.memory.toFixed(0)} MB`).join("; ");
    const last = (what) => exponent(sizes.slice(-2), found.slice(-2).map((f) => f[what])).toFixed(2);
    console.log(`  ${job.padEnd(8)} ${cells}; exponents ${exponent(sizes, found.map((f) => f.time)).toFixed(2)} and ${exponent(sizes, found.map((f) => f.memory)).toFixed(2)}, over the last decade ${last("time")} and ${last("memory")}`);
  }
}

try {
  const path = makeYearOfMinutes(folder);
  const megabytes = statSync(path).size / 1e6;
  console.log(`a year of minutes, two places: ${megabytes.toFixed(1)} MB; medians of ${rounds} by turns\n`);
  const runs = { scan: [], read: [], check: [], tides: [], report: [], empty: [], bare: [] };
  const peaks = { check: 0, tides: 0, report: 0 };
  let record;
  for (let k = 0; k < rounds; k++) {
    runs.scan.push(byteScan(path).time);
    const from = process.hrtime.bigint();
    record = await openRecord(folder);
    runs.read.push(seconds(from));
    for (const name of ["check", "tides", "report"]) {
      const run = airtides(...wordsOf(name, folder));
      runs[name].push(run.processor);
      peaks[name] = Math.max(peaks[name], run.megabytes);
    }
    runs.empty.push(airtides("--help").processor);
    runs.bare.push(bareNode().processor);
  }
  const scan = median(runs.scan);
  const row = (what, time, note = "") => console.log(`${what.padEnd(34)} ${time.toFixed(2).padStart(7)} s ${(time / scan).toFixed(1).padStart(7)} × the scan  ${note}`);
  row("bare scan of its bytes", scan, `${(megabytes / scan).toFixed(0)} MB/s`);
  row("read into series", median(runs.read), `${(megabytes / median(runs.read)).toFixed(0)} MB/s`);
  row("airtides check, whole process", median(runs.check), `peak ${peaks.check.toFixed(0)} MB`);
  row("airtides tides, whole process", median(runs.tides), `peak ${peaks.tides.toFixed(0)} MB`);
  row("airtides report, whole process", median(runs.report), `peak ${peaks.report.toFixed(0)} MB`);
  row("airtides --help, whole process", median(runs.empty), `${(median(runs.empty) / median(runs.bare)).toFixed(2)} × \`node -e 0\``);
  compared("a year of minutes", path, ["check", "tides", "report"]);
  compared("100 days of 5-minute readings", makeYearOfMinutes(join(folder, "hundred-days"), 57_600, 300), ["check", "tides", "indoors", "report"]);
  growth();

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
