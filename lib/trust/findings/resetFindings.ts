import { dayText } from "../../ground/instant.js";
import { standardOffsetHours } from "../../ground/standardTime.js";
import { zoneNamed } from "../../ground/zone.js";
import { spanInWords } from "../../ground/spanInWords.js";
import type { AirRecord, ClockJump, SetAside } from "../../record/airRecord.js";
import { consequence, type Finding, type FindingWords } from "./finding.js";

const dayMs = 86_400_000;
const hourMs = 3_600_000;

/**
 * What a reset clock wrote, one finding a stretch: when, how many readings of which place, and what to do.
 *
 * @param record from withoutResets
 * @param words  names and times
 */
export function resetFindings(record: AirRecord, words: FindingWords): Finding[] {
  return stretchesOf(record.setAside ?? []).map(({ from, to, parts }) => {
    const count = parts.map((p) => `${p.readings} ${p.readings === 1 ? "reading" : "readings"} of ${words.place(p.place)}`).join(" and ");
    return {
      weight: 1,
      says: `the clock was reset: ${count} ${onlyOne(parts) ? "stands" : "stand"} at ${words.span(from, to)}, ${away(record, from, to)} the rest, and ${onlyOne(parts) ? "is" : "are"} left out of every analysis`,
      remedy: `if you know when they were made, write how far the clock was off into clock.corrections of the description, at the first and the last of them and at the ${from < record.from ? "first of the rest" : "last before them"}; if not, ${narrowing(record, from)} leaves them out without a word`,
      consequences: consequence(["tides", "swings", "indoors", "climate"], "note", "what a reset clock wrote is left out"),
    };
  });
}

/**
 * What was set aside because a clock was reset, as sentences for the answers' warnings; none where nothing was.
 *
 * @param record from withoutResets, or from flagRecord
 * @param places whose readings are meant; default all
 * @returns      one sentence a stretch, dates in the record's standard time
 * @example resetWarnings(flagRecord(record), ["veranda"]).length // 0
 */
export function resetWarnings(record: AirRecord, places?: readonly string[]): string[] {
  const zone = zoneNamed(record.zone);
  const own = (record.setAside ?? []).filter((s) => places === undefined || places.includes(s.place));
  return stretchesOf(own).map(({ from, to, parts }) => {
    const readings = parts.reduce((n, p) => n + p.readings, 0);
    const [first, last] = [from, to].map((at) => dayText(zone === null ? at : at + hourMs * standardOffsetHours(zone, at)));
    const days = first === last ? first : `${first} to ${last}`;
    return `${readings} ${readings === 1 ? "reading" : "readings"} stamped ${days}, ${away(record, from, to)} the rest of the record, ${readings === 1 ? "is" : "are"} left out: the clock was reset; run check for what to do`;
  });
}

/** Whether a jump of the clock leads into what was set aside or out of it; the stretch itself is told. */
export function isResetJump({ place, at, seconds }: ClockJump, setAside: readonly SetAside[] = []): boolean {
  const isIn = (t: number): boolean => setAside.some((s) => s.place === place && t >= s.from - dayMs && t <= s.to + dayMs);
  return isIn(at) || isIn(at + 1000 * seconds);
}

interface Told {
  readonly from: number;
  readonly to: number;
  readonly parts: readonly SetAside[];
}

/** Places whose stretches overlap, or lie within a day, are told together. */
function stretchesOf(setAside: readonly SetAside[]): Told[] {
  const found: Told[] = [];
  for (const s of [...setAside].sort((a, b) => a.from - b.from)) {
    const last = found[found.length - 1];
    if (last === undefined || s.from - last.to > dayMs || last.parts.some((p) => p.place === s.place)) found.push({ from: s.from, to: s.to, parts: [s] });
    else found[found.length - 1] = { from: last.from, to: Math.max(last.to, s.to), parts: [...last.parts, s] };
  }
  return found;
}

function onlyOne(parts: readonly SetAside[]): boolean {
  return parts.length === 1 && parts[0].readings === 1;
}

function away(record: AirRecord, from: number, to: number): string {
  return to < record.from ? `${spanInWords((record.from - to) / 1000)} before` : `${spanInWords((from - record.to) / 1000)} after`;
}

/** The option that narrows the record to the rest, whatever its zone: civil times are within 12 h west and 14 h east of UTC. */
function narrowing(record: AirRecord, from: number): string {
  return from < record.from ? `--since ${dayText(record.from - 12 * hourMs)}` : `--until ${dayText(record.to + 14 * hourMs + dayMs)}`;
}
