import { zoneNamed } from "./zone.js";

/** A change of civil clocks somewhere, as a clock on the wall shows it. */
export interface CivilChange {
  /** A zone that has it. */
  readonly zone: string;
  /** What the wall's clock shows at the moment of the change, before it is changed · epoch ms as if UTC. */
  readonly wall: number;
  /** UTC instant · epoch ms. */
  readonly at: number;
  /** By which the clock is changed · s · positive forward. */
  readonly seconds: number;
}

const zones = [
  "Europe/Berlin", "Europe/London", "Europe/Athens", "America/New_York", "America/Havana", "Australia/Sydney", "Pacific/Auckland", "America/Santiago",
  "America/Asuncion", "America/Sao_Paulo", "America/Mexico_City", "Africa/Cairo", "Asia/Beirut", "Asia/Jerusalem", "Asia/Amman",
];

const hourMs = 3_600_000;

/** Zones, one of each of the world's rules of summer time and of each hour of the wall at which clocks were changed by it. */
export const summerZones: readonly string[] = Object.freeze(zones);

/**
 * Changes of a zone's civil clock by an hour, by the wall's clock too: what a log of civil times would show.
 *
 * @param zone     IANA name
 * @param from, to span · epoch ms, UTC
 * @returns        in order of time; empty for a zone that is none
 * @source IANA time zone database
 * @example civilChanges("Europe/Berlin", Date.UTC(2024, 0, 1), Date.UTC(2024, 5, 1))[0].seconds // 3600, at 02:00 on the wall of 31 March
 */
export function civilChanges(zone: string, from: number, to: number): readonly CivilChange[] {
  const table = zoneNamed(zone);
  if (table === null) return [];
  return Array.from(table.changes, (at, k): CivilChange => ({ zone, at, wall: at + table.offsets[k], seconds: (table.offsets[k + 1] - table.offsets[k]) / 1000 })).filter(
    (c) => Math.abs(c.seconds) * 1000 === hourMs && c.at > from && c.at < to,
  );
}
