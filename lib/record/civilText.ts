import { parseIso } from "../ground/instant.js";
import { instantsOf, type Zone } from "../ground/zone.js";

/**
 * A day or time as people write it, as an instant: its own offset wins, else the zone's; a day begins at 00:00.
 *
 * @param text ISO 8601, `2024-03-01`, `2024-03-01T09:00`, with or without an offset
 * @param zone zone of civil times; null reads them as UTC
 * @returns    epoch ms; null when the text is none
 */
export function instantIn(text: string, zone: Zone | null): number | null {
  const t = parseIso(text);
  if (t === null || Number.isNaN(t.offsetMinutes ?? 0)) return null;
  if (t.offsetMinutes !== null) return t.civil - t.offsetMinutes * 60000;
  return zone === null ? t.civil : instantsOf(zone, t.civil).earlier;
}
