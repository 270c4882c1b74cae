import { remembered } from "../ground/remembered.js";
import { median } from "../ground/summary.js";
import { type ReadUnit, unitsRead } from "../ground/units.js";
import type { AirRecord, PlaceRecord } from "../record/airRecord.js";
import { soundReadings } from "./faults/soundReadings.js";

/** A column of pressure that goes on in another unit. */
export interface UnitChange {
  readonly place: string;
  /** First midnight-to-midnight stretch of the record's days in the new unit · epoch ms. */
  readonly at: number;
  /** Level after by level before. */
  readonly ratio: number;
  /** Units between which that is the ratio, if the column was declared in `before`. */
  readonly before: string;
  readonly after: string;
}

/** Weather moves the level of a day by a few percent at most. */
const withinSide = 0.06;
/** How near the ratio must come to that of two units. */
const nearRatio = 0.015;
const day = 86400;
const names = ["hPa", "kPa", "Pa", "mmHg", "inHg"] as const;
/** Asked once for the verdict and once for its words. */
const once = remembered<AirRecord, readonly UnitChange[]>();

/**
 * Where a barometer's column changes its unit in mid-record: once, for good, and by the ratio of two units of pressure.
 *
 * Each day's median is taken, flags or none, so that a change to a unit out of range is seen too. A change of place would have to be one of
 * more than a kilometre and a half to look like it.
 *
 * @param record flagged or not
 * @returns      one entry a place that changes
 * @source conversion factors as in the units room; limits: common practice, no source
 */
export function unitChanges(record: AirRecord): readonly UnitChange[] {
  return once(record, "", () => Object.freeze(Object.values(record.places).flatMap(changeOf)));
}

function changeOf({ name, series }: PlaceRecord): UnitChange[] {
  const pressure = series.surface_air_pressure ?? series.air_pressure_at_mean_sea_level;
  if (pressure === undefined) return [];
  const { x, t } = soundReadings(pressure, 0);
  const days = daysOf(x, t);
  const levels = days.map(({ level }) => level);
  const k = levels.findIndex((v, i) => i > 0 && Math.abs(v / levels[i - 1] - 1) > 2 * withinSide);
  if (k < 1) return [];
  const [before, after] = [levels.slice(0, k), levels.slice(k)].map((side) => ({ level: median(side), side }));
  // The day in which it changes holds both.
  const rest = after.side.length > 1 ? after.side.slice(1) : after.side;
  const steady = (side: readonly number[], level: number): boolean => side.every((v) => Math.abs(v / level - 1) <= withinSide);
  if (!steady(before.side.slice(0, -1), before.level) || !steady(rest, after.level)) return [];
  const ratio = after.level / before.level;
  const pair = pairOf(ratio);
  return pair === null ? [] : [{ place: name, at: pressure.start + 1000 * days[k].from, ratio, ...pair }];
}

/** Days of the record from its first reading on, each with the median of its readings. */
function daysOf(x: Float64Array, t: Float64Array): { from: number; level: number }[] {
  const found: { from: number; level: number }[] = [];
  for (let i = 0; i < x.length; ) {
    const first = i;
    while (i < x.length && Math.floor((t[i] - t[0]) / day) === Math.floor((t[first] - t[0]) / day)) i++;
    found.push({ from: t[first], level: median(x.subarray(first, i)) });
  }
  return found;
}

/** The two units whose ratio it is, hectopascals before the rest. */
function pairOf(ratio: number): { before: string; after: string } | null {
  for (const before of names) {
    for (const after of names) {
      if (before !== after && Math.abs((ratio * factorOf(after)) / factorOf(before) - 1) <= nearRatio) return { before, after };
    }
  }
  return null;
}

function factorOf(unit: string): number {
  return (unitsRead[unit] as ReadUnit).factor;
}
