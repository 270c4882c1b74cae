import type { ClockJump } from "./airRecord.js";
import { type Quantity, quantities } from "./quantity.js";
import type { RowStore } from "./rowStore.js";

/** Rows of one place put in order, each instant once. */
export interface MergedRows {
  /** Epoch ms · [n] · increasing. */
  readonly times: Float64Array;
  readonly quantities: readonly Quantity[];
  /** One array a quantity · [n] · NaN is missing. */
  readonly columns: readonly Float64Array[];
  readonly repeated: number;
  readonly conflicting: number;
  readonly jumps: readonly ClockJump[];
}

/**
 * Joins what several files and resources say of one place: sorted by time, each instant once, the first row kept.
 *
 * A row at an instant that is there already is `repeated` when it says the same, `conflicting` when it does not; rows of
 * different resources that share no quantity are one reading. A step back in time inside a file is a jump of the clock,
 * unless its row repeats one that is there: then a part of the card was copied twice.
 */
export function mergeRows(place: string, stores: readonly RowStore[]): MergedRows {
  const present = quantities.filter((q) => stores.some((s) => s.quantities.includes(q)));
  const total = stores.reduce((n, s) => n + s.length, 0);
  const all = new Float64Array(total);
  const owner = new Uint16Array(total);
  const rowOf = new Uint32Array(total);
  let k = 0;
  for (const [o, store] of stores.entries()) {
    for (let i = 0; i < store.length; i++, k++) {
      all[k] = store.times[i];
      owner[k] = o;
      rowOf[k] = i;
    }
  }
  const order = sortedOrder(all);
  const times = new Float64Array(total);
  const columns = present.map(() => new Float64Array(total));
  const keptOf = new Uint32Array(total);
  const repeats = new Uint8Array(total);
  const slots = stores.map((s) => present.map((q) => s.quantities.indexOf(q)));
  let n = 0;
  let repeated = 0;
  let conflicting = 0;
  let seen = 0;
  for (const index of order) {
    const o = owner[index];
    const store = stores[o];
    const row = rowOf[index];
    if (n > 0 && times[n - 1] === all[index]) {
      const shared = slots[o].some((s, c) => s >= 0 && (seen & (1 << c)) !== 0);
      const same = slots[o].every((s, c) => s < 0 || (seen & (1 << c)) === 0 || Object.is(columns[c][n - 1], store.columns[s][row]));
      if (shared) {
        if (same) {
          repeated++;
          repeats[index] = 1;
        } else conflicting++;
      } else {
        for (const [c, s] of slots[o].entries()) if (s >= 0) columns[c][n - 1] = store.columns[s][row];
        seen |= maskOf(slots[o]);
      }
      keptOf[index] = n - 1;
      continue;
    }
    times[n] = all[index];
    for (const [c, s] of slots[o].entries()) columns[c][n] = s >= 0 ? store.columns[s][row] : Number.NaN;
    seen = maskOf(slots[o]);
    keptOf[index] = n++;
  }
  return {
    times: times.slice(0, n),
    quantities: present,
    columns: columns.map((c) => c.slice(0, n)),
    repeated,
    conflicting,
    jumps: clockJumps(place, stores, repeats),
  };
}

function maskOf(slots: readonly number[]): number {
  return slots.reduce((mask, s, c) => (s >= 0 ? mask | (1 << c) : mask), 0);
}

/** Order of rows by time; rows of one instant stay in the order in which they were read. */
function sortedOrder(times: Float64Array): Uint32Array {
  const order = Uint32Array.from(times, (_, i) => i);
  let sorted = true;
  for (let i = 1; i < times.length && sorted; i++) sorted = times[i] >= times[i - 1];
  if (!sorted) order.sort((a, b) => times[a] - times[b] || a - b);
  return order;
}

/** Steps back in time inside a file, and the step forward that takes one of them back. */
function clockJumps(place: string, stores: readonly RowStore[], repeats: Uint8Array): ClockJump[] {
  const jumps: ClockJump[] = [];
  let base = 0;
  for (const store of stores) {
    for (const [f, from] of store.fileStarts.entries()) {
      const to = store.fileStarts[f + 1] ?? store.length;
      jumps.push(...jumpsOfFile(place, store.times.subarray(from, to), repeats.subarray(base + from, base + to)));
    }
    base += store.length;
  }
  return jumps.sort((a, b) => a.at - b.at);
}

function jumpsOfFile(place: string, times: Float64Array, repeats: Uint8Array): ClockJump[] {
  const jumps: ClockJump[] = [];
  const steps = Float64Array.from({ length: Math.max(0, times.length - 1) }, (_, i) => times[i + 1] - times[i]);
  const usual = steps.slice().filter((s) => s > 0).sort()[steps.length >> 1] ?? 0;
  let owed = 0;
  for (let i = 0; i < steps.length; i++) {
    if (steps[i] < 0 && repeats[i + 1] === 0) {
      const seconds = Math.round((steps[i] - usual) / 1000);
      jumps.push({ place, at: times[i], seconds });
      owed += seconds;
    } else if (owed < 0 && Math.abs((steps[i] - usual) / 1000 + owed) <= Math.max(60, usual / 1000)) {
      // A clock that was set back and now goes forward by as much has been set right; a mere gap of that length is unlikely.
      jumps.push({ place, at: times[i], seconds: -owed });
      owed = 0;
    }
  }
  return jumps;
}
