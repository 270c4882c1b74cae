import { appendFileSync, existsSync, readFileSync } from "node:fs";
import { addOutcome, empty, firstSeed, missedBars, oneRecord, type Outcome, tableHead, tableRow } from "./tideRun.js";
import { scenarios, shortScenarios } from "./tideScenarios.js";

/**
 * The long run of the tide's coverage without a test runner: `tsx test/simulation/tideLong.ts FILE [minutes]`.
 *
 * Works in twenty rounds over all scenarios, so that the table is balanced whenever it stops; every piece is a line of JSON
 * in FILE, and a later call goes on where the file ends. Without pieces left, or after so many minutes, prints the table.
 */
const [file, minutes = "600"] = process.argv.slice(2);
if (file === undefined) throw new Error("tideLong: give the file that keeps the pieces");
const rounds = 20;
const all = [...scenarios.map((scenario, i) => ({ scenario, seeds: firstSeed + 10_000 * i })), ...shortScenarios.map((scenario, i) => ({ scenario, seeds: firstSeed + 10_000 * (100 + i) }))];
const done = new Map<string, Outcome>();
for (const line of existsSync(file) ? readFileSync(file, "utf8").split("\n") : []) {
  if (line === "") continue;
  const { index, round, outcome } = JSON.parse(line) as { index: number; round: number; outcome: Outcome };
  done.set(`${index} ${round}`, outcome);
}
const stopAt = Date.now() + 60_000 * Number(minutes);
for (let round = 0; round < rounds; round++) {
  for (const [index, { scenario, seeds }] of all.entries()) {
    if (done.has(`${index} ${round}`) || Date.now() > stopAt) continue;
    const outcome = empty();
    const [from, to] = [round, round + 1].map((r) => Math.round((scenario.long * r) / rounds));
    for (let r = from; r < to; r++) oneRecord(scenario, seeds + r, outcome);
    done.set(`${index} ${round}`, outcome);
    appendFileSync(file, `${JSON.stringify({ index, round, outcome })}\n`);
  }
}
const lines = [...tableHead];
const notes: string[] = [];
const pooled = [empty(), empty()];
for (const [index, { scenario }] of all.entries()) {
  const sum = empty();
  for (let round = 0; round < rounds; round++) {
    const outcome = done.get(`${index} ${round}`);
    if (outcome !== undefined) addOutcome(sum, outcome);
  }
  if (sum.records === 0) continue;
  lines.push(tableRow(scenario.name, sum));
  addOutcome(pooled[scenario.days < 20 ? 1 : 0], sum);
  notes.push(...missedBars(sum).map((m) => `${scenario.name}: ${m}`));
}
lines.push(tableRow("**pooled, 20 days and more**", pooled[0], false), tableRow("**pooled, under 20 days**", pooled[1], false));
console.log(`${lines.join("\n")}\n\nSeeds from ${firstSeed}. Bars missed: ${notes.length}\n${notes.join("\n")}`);
