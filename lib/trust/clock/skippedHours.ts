import { type CivilChange, civilChanges } from "../../ground/civilChanges.js";
import { medianStep } from "../../grid/step.js";
import { offsetAt, zoneNamed } from "../../ground/zone.js";
import type { PlaceRecord } from "../../record/airRecord.js";

const hour = 3600;
/** Lost hours of other nights: with more of them than one in so many hours of the record, a lost hour proves nothing. */
const mostByChance = 0.005;
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
  const from = start + 1000 * seconds[0];
  const to = start + 1000 * seconds[seconds.length - 1];
  const day = 86_400_000;
  const forward = civilChanges(from - day, to + day).filter((c) => c.seconds > 0);
  const found = lost.flatMap((i) => {
    // The stamps as they stand in the log: what the wall showed, whatever zone they were given.
    const before = start + 1000 * seconds[i - 1] + offsetAt(zone, from);
    const after = start + 1000 * seconds[i] + offsetAt(zone, from);
    return forward.filter((c) => before < c.wall && c.wall - before <= 1000 * (step + slack) && after >= c.wall + 1000 * hour && after - c.wall - 1000 * hour <= 1000 * (step + slack)).slice(0, 1);
  });
  const walls = new Set(forward.map((c) => c.wall)).size;
  const others = lost.length - found.length;
  const byChance = (others * walls * hour) / (seconds[seconds.length - 1] - seconds[0]);
  return byChance > mostByChance ? [] : Object.freeze(found);
}
