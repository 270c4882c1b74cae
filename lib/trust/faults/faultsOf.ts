import { remembered } from "../../ground/remembered.js";
import { mustSentence, shown } from "../../ground/complaint.js";
import { median } from "../../ground/summary.js";
import type { AirRecord, PlaceRecord } from "../../record/airRecord.js";
import { type FlagName, flagBit, flagNames } from "../../record/flag.js";
import { type Quantity, quantities } from "../../record/quantity.js";
import type { Series } from "../../record/series.js";
import { twinOf } from "./flagRecord.js";
import { shiftsOf } from "./flagSteps.js";

/** A run of readings with one fault. */
export interface Fault {
  readonly flag: FlagName;
  readonly quantity: Quantity;
  /** First and last marked reading · epoch ms, UTC. */
  readonly from: number;
  readonly to: number;
  /** Readings marked. */
  readonly readings: number;
  /** Departure of a spike, height of a warm bump, after minus before of a level shift · unit of the quantity; null for the rest. */
  readonly size: number | null;
}

/** Check, swings and climate ask for the same faults. */
const once = remembered<AirRecord, readonly Fault[]>();

/**
 * The faults of a place, as runs of marked readings in time order.
 *
 * A run ends at a reading without the flag; missing readings and gaps do not end it. A level shift that follows another
 * begins a run of its own.
 *
 * @param record a record from `flagRecord`
 * @param place  name of the place; sizes of a barometer's shifts are taken against the other places' barometers
 * @returns      see Fault, frozen
 * @throws RangeError when the record has no such place
 * @example faultsOf(record, "veranda")[0].flag // "spike"
 */
export function faultsOf(record: AirRecord, place: string): readonly Fault[] {
  if (!(place in record.places)) {
    throw new RangeError(mustSentence("faultsOf", "place", `be one of ${Object.keys(record.places).join(", ")}`, shown(place)));
  }
  return once(record, place, () => runsOfPlace(record, place));
}

function runsOfPlace(record: AirRecord, place: string): readonly Fault[] {
  const found: Fault[] = [];
  for (const quantity of quantities) {
    const series = record.places[place].series[quantity];
    if (series === undefined) continue;
    const set = bitsIn(series.flags);
    const isShifted = (set & flagBit.step) !== 0;
    const shifts = new Map(isShifted ? shiftsOf(series, twinOf(series, record.places)).map((s) => [s.index, s.size]) : []);
    for (const flag of flagNames) if ((set & flagBit[flag]) !== 0) for (const run of runsOf(series, flag, shifts)) found.push(run);
  }
  found.sort((a, b) => a.from - b.from || a.to - b.to);
  return Object.freeze(found.map((fault) => Object.freeze(fault)));
}

/**
 * How many readings of a place carry each flag, over all its quantities; every name is there.
 *
 * @param place a place of a record from `flagRecord`
 * @returns     readings by flag name
 * @example flagCounts(record.places.veranda).spike // 14
 */
export function flagCounts(place: PlaceRecord): Readonly<Record<FlagName, number>> {
  const counts = Object.fromEntries(flagNames.map((name) => [name, 0])) as Record<FlagName, number>;
  for (const { flags } of Object.values(place.series)) {
    for (let i = 0; i < flags.length; i++) {
      if (flags[i] === 0) continue;
      for (const name of flagNames) if ((flags[i] & flagBit[name]) !== 0) counts[name]++;
    }
  }
  return Object.freeze(counts);
}

/** All bits that are set anywhere. */
function bitsIn(flags: Uint16Array): number {
  let set = 0;
  for (let i = 0; i < flags.length; i++) set |= flags[i];
  return set;
}

function runsOf(series: Series, flag: FlagName, shifts: ReadonlyMap<number, number>): Fault[] {
  const { values, flags, seconds, start, quantity } = series;
  const bit = flagBit[flag];
  const runs: Fault[] = [];
  for (let i = 0; i < values.length; i++) {
    if ((flags[i] & bit) === 0) continue;
    const first = i;
    let last = i;
    let readings = 1;
    for (i++; i < values.length; i++) {
      if ((flags[i] & bit) === 0 && Number.isNaN(values[i])) continue;
      if ((flags[i] & bit) === 0 || (flag === "step" && shifts.has(i))) break;
      last = i;
      readings++;
    }
    i = last;
    const size = sizeOf(series, flag, first, last, shifts);
    runs.push({ flag, quantity, from: start + 1000 * seconds[first], to: start + 1000 * seconds[last], readings, size });
  }
  return runs;
}

function sizeOf(series: Series, flag: FlagName, first: number, last: number, shifts: ReadonlyMap<number, number>): number | null {
  const { values } = series;
  if (flag === "step") return shifts.get(first) ?? median(values.subarray(first, first + 3)) - median(values.subarray(Math.max(0, first - 3), first));
  if (flag !== "spike" && flag !== "warmed") return null;
  const before = neighbor(values, first, -1);
  const after = neighbor(values, last, 1);
  let size = 0;
  for (let i = first; i <= last; i++) {
    const line = before + ((after - before) * (i - first + 1)) / (last - first + 2);
    if (Math.abs(values[i] - line) > Math.abs(size)) size = values[i] - line;
  }
  return size;
}

/** The nearest present value beside a run; NaN at the record's end. */
function neighbor(values: Float64Array, i: number, direction: 1 | -1): number {
  for (let k = i + direction; k >= 0 && k < values.length; k += direction) if (!Number.isNaN(values[k])) return values[k];
  return Number.NaN;
}
