import { civilChanges, summerZones } from "../../ground/civilChanges.js";
import type { ClockJump } from "../airRecord.js";
import type { RowStore } from "./rowStore.js";
import { isNewestFirst, usualStep } from "./usualStep.js";

/** What the order of the log says of a place's clock. */
export interface ClockOrder {
  readonly jumps: readonly ClockJump[];
  /** Rows that were written later than their neighbors in time, and fit between them. */
  readonly lateRows: number;
  /** Stretches of such rows, and the first of them: its first and last instant and that of the row before it in the log · epoch ms. */
  readonly lateStretches: number;
  readonly firstLate: { readonly from: number; readonly to: number; readonly after: number } | null;
  /** Files whose rows run from newest to oldest. */
  readonly newestFirstFiles: number;
}

/** Rows of a file from a step back on, up to where the log has caught up or steps back again. */
interface Excursion {
  readonly from: number;
  readonly to: number;
  /** Latest and earliest instant of the file before it. */
  readonly latest: number;
  readonly earliest: number;
}

/** Where `rowFate` stands for a row that says what is there already (see mergeRows). */
const repeatedFate = 1;
const conflictingFate = 2;
const dayMs = 86_400_000;
const hourMs = 3_600_000;
/** Rows that step back as often as that have no order. */
const shuffledShare = 0.2;
/** The wall's hour is within so much of the instants, whatever the zone. */
const anyZoneMs = 15 * hourMs;

/**
 * Finds jumps of the clock from the order of the rows inside each file.
 *
 * A step back is a jump, told with the usual step taken off, unless
 * - the rows after it mostly say what is there already: a part of the card was copied twice;
 * - they fit into a gap between rows that are there, three quarters of a step away from each: they came late; what came before
 *   everything so far must join the rows that are there, as days in disorder do and times of a reset clock do not;
 * - the whole file runs from newest to oldest.
 * An hourly log steps back to the same instant where clocks go back an hour: that is a jump where civil clocks do so somewhere.
 * A step forward may be a mere gap. It is told only when it takes back a jump of the same file and place to within half
 * a usual step, or when it leads out of times that the clock went back to by more than a day.
 *
 * @param all   instants of the rows of all stores, one store after the other
 * @param order `timeOrder(all)`
 * @param fates what became of each row
 */
export function clockJumps(place: string, stores: readonly RowStore[], all: Float64Array, order: Uint32Array | null, fates: Uint8Array): ClockOrder {
  const jumps: ClockJump[] = [];
  let lateRows = 0;
  let lateStretches = 0;
  let firstLate: ClockOrder["firstLate"] = null;
  let newestFirstFiles = 0;
  const repeats = repeatedHours(place, stores, all, fates);
  if (order === null) return { jumps: repeats, lateRows, lateStretches, firstLate, newestFirstFiles };
  const rank = new Uint32Array(order.length);
  for (let k = 0; k < order.length; k++) rank[order[k]] = k;
  let base = 0;
  for (const store of stores) {
    for (const [f, start] of store.fileStarts.entries()) {
      const from = base + start;
      const to = base + (store.fileStarts[f + 1] ?? store.length);
      const times = all.subarray(from, to);
      const excursions = excursionsOf(times);
      if (excursions.length === 0) continue;
      if (isNewestFirst(times)) {
        newestFirstFiles++;
        continue;
      }
      // In rows that were shuffled a step is anything; in order they tell it.
      const usual = usualStep(excursions.length > shuffledShare * times.length ? Float64Array.from(times).sort() : times);
      const back: Excursion[] = [];
      for (const e of excursions) {
        const kind = judge(e, times, from, usual, all, order, rank, fates);
        if (kind === "jump") back.push(e);
        else if (kind === "late") {
          lateRows += e.to - e.from;
          lateStretches++;
          firstLate ??= { from: times[e.from], to: times[e.to - 1], after: times[e.from - 1] };
        }
      }
      jumps.push(...backAndForth(place, times, back, usual));
    }
    base += store.length;
  }
  jumps.push(...repeats);
  // Two copies of one stretch of the card tell its jump twice.
  const told = jumps.sort((a, b) => a.at - b.at || a.seconds - b.seconds).filter((j, i, list) => i === 0 || j.at !== list[i - 1].at || j.seconds !== list[i - 1].seconds);
  return { jumps: told, lateRows, lateStretches, firstLate, newestFirstFiles };
}

