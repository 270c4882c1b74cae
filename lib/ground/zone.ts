import { Temporal } from "temporal-polyfill";
import { mustSentence, shown } from "./complaint.js";
import { offsetOf } from "./instant.js";

// The door to temporal-polyfill. It reads each zone's changes once; asking it for every row would take a hundred times as
// long. Its own complaint writes the zone in capitals, so ours is said instead. It would also take whole ISO texts for a zone.

/** A time zone as a table: `offsets[k]` holds before `changes[k]`, the last offset after the last change. */
export interface Zone {
  /** As it was written: `Z`, `+07:00`, `Europe/London`. */
  readonly name: string;
  /** UTC instants at which the offset changes, 1990–2100 · epoch ms · ascending. */
  readonly changes: Float64Array;
  /** Milliseconds east of UTC · one more than `changes`. */
  readonly offsets: Float64Array;
}

const firstInstant = Date.UTC(1989, 11, 1);
const lastInstant = Date.UTC(2101, 1, 1);
const ianaForm = /^[A-Za-z][A-Za-z0-9_+-]*(\/[A-Za-z0-9_+-]+)*$/;

/** Tables already built, by name as written. */
const known = new Map<string, Zone>();

/**
 * A zone by name: `Z` or `UTC`, a fixed offset (`+07:00`, `-0330`), or an IANA name.
 *
 * The table covers 1990 to 2100 by the zone data of this machine and is built once for each name.
 *
 * @returns null when there is no such zone
 * @example zoneNamed("+07:00")?.offsets[0] // 25200000
 * @source IANA time zone database, in the version this machine carries
 */
export function zoneNamed(name: string): Zone | null {
  const before = known.get(name);
  if (before !== undefined) return before;
  const minutes = offsetOf(name);
  const zone = Number.isNaN(minutes) ? tableOf(name) : { name, changes: new Float64Array(0), offsets: Float64Array.of(60_000 * minutes) };
  if (zone !== null) known.set(name, zone);
  return zone;
}

/**
 * The complaint about a zone that is none, with what was most likely meant.
 *
 * @param at   path of the field that names it
 * @param name as it was written
 * @example zoneFault("zone", "UTC+7") // zone must be Z, … (got "UTC+7"); write +07:00
 */
export function zoneFault(at: string, name: string): string {
  const relative = /^(?:UTC|GMT)\s*([+-])(\d{1,2})(?::?(\d{2}))?$/i.exec(name);
  const remedy = relative === null ? undefined : `write ${relative[1]}${relative[2].padStart(2, "0")}:${relative[3] ?? "00"}`;
  return mustSentence("", at, "be Z, a fixed offset such as +07:00, or an IANA name such as Europe/London", shown(name), remedy);
}

function tableOf(name: string): Zone | null {
  if (!ianaForm.test(name)) return null;
  let moment: Temporal.ZonedDateTime;
  try {
    moment = Temporal.Instant.fromEpochMilliseconds(firstInstant).toZonedDateTimeISO(name);
  } catch {
    return null;
  }
  const changes: number[] = [];
  const offsets: number[] = [moment.offsetNanoseconds / 1e6];
  for (;;) {
    const next = moment.getTimeZoneTransition("next");
    if (next === null || next.epochMilliseconds > lastInstant) break;
    const offset = next.offsetNanoseconds / 1e6;
    if (offset !== offsets[offsets.length - 1]) {
      changes.push(next.epochMilliseconds);
      offsets.push(offset);
    }
    moment = next;
  }
  return { name, changes: Float64Array.from(changes), offsets: Float64Array.from(offsets) };
}

/** Index of the stretch of constant offset that holds an instant. */
function stretchOf(zone: Zone, instant: number): number {
  let low = 0;
  let high = zone.changes.length;
  while (low < high) {
    const middle = (low + high) >> 1;
    if (zone.changes[middle] <= instant) low = middle + 1;
    else high = middle;
  }
  return low;
}

/**
 * Milliseconds by which a zone's clocks are ahead of UTC at an instant.
 *
 * @param instant epoch ms, UTC
 * @example offsetAt(zoneNamed("Europe/London"), Date.UTC(2024, 6, 1)) // 3600000
 */
export function offsetAt(zone: Zone, instant: number): number {
  return zone.offsets[stretchOf(zone, instant)];
}

/**
 * What a zone's clocks show at an instant, as if it were UTC.
 *
 * @param instant epoch ms, UTC
 * @returns civil time · epoch ms as if UTC
 * @example civilTime(zone, 0) // 25200000
 */
export function civilTime(zone: Zone, instant: number): number {
  return instant + offsetAt(zone, instant);
}

/** The instants that a civil time can mean. */
export interface CivilReading {
  /** Epoch ms, UTC: the first instant at which the clocks show it. */
  readonly earlier: number;
  /** The second one in a repeated hour; else the same. */
  readonly later: number;
  /** True in a skipped hour: the clocks never showed it, and it is read with the offset in force before the change. */
  readonly skipped: boolean;
}

/**
 * What a civil time means in a zone.
 *
 * @param civil civil time · epoch ms as if UTC
 * @example instantsOf(zoneNamed("Europe/London"), Date.UTC(2024, 9, 27, 1, 30)) // earlier 00:30 UTC, later 01:30 UTC
 */
export function instantsOf(zone: Zone, civil: number): CivilReading {
  const { changes, offsets } = zone;
  const dayMs = 86_400_000;
  const to = stretchOf(zone, civil + dayMs);
  let k = stretchOf(zone, civil - dayMs);
  let skipped = Number.NaN;
  let earlier = Number.NaN;
  let later = Number.NaN;
  for (; k <= to; k++) {
    const instant = civil - offsets[k];
    const begun = k === 0 || instant >= changes[k - 1];
    const over = k < changes.length && instant >= changes[k];
    if (begun && !over) {
      if (Number.isNaN(earlier)) earlier = instant;
      later = instant;
    }
    // Past the end of one stretch and before the beginning of the next: the hole between them.
    if (over && civil - offsets[k + 1] < changes[k]) skipped = instant;
  }
  return Number.isNaN(earlier) ? { earlier: skipped, later: skipped, skipped: true } : { earlier, later, skipped: false };
}

/**
 * Changes of a zone's offset between two instants, both included.
 *
 * @returns at       epoch ms, UTC
 * @returns seconds  by which the offset changed: positive skips an hour, negative repeats one
 */
export function changesBetween(zone: Zone, from: number, to: number): { readonly at: number; readonly seconds: number }[] {
  const found: { readonly at: number; readonly seconds: number }[] = [];
  for (let k = 0; k < zone.changes.length; k++) {
    const at = zone.changes[k];
    if (at >= from && at <= to) found.push(Object.freeze({ at, seconds: (zone.offsets[k + 1] - zone.offsets[k]) / 1000 }));
  }
  return found;
}
