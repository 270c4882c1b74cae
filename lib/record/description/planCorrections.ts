import type { Zone } from "../../ground/zone.js";
import { parseIso } from "../../ground/instant.js";
import { instantIn } from "../civilText.js";
import type { Faults } from "./faults.js";
import type { ClockCorrection } from "./plan.js";
import type { ClockShape } from "./description.js";

/**
 * The clock corrections as one resource needs them: its zone reads the logger's own times.
 *
 * They must follow each other in time, and a clock cannot gain or lose more than the time that passes; only one that was reset is off by
 * years at once.
 */
export function planCorrections(clock: ClockShape | undefined, at: string, zone: Zone | null, faults: Faults): readonly ClockCorrection[] {
  const read: ClockCorrection[] = [];
  for (const [i, c] of (clock?.corrections ?? []).entries()) {
    const path = `${at}.corrections[${i}].at`;
    if (c?.at === undefined || c.ahead === undefined) continue;
    const told = parseIso(c.at);
    const instant = instantIn(c.at, zone);
    if (told === null || instant === null) {
      faults.add(path, "be a time as the logger wrote it, such as 2024-03-01T09:00:00", c.at);
      continue;
    }
    if (zone === null && told.offsetMinutes === null) faults.add(path, "carry an offset, because the resource has no zone", c.at);
    const before = read[read.length - 1];
    if (before !== undefined && instant <= before.at) faults.add(path, "be later than the correction before it", c.at);
    else if (before !== undefined && isTooMuch(Math.abs(1000 * c.ahead - before.ahead), instant - before.at)) {
      faults.add(`${at}.corrections[${i}].ahead`, "change by less than the time between the corrections", c.ahead);
    }
    read.push(Object.freeze({ at: instant, ahead: 1000 * c.ahead }));
  }
  return Object.freeze(read);
}

/** From so much on a change of the clock is a reset · ms. */
const resetMs = 365 * 86_400_000;

function isTooMuch(change: number, passed: number): boolean {
  return change >= passed && change < resetMs;
}
