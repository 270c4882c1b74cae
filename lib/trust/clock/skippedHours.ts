import { type CivilChange, civilChanges, summerZones } from "../../ground/civilChanges.js";
import { medianStep } from "../../grid/step.js";
import { zoneNamed } from "../../ground/zone.js";
import type { PlaceRecord } from "../../record/airRecord.js";

const hour = 3600;
const hourMs = 3_600_000;
const dayMs = 86_400_000;
/** Lost hours of other nights for each of a change: a dozen hours of the year's 8 766 are such, so that three make one by chance in 250 logs. */
const mostOthers = 3;
/** Rare readings show no hour. */
const longestStep = 1.05 * hour;

/**
 * Hours that a logger's civil clock skipped where clocks go forward: no reading in just that hour of the wall, and one right before and after.
 *
 * The same hour lost by chance is told from it by how often such an hour is lost anywhere else in the record.
 *
 * @param place    any
 * @param zoneText fixed zone in which the stamps were read, as the description has it
 * @returns        one entry a change, with the zone whose rule it is; empty for a zone that has summer time, and where readings are rarer than hourly
 * @source IANA time zone database for the dates; own method, see README of this room
 */
export function skippedHours({ start, seconds }: PlaceRecord, zoneText: string): readonly CivilChange[] {
  const zone = zoneNamed(zoneText);
  if (zone === null || zone.changes.length > 0 || seconds.length < 3) return [];
  const step = medianStep(seconds);
  if (!(step > 0 && step <= longestStep)) return [];
  const slack = Math.max(60, 0.1 * step);
  const lost: number[] = [];
  for (let i = 1; i < seconds.length; i++) if (Math.abs(seconds[i] - seconds[i - 1] - step - hour) <= slack) lost.push(i);
  if (lost.length === 0) return [];
  // The stamps as they stand in the log: what the wall showed, whatever zone they were given.
  const wallOf = (i: number): number => start + 1000 * seconds[i] + zone.offsets[0];
  const nights = lost.filter((i) => mayBeSkipped(Math.ceil(wallOf(i - 1) / hourMs) * hourMs));
  if (nights.length === 0 || lost.length - nights.length > mostOthers * nights.length) return [];
  const found = nights.flatMap((i) => changeAt(wallOf(i - 1), wallOf(i), step + slack) ?? []);
  return lost.length - found.length > mostOthers * found.length ? [] : Object.freeze(found);
}

/** Clocks go forward in the first hours of a Friday, Saturday, Sunday or Monday of February to May or August to November. */
function mayBeSkipped(wall: number): boolean {
  const at = new Date(wall);
  const month = at.getUTCMonth();
  return at.getUTCHours() <= 3 && [5, 6, 0, 1].includes(at.getUTCDay()) && ((month >= 1 && month <= 4) || (month >= 7 && month <= 10));
}

/** A change of some zone's clock that took the wall from one reading to the next. */
function changeAt(before: number, after: number, most: number): CivilChange | null {
  for (const name of summerZones) {
    const found = civilChanges(name, before - dayMs, after + dayMs).find((c) => {
      const isRightBefore = before < c.wall && c.wall - before <= 1000 * most;
      return c.seconds > 0 && isRightBefore && after >= c.wall + hourMs && after - c.wall - hourMs <= 1000 * most;
    });
    if (found !== undefined) return found;
  }
  return null;
}
