import { offsetAt, type Zone } from "./zone.js";

const halfYearMs = 183 * 86400000;

/**
 * The standard time of a zone about an instant: the smallest offset in force then or half a year away.
 *
 * @param zone    from `zoneNamed`
 * @param instant epoch ms, UTC
 * @returns       hours east of UTC
 * @source common practice, no source: daylight saving moves the clocks forward in summer (Ireland's legal wording aside)
 */
export function standardOffsetHours(zone: Zone, instant: number): number {
  return Math.min(offsetAt(zone, instant), offsetAt(zone, instant - halfYearMs), offsetAt(zone, instant + halfYearMs)) / 3600000;
}
