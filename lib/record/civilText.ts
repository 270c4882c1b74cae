import { parseIso } from "../ground/instant.js";
import { instantsOf, type Zone } from "../ground/zone.js";

/**
 * A day or time as people write it, as an instant: its own offset wins, else the zone's.
 *
 * In a repeated hour it is the first of the two; in a skipped hour it is read with the offset before the change.
 *
 * @param text ISO 8601: `2024-03-01`, `2024-03-01T09:00`, with or without an offset
 * @param zone zone of civil times; null reads them as UTC
 * @returns    epoch ms; null when the text is none
 * @example instantIn("2024-03-01T09:00", zoneNamed("+07:00")) // Date.UTC(2024, 2, 1, 2)
 */
export function instantIn(text: string, zone: Zone | null): number | null {
  const t = parseIso(text);
  if (t === null) return null;
  if (t.offsetMinutes !== null) return t.civil - t.offsetMinutes * 60_000;
  return zone === null ? t.civil : instantsOf(zone, t.civil).earlier;
}
