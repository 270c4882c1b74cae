import { Temporal } from "temporal-polyfill";
import { mustSentence, RecordError, shown } from "./complaint.js";
import { readOffset } from "./instant.js";

// The door to temporal-polyfill. It reads each zone's changes once; asking it for every row would take a hundred times as
// long. Its own complaint writes the zone in capitals, so ours is said instead. It would also take whole ISO texts for a zone.

/** A time zone as a table: `offsets[k]` holds before `changes[k]`, the last offset after the last change. */
export interface Zone {
  /** As it was written: `Z`, `+07:00`, `Europe/London`. */
  readonly name: string;
  /** UTC instants at which the offset changes, 1990–2100 · epoch ms · ascending. */
  readonly changes: Float64Array;
  /** Seconds east of UTC · one more than `changes`. */
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
 * @param name the zone
 * @param at   path of the field that names it, for the complaint
 * @throws RecordError (description) when there is no such zone
 * @example zoneOf("+07:00").offsets[0] // 25200
 * @source IANA time zone database, in the version this machine carries
 */
export function zoneOf(name: string, at = "zone"): Zone {
  const before = known.get(name);
  if (before !== undefined) return before;
  const fixed = readOffset(name);
  const zone = fixed !== null ? { name, changes: new Float64Array(0), offsets: Float64Array.of(fixed) } : tableOf(name, at);
  known.set(name, zone);
  return zone;
}

function tableOf(name: string, at: string): Zone {
  const requirement = 'be "Z", a fixed offset such as "+07:00" (to ±14:00), or an IANA name such as "Europe/London"';
  const relative = /^(?:UTC|GMT)\s*([+-])(\d{1,2})(?::?(\d{2}))?$/i.exec(name);
  const remedy = relative === null ? undefined : `write ${relative[1]}${relative[2].padStart(2, "0")}:${relative[3] ?? "00"}`;
  const refused = new RecordError(mustSentence("", at, requirement, shown(name), remedy), "description");
  if (!ianaForm.test(name) || remedy !== undefined) throw refused;
  let moment: Temporal.ZonedDateTime;
  try {
    moment = Temporal.Instant.fromEpochMilliseconds(firstInstant).toZonedDateTimeISO(name);
  } catch {
    throw refused;
  }
  const changes: number[] = [];
  const offsets: number[] = [moment.offsetNanoseconds / 1e9];
  for (;;) {
    const next = moment.getTimeZoneTransition("next");
    if (next === null || next.epochMilliseconds > lastInstant) break;
    const offset = next.offsetNanoseconds / 1e9;
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
 * Seconds east of UTC that a zone's clocks are ahead at an instant.
 *
 * @param instant epoch ms, UTC
 * @example offsetAt(zoneOf("Europe/London"), Date.UTC(2024, 6, 1)) // 3600
 */
export function offsetAt(zone: Zone, instant: number): number {
  return zone.offsets[stretchOf(zone, instant)];
}

/**
 * What a zone's clocks show at an instant, as if it were UTC.
 *
 * @param instant epoch ms, UTC
 * @returns civil time · epoch ms as if UTC
 * @example civilTime(zoneOf("+07:00"), 0) // 25200000
 */
export function civilTime(zone: Zone, instant: number): number {
  return instant + offsetAt(zone, instant) * 1000;
}

/**
 * Every instant at which a zone's clocks show a civil time: one; two in a repeated hour, in order; none in a skipped hour.
 *
 * @param civil civil time · epoch ms as if UTC
 * @returns epoch ms, UTC
 * @example instantsOf(zoneOf("Europe/London"), Date.UTC(2024, 9, 27, 1, 30)).length // 2
 */
export function instantsOf(zone: Zone, civil: number): number[] {
  const dayMs = 86_400_000;
  const from = stretchOf(zone, civil - dayMs);
  const to = stretchOf(zone, civil + dayMs);
  const found: number[] = [];
  for (let k = from; k <= to; k++) {
    const instant = civil - zone.offsets[k] * 1000;
    if ((k === 0 || instant >= zone.changes[k - 1]) && (k === zone.changes.length || instant < zone.changes[k])) found.push(instant);
  }
  return found;
}

/**
 * The instant of a civil time alone: the first one in a repeated hour; in a skipped hour, read with the offset before the change.
 *
 * @param civil civil time · epoch ms as if UTC
 * @returns epoch ms, UTC
 * @example instantOf(zoneOf("Europe/London"), Date.UTC(2024, 2, 31, 1, 30)) // Date.UTC(2024, 2, 31, 1, 30)
 */
export function instantOf(zone: Zone, civil: number): number {
  const found = instantsOf(zone, civil);
  if (found.length > 0) return found[0];
  // No stretch holds it, so it lies in the hole before a change: the stretch before that change reads it as past its end.
  let k = stretchOf(zone, civil - 86_400_000);
  while (k < zone.changes.length && civil - zone.offsets[k + 1] * 1000 >= zone.changes[k]) k++;
  return civil - zone.offsets[k] * 1000;
}
