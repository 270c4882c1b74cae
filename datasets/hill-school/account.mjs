import { instantRead } from "./loggers.mjs";
import * as plan from "./plan.mjs";

const skippedKinds = ["comment", "header", "blank"];
const rejectedKinds = ["cut", "glued", "garbled", "unset"];

/** What became of the lines of each card, by kind. */
export function fileAccounts(cards) {
  return cards.map(({ path, lines }) => {
    const kinds = { row: 0 };
    for (const kind of [...skippedKinds, ...rejectedKinds]) kinds[kind] = 0;
    for (const { kind } of lines) kinds[kind]++;
    const linesOf = (wanted) => lines.flatMap(({ kind }, i) => (kind === wanted ? [i + 1] : []));
    const rejectedLines = Object.fromEntries(rejectedKinds.map((kind) => [kind, linesOf(kind)]));
    const rejected = rejectedKinds.reduce((sum, kind) => sum + kinds[kind], 0);
    const skipped = skippedKinds.reduce((sum, kind) => sum + kinds[kind], 0);
    return { path, lines: lines.length, accepted: kinds.row, skipped, rejected, kinds, rejectedLines };
  });
}

/**
 * The rows a reader keeps: for each place the first row of each written instant, in the order of the files.
 *
 * @param cards from `writeCards`
 * @returns { veranda: { rows (each with `instant`, epoch ms after the told corrections), repeated, conflicting }, library: … }
 */
export function keptRows(cards) {
  const kept = {};
  for (const [place, letter] of Object.entries(plan.letters)) {
    const first = new Map();
    let repeated = 0;
    let conflicting = 0;
    for (const { kind, text, row } of cards.flatMap((card) => card.lines)) {
      if (kind !== "row" || row.letter !== letter) continue;
      const before = first.get(row.written);
      if (before === undefined) first.set(row.written, { text, row });
      else if (before.text === text) repeated++;
      else conflicting++;
    }
    const rows = [...first.values()].map(({ row }) => ({ ...row, instant: instantRead(row.written) }));
    kept[place] = { rows: rows.sort((a, b) => a.instant - b.instant), repeated, conflicting };
  }
  return kept;
}

/** Planted faults as the kept rows show them: first and last instant, number of readings, size of the largest. */
export function faultsSeen(kept) {
  const found = new Map();
  for (const [place, { rows }] of Object.entries(kept)) {
    for (const row of rows) {
      for (const { flag, quantity, size, id } of row.marks) {
        const key = `${place} ${quantity} ${id}`;
        const fault = found.get(key) ?? { flag, place, quantity, from: row.instant, to: row.instant, readings: 0, size };
        fault.to = row.instant;
        fault.readings++;
        if (size !== null && Math.abs(size) > Math.abs(fault.size)) fault.size = size;
        found.set(key, fault);
      }
    }
  }
  return [...found.values()].sort((a, b) => a.from - b.from);
}
