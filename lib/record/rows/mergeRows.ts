import type { ClockJump } from "../airRecord.js";
import { type Quantity, quantities } from "../quantity.js";
import { type ClockOrder, clockJumps } from "./clockJumps.js";
import type { RowStore } from "./rowStore.js";
import { timeOrder } from "./timeOrder.js";

/** What became of a row: kept, or put with the row kept at its instant. */
export const rowFate: { readonly kept: 0; readonly repeated: 1; readonly conflicting: 2; readonly merged: 3 } = Object.freeze({ kept: 0, repeated: 1, conflicting: 2, merged: 3 } as const);

/** Rows of one place put in order, each instant once. */
export interface MergedRows {
  /** Epoch ms · [n] · increasing; whoever takes the rows may use the array as his own. */
  readonly times: Float64Array;
  readonly quantities: readonly Quantity[];
  /** One array a quantity · [n] · NaN is missing. */
  readonly columns: readonly Float64Array[];
  readonly repeated: number;
  readonly conflicting: number;
  /** Rows that only added quantities of another resource to an instant. */
  readonly merged: number;
  readonly jumps: readonly ClockJump[];
  /** Rows that came later than they should, and files that run from newest to oldest. */
  readonly lateRows: number;
  readonly lateStretches: number;
  readonly firstLate: ClockOrder["firstLate"];
  readonly newestFirstFiles: number;
}

/**
 * Joins what several files and resources say of one place: sorted by time, each instant once, the first row kept.
 *
 * A row at an instant that is there already is `repeated` when it says the same in every quantity both have, and
 * `conflicting` when it does not; then the first is kept. A quantity that no row at the instant had is taken over; a row
 * that does only that is `merged`. NaN is the same as NaN.
 */
export function mergeRows(place: string, stores: readonly RowStore[]): MergedRows {
  const present = quantities.filter((q) => stores.some((s) => s.quantities.includes(q)));
  const total = stores.reduce((n, s) => n + s.length, 0);
  const only = stores.find((s) => s.length === total);
  if (only !== undefined && present.length === only.quantities.length && isRising(only.times, total)) return asTheyStand(only, present);
  const all: Float64Array = new Float64Array(total);
  const bases: number[] = [];
  let base = 0;
  for (const store of stores) {
    all.set(store.times.subarray(0, store.length), base);
    bases.push(base);
    base += store.length;
  }
  const order = timeOrder(all);
  const fates = new Uint8Array(total);
  const times: Float64Array = new Float64Array(total);
  const columns: Float64Array[] = present.map(() => new Float64Array(total));
  const slots = stores.map((s) => present.map((q) => s.quantities.indexOf(q)));
  const counts = [0, 0, 0, 0];
  let n = 0;
  let seen = 0;
  for (let k = 0; k < total; k++) {
    const index = order === null ? k : order[k];
    let o = stores.length - 1;
    while (index < bases[o]) o--;
    const row = index - bases[o];
    const from = stores[o].columns;
    const slot = slots[o];
    const isNew = n === 0 || times[n - 1] !== all[index];
    if (isNew) {
      times[n++] = all[index];
      seen = 0;
      for (let c = 0; c < columns.length; c++) columns[c][n - 1] = Number.NaN;
    }
    let differs = false;
    let adds = false;
    for (let c = 0; c < slot.length; c++) {
      const s = slot[c];
      if (s < 0) continue;
      if ((seen & (1 << c)) === 0) {
        adds = true;
        seen |= 1 << c;
        columns[c][n - 1] = from[s][row];
      } else {
        // One zero is as good as the other.
        const [a, b] = [columns[c][n - 1], from[s][row]];
        if (a !== b && !(Number.isNaN(a) && Number.isNaN(b))) differs = true;
      }
    }
    const fate = isNew ? rowFate.kept : differs ? rowFate.conflicting : adds ? rowFate.merged : rowFate.repeated;
    fates[index] = fate;
    counts[fate]++;
  }
  const clock = clockJumps(place, stores, all, order, fates);
  return {
    times: n === total ? times : times.slice(0, n),
    quantities: present,
    columns: n === total ? columns : columns.map((c) => c.slice(0, n)),
    repeated: counts[rowFate.repeated],
    conflicting: counts[rowFate.conflicting],
    merged: counts[rowFate.merged],
    ...clock,
  };
}

function isRising(times: Float64Array, n: number): boolean {
  for (let i = 1; i < n; i++) if (!(times[i] > times[i - 1])) return false;
  return true;
}

/** One store whose rows are in order, each at an instant of its own: nothing is to be done, and nothing is copied. */
function asTheyStand(store: RowStore, present: readonly Quantity[]): MergedRows {
  const { times, columns } = store.handOver();
  return { times, quantities: present, columns: present.map((q) => columns[store.quantities.indexOf(q)]), repeated: 0, conflicting: 0, merged: 0, jumps: [], lateRows: 0, lateStretches: 0, firstLate: null, newestFirstFiles: 0 };
}
