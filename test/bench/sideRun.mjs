/** One run of either side of the bench in a process of its own, with the system's account of it. Clocks are noisy on shared machines: processor time counts. */
import { spawnSync } from "node:child_process";
import { fileURLToPath } from "node:url";

const program = fileURLToPath(new URL("../../dist/door/cli/airtides.js", import.meta.url));
const account = fileURLToPath(new URL("usedAtEnd.cjs", import.meta.url));
const comparator = fileURLToPath(new URL("skilled.py", import.meta.url));

/** The middle one. */
export const median = (list) => [...list].sort((a, b) => a - b)[list.length >> 1];

/** Runs a program that tells `used SECONDS KILOBYTES` at its end; throws with what it said when it fails. */
function run(file, words) {
  const from = process.hrtime.bigint();
  const done = spawnSync(file, words, { encoding: "utf8", maxBuffer: 1 << 28 });
  if (done.status !== 0) throw new Error(`${words.slice(-3).join(" ")} failed: ${done.stderr}`);
  const told = /used ([\d.]+) (\d+)\s*$/.exec(done.stderr);
  if (told === null) throw new Error(`${words.slice(-3).join(" ")} did not tell what it used: ${done.stderr}`);
  return { wall: Number(process.hrtime.bigint() - from) / 1e9, processor: Number(told[1]), megabytes: Number(told[2]) / 1024 };
}

/** A command of airtides. */
export function airtides(...words) {
  return run(process.execPath, ["--require", account, program, ...words]);
}

/** Node itself, doing nothing. */
export function bareNode() {
  return run(process.execPath, ["--require", account, "-e", "0"]);
}

/** The comparator; null where Debian's python3 with pandas, scipy and statsmodels is not installed. */
export function skilled(path, job) {
  const has = spawnSync("/usr/bin/python3", ["-c", "import pandas, scipy, statsmodels"]);
  return has.status === 0 ? run("/usr/bin/python3", [comparator, path, job]) : null;
}