/** Rows of an hourly log that stand twice at an hour and say different things, on a night when civil clocks go back. */
function repeatedHours(place: string, stores: readonly RowStore[], all: Float64Array, fates: Uint8Array): ClockJump[] {
  const found: ClockJump[] = [];
  let base = 0;
  for (const store of stores) {
    for (const [f, start] of store.fileStarts.entries()) {
      const from = base + start;
      const times = all.subarray(from, base + (store.fileStarts[f + 1] ?? store.length));
      let usual = Number.NaN;
      for (let i = 2; i < times.length - 1; i++) {
        if (times[i] !== times[i - 1] || fates[from + i] !== conflictingFate || times[i] - times[i - 2] !== hourMs || times[i + 1] - times[i] !== hourMs) continue;
        if (Number.isNaN(usual)) usual = usualStep(times);
        if (usual !== hourMs) break;
        if (summerZones.some((zone) => civilChanges(zone, times[i] - dayMs, times[i] + dayMs).some((c) => c.seconds < 0 && Math.abs(c.wall - times[i]) <= anyZoneMs))) found.push(Object.freeze({ place, at: times[i], seconds: -hourMs / 1000 }));
      }
    }
    base += store.length;
  }
  return found;
}

function excursionsOf(times: Float64Array): Excursion[] {
  const found: Excursion[] = [];
  let latest = times[0];
  let earliest = times[0];
  for (let i = 1; i < times.length; i++) {
    if (times[i] < times[i - 1]) {
      let to = i + 1;
      while (to < times.length && times[to] <= latest && times[to] >= times[to - 1]) to++;
      found.push({ from: i, to, latest, earliest });
    }
    latest = Math.max(latest, times[i]);
    earliest = Math.min(earliest, times[i]);
  }
  return found;
}

function judge(e: Excursion, times: Float64Array, base: number, usual: number, all: Float64Array, order: Uint32Array, rank: Uint32Array, fates: Uint8Array): "jump" | "late" | "copy" {
  let copied = 0;
  let odd = 0;
  for (let j = base + e.from; j < base + e.to; j++) {
    if (fates[j] === repeatedFate) copied++;
    else if (fates[j] === conflictingFate) odd++;
    else {
      const isOutside = (k: number): boolean => k < base + e.from || k >= base + e.to;
      const before = order[rank[j] - 1];
      const after = order[rank[j] + 1];
      const isNear = (k: number | undefined): boolean => k !== undefined && isOutside(k) && Math.abs(all[k] - all[j]) < 0.75 * usual;
      if (isNear(before) || isNear(after)) odd++;
    }
  }
  if (2 * copied >= e.to - e.from) return "copy";
  // Before everything the file had so far there is no gap to fit into: the rows must join one that is there, on either side.
  const joins = (a: number | undefined, b: number | undefined): boolean => a !== undefined && b !== undefined && Math.abs(all[a] - all[b]) <= 1.5 * usual;
  const [first, last] = [base + e.from, base + e.to - 1];
  const fits = times[e.from] > e.earliest || joins(last, order[rank[last] + 1]) || joins(order[rank[first] - 1], first);
  return odd === 0 && fits ? "late" : "jump";
}

/** Jumps back, each with the step forward that takes it back, if there is one. */
function backAndForth(place: string, times: Float64Array, back: readonly Excursion[], usual: number): ClockJump[] {
  const jumps: ClockJump[] = [];
  const forward: number[] = [];
  for (let i = 1; i < times.length; i++) if (times[i] - times[i - 1] > 2.5 * usual) forward.push(i);
  const size = (i: number): number => times[i] - times[i - 1] - usual;
  const tell = (i: number): void => {
    jumps.push(Object.freeze({ place, at: times[i - 1], seconds: Math.round(size(i) / 1000) }));
  };
  for (const e of back) {
    tell(e.from);
    const gone = -size(e.from);
    const undoes = (i: number): boolean => Math.abs(size(i) - gone) <= Math.max(usual / 2, 1000);
    const leadsOut = (i: number): boolean => gone > dayMs && times[i - 1] < e.latest && times[i] >= e.latest;
    let k = forward.findIndex((i) => i > e.from && (undoes(i) || leadsOut(i)));
    if (k < 0) k = forward.findLastIndex((i) => i < e.from && undoes(i));
    if (k < 0) continue;
    tell(forward[k]);
    forward.splice(k, 1);
  }
  return jumps;
}
