/**
 * `npm run mutate`                 all rooms of rooms.mjs but ground, one after the other
 * `npm run mutate -- air tide`     these rooms; `cycles` stands for its four
 * `npm run mutate -- lib/air/gravity.ts lib/air/dewPoint.ts`   these files of one room
 *
 * Prints a row of the table in README.md for each run; the reports stay in .mutation/reports.
 */
import { spawnSync } from "node:child_process";
import { readFileSync } from "node:fs";
import { roomOf, rooms } from "./rooms.mjs";

const cycles = ["tide", "spectrum", "climate", "swings"];
const asked = process.argv.slice(2);
const files = asked.filter((a) => a.includes("/"));
const named = asked.filter((a) => !a.includes("/")).flatMap((a) => (a === "cycles" ? cycles : [a]));
const unknown = [...named.filter((n) => !(n in rooms)), ...files.filter((f) => roomOf(f) === undefined)];
if (unknown.length > 0) {
  console.error(`mutate: each argument must be a room (${Object.keys(rooms).join(", ")}, cycles) or a file in one (got ${unknown.join(", ")})`);
  process.exit(2);
}

/** Room to its files, or undefined for all of them. */
const runs = new Map();
for (const file of files) runs.set(roomOf(file), [...(runs.get(roomOf(file)) ?? []), file]);
for (const room of asked.length === 0 ? ["air", "grid", "indoors", ...cycles] : named) runs.set(room, undefined);

function row(room) {
  const report = JSON.parse(readFileSync(`.mutation/reports/${room}.json`, "utf8"));
  const all = Object.values(report.files).flatMap((f) => f.mutants);
  const count = (status) => all.filter((m) => m.status === status).length;
  const [killed, survived, noCoverage, timedOut] = ["Killed", "Survived", "NoCoverage", "Timeout"].map(count);
  const score = ((100 * (killed + timedOut)) / (killed + timedOut + survived + noCoverage)).toFixed(1);
  return `| ${[room, killed + timedOut + survived + noCoverage, killed, survived, noCoverage, timedOut, `${score} %`].join(" | ")} |`;
}

const rows = [];
for (const [room, only] of runs) {
  const { status } = spawnSync("node_modules/.bin/stryker", ["run", "test/mutation/stryker.config.mjs"], {
    stdio: "inherit",
    env: { ...process.env, MUTATED_ROOM: room, ...(only === undefined ? {} : { MUTATED_FILES: only.join(",") }) },
  });
  if (status !== 0) process.exit(status ?? 1);
  rows.push(row(room));
}
console.log(`\n| room | mutants | killed | survived | no coverage | timed out | score |\n|---|---|---|---|---|---|---|\n${rows.join("\n")}`);
