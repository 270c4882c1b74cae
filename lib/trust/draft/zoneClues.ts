import { changesBetween, civilTime, zoneNamed } from "../../ground/zone.js";
import { instantText } from "../../ground/instant.js";
import type { LogTable } from "./logTable.js";

/** The zone for a draft. */
export interface ZoneGuess {
  readonly zone: string;
  readonly because: string;
  /** The log itself names it. */
  readonly isTold: boolean;
}

const hourMs = 3_600_000;
/** One zone for each rule by which civil clocks change; others of the same rule cannot be told apart by it. */
const rules = ["Europe/London", "Europe/Berlin", "Europe/Helsinki", "America/New_York", "Australia/Sydney", "Pacific/Auckland", "America/Santiago"];
const tellsZone = /(?:^|[^a-z])(utc|gmt|zulu)\s*(?:([+-])\s*(\d{1,2})(?::?(\d{2}))?)?(?![a-z])/i;

/**
 * The zone of the stamps: as the log says it, as its skipped and repeated hours betray it, else UTC until the owner tells.
 *
 * @param tables logs of one logger
 * @param texts  where a zone may be named: header cells, comments, what stands in the stamp's format
 */
export function zoneClues(tables: readonly LogTable[], texts: readonly string[]): ZoneGuess {
  for (const text of texts) {
    const told = tellsZone.exec(text);
    if (told === null) continue;
    const [all, , sign, hours = "0", minutes = "00"] = told;
    const zone = sign === undefined ? "Z" : `${sign}${hours.padStart(2, "0")}:${minutes}`;
    if (zoneNamed(zone) !== null) return { zone, because: `the log says ${all.replace(/^[^a-z]+/i, "").trim()}`, isTold: true };
  }
  // Building a zone's table takes a while: only where an hour is skipped or repeated on a Sunday night.
  for (const name of tables.some(({ times }) => hasOddHour(times)) ? rules : []) {
    const evidence = tables.map((t) => changesSeen(t, name));
    const seen = evidence.reduce((n, e) => n + e.seen.length, 0);
    if (seen > 0 && evidence.every((e) => e.missed === 0)) {
      return { zone: name, because: `the log ${evidence.flatMap((e) => e.seen)[0]}, as clocks do in ${name} and in other places that keep this summer time`, isTold: false };
    }
  }
  return { zone: "Z", because: "the log names no zone; UTC stands here until you tell", isTold: false };
}

/** Whether some Sunday before five o'clock an hour is jumped over, or written twice. */
function hasOddHour(times: Float64Array): boolean {
  for (let i = 1; i < times.length; i++) {
    const by = times[i] - times[i - 1];
    if (by < -0.4 * hourMs || by >= hourMs || by === 0) {
      const day = Math.floor(times[i] / (24 * hourMs));
      // 1 January 1970 was a Thursday.
      if ((day + 4) % 7 === 0 && times[i] - 24 * hourMs * day < 5 * hourMs) return true;
    }
  }
  return false;
}

/** How many of a zone's changes a log shows, and how many it should show and does not. */
function changesSeen({ times }: LogTable, name: string): { seen: string[]; missed: number } {
  const zone = zoneNamed(name);
  const seen: string[] = [];
  let missed = 0;
  if (zone === null || times.length < 3) return { seen, missed };
  const [low, high] = [times[0], times[times.length - 1]].sort((a, b) => a - b);
  for (const { at, seconds } of changesBetween(zone, low - 14 * hourMs, high + 14 * hourMs)) {
    // Civil time at which the clocks change, by the clock before it.
    const civil = civilTime(zone, at - 1) + 1;
    const [from, to] = seconds > 0 ? [civil, civil + 1000 * seconds] : [civil + 1000 * seconds, civil];
    const around = withinHours(times, from - 2 * hourMs, to + 2 * hourMs);
    const before = around.filter((t) => t < from).length;
    const after = around.filter((t) => t >= to).length;
    if (before === 0 || after === 0) continue;
    // Where no reading falls into that hour on the days about it, it tells nothing.
    if (seconds > 0 && [-24, 24].some((by) => withinHours(times, from + by * hourMs, to + by * hourMs).length === 0)) continue;
    const inside = around.filter((t) => t >= from && t < to);
    const day = instantText(from).slice(0, 10);
    const usual = Math.max(1, Math.round((before + after) / 4));
    if (seconds > 0) {
      if (inside.length === 0) seen.push(`skips the hour from ${instantText(from).slice(11, 16)} on ${day}`);
      else missed++;
    } else if (stepsBack(around) && inside.length > 1.4 * usual) seen.push(`repeats the hour from ${instantText(from).slice(11, 16)} on ${day}`);
    else missed++;
  }
  return { seen, missed };
}

function withinHours(times: Float64Array, from: number, to: number): Float64Array {
  return times.filter((t) => t >= from && t < to);
}

/** An hour written twice: time steps back, or (hourly logs) stands still. */
function stepsBack(times: Float64Array): boolean {
  for (let i = 1; i < times.length; i++) if (times[i] < times[i - 1] || times[i] === times[i - 1]) return true;
  return false;
}
