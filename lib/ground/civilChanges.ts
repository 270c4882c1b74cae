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

/** One zone of each rule and of each hour of the wall at which clocks were changed by it. */
const zones: readonly string[] = [
  "Europe/Berlin", "Europe/London", "Europe/Athens", "America/New_York", "America/Havana", "Australia/Sydney", "Pacific/Auckland", "America/Santiago",
  "America/Asuncion", "America/Sao_Paulo", "America/Mexico_City", "Africa/Cairo", "Asia/Beirut", "Asia/Jerusalem", "Asia/Amman", "Asia/Tehran",
];

const hourMs = 3_600_000;

/**
 * Changes of the civil clock by an hour in the zones of the world's rules, by the wall's clock: what a log of civil times would show.
 *
 * @param from, to span · epoch ms, UTC
 * @param only     a zone; default one of each rule
 * @returns        in the order of the zones
 * @source IANA time zone database
 */
export function civilChanges(from: number, to: number, only?: string): readonly CivilChange[] {
  return (only === undefined ? zones : [only]).flatMap((name) => {
    const zone = zoneNamed(name);
    if (zone === null) return [];
    return Array.from(zone.changes, (at, k): CivilChange => ({ zone: name, at, wall: at + zone.offsets[k], seconds: (zone.offsets[k + 1] - zone.offsets[k]) / 1000 })).filter(
      (c) => Math.abs(c.seconds) * 1000 === hourMs && c.at > from && c.at < to,
    );
  });
}

/**
 * A zone whose rule is the usual one of a place, for a record whose description knows none; none in the tropics.
 *
 * @param latitude, longitude degrees, north and east positive
 * @source common practice, no source: Europe's rule east of 30° W, New York's west of it, Sydney's in the south
 */
export function usualRule(latitude: number, longitude: number): string | null {
  if (!(Math.abs(latitude) > 23.5)) return null;
  if (latitude < 0) return "Australia/Sydney";
  return longitude < -30 ? "America/New_York" : "Europe/Berlin";
}
