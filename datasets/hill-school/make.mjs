import { writeFileSync } from "node:fs";
import { fileURLToPath } from "node:url";
import { pageOf } from "../invent/pageOf.mjs";
import { trueAir } from "./air.mjs";
import { writeCards } from "./cards.mjs";
import { description } from "./description.mjs";
import { plantFaults } from "./faults.mjs";
import { soundRows } from "./loggers.mjs";
import { truth } from "./truth.mjs";

/**
 * Makes the invented record hill-school: true air → loggers → faults → cards → truth. Same bytes each time.
 *
 * @returns { name of file: text } of everything that is written beside this script
 */
export function make() {
  const air = trueAir();
  const rows = ["veranda", "library"].flatMap((place) => plantFaults(place, soundRows(place, air)));
  // Both loggers write to one card as their readings come in.
  rows.sort((a, b) => a.at - b.at);
  const cards = writeCards(rows);
  const files = Object.fromEntries(cards.map(({ path, text }) => [path, text]));
  return { ...files, "datapackage.json": pageOf(description()), "truth.json": pageOf(truth(air, cards)) };
}

if (process.argv[1] === fileURLToPath(import.meta.url)) {
  for (const [name, text] of Object.entries(make())) {
    writeFileSync(new URL(name, import.meta.url), text);
    console.log(`${name}  ${Buffer.byteLength(text)} bytes`);
  }
}
