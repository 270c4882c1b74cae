import { civilChanges } from "../../ground/civilChanges.js";
import type { AirRecord, PlaceRecord } from "../../record/airRecord.js";
import type { FindingWords } from "../findings/finding.js";
import type { ClockDoubt } from "./clockDoubt.js";
import { skippedHours } from "./skippedHours.js";
import { type SunClock, summerBySun } from "./sunClock.js";
import { type SummerDate, usualSummer } from "./summerTimeDates.js";

/** What is known of summer time at one place. */
export interface SummerDoubts {
  readonly doubts: readonly ClockDoubt[];
  /** True where the sun says that the clock kept to its zone, or has told that it did not: nobody else need be asked. */
  readonly isSettled: boolean;
  /** What to know of a fixed zone where neither a stamp nor the sun can tell: a clause without its full stop; null where it is settled. */
  readonly limit: string | null;
  /** What would be told if it were certain that the clock is wrong in some way. */
  readonly likely: ClockDoubt | null;
}

/** Twice the logarithm of how much likelier summer time must be than none, and the least of it that must be seen · h. */
const muchLikelier = 12;
const likelier = 4;
const least = 0.55;
/** Standard errors by which one hour must be excluded. */
const excluded = 3.3;
const clockText = (ms: number): string => new Date(ms).toISOString().slice(11, 16);

/**
 * Whether a place's clock keeps a summer time that its description does not know, or does not keep the one it knows: by the hour that
 * its stamps skip where civil clocks go forward, and by the sun, through the tide and the warmth of the day.
 *
 * @param record a flagged record with a site, or without one for the skipped hour alone
 * @param place  one of it
 * @param words  how places and days are named
 * @param isAskedBySun false for a place that the sun need not be asked about
 * @source own method, see README of this room
 */
export function summerDoubts(record: AirRecord, place: PlaceRecord, words: FindingWords, isAskedBySun = true): SummerDoubts {
  const name = words.place(place.name);
  const isKnown = record.zoneChanges.length > 0;
  const skipped = isKnown ? [] : skippedHours(place, record.zone);
  const { from, to, site } = record;
  const usual = (): readonly SummerDate[] => (site === null ? [] : usualSummer(from, to, site.latitude, site.longitude));
  const changes = isKnown ? record.zoneChanges : skipped.length > 0 ? civilChanges(skipped[0].zone, from, to) : usual();
  const sun = site === null || !isAskedBySun ? null : summerBySun(place, site.longitude, changes);
  const expected = isKnown ? -1 : 1;
  const isTold = sun !== null && isLikely(sun, expected, muchLikelier);
  const isExcluded = sun !== null && Math.abs(sun.estimate.value - expected) > excluded * sun.estimate.standardError && !isTold;
  if (skipped.length > 0 && !isExcluded) {
    const when = skipped.map((c) => `${clockText(c.wall)} to ${clockText(c.wall + 3_600_000)} on ${new Date(c.wall).toISOString().slice(0, 10)}`).join(" and from ");
    const says = `the log of ${name} has no reading stamped from ${when}, just the hour that civil clocks skip (zones like ${skipped[0].zone})${isTold ? `, and ${bySun(sun, "from then on")}` : ""}: its clock seems to keep summer time, while the description says the fixed zone ${record.zone}, so that for half of the year every hour is read an hour wrong; give the zone by its IANA name`;
    return { doubts: [{ kind: "summer time", says }], isSettled: true, limit: null, likely: null };
  }
  if (sun === null) return { doubts: [], isSettled: false, limit: null, likely: null };
  const [first, second] = changes.filter(({ at }) => at > sun.from && at < sun.to);
  const limit = isExcluded || isKnown ? null : `whether the clock of ${name} was changed by an hour on ${words.day(first.at)}, when civil clocks are, cannot be told: no stamp shows it, and the sun sees an hour no better than ± ${(2 * sun.estimate.standardError).toFixed(1)} h here`;
  if (!isLikely(sun, expected, likelier)) return { doubts: [], isSettled: isExcluded, limit, likely: null };
  const back = second === undefined ? "" : `, until ${words.day(second.at)}`;
  const remedy = isKnown ? `its clock seems not to have changed when the zone ${record.zone} did; if it stays on standard time, give that as a fixed offset` : `its clock seems to keep summer time, while the description says the fixed zone ${record.zone}; give the zone by its IANA name`;
  const doubt: ClockDoubt = { kind: "summer time", says: `${bySun(sun, `after ${words.day(first.at)} than before it${back}`, Math.sign(first.seconds), name)}, by the logger's clock: ${remedy}` };
  return isTold ? { doubts: [doubt], isSettled: true, limit: null, likely: null } : { doubts: [], isSettled: false, limit, likely: doubt };
}

function isLikely({ estimate: { value, standardError } }: SunClock, expected: number, atLeast: number): boolean {
  const along = value * expected;
  return (along ** 2 - (along - 1) ** 2) / standardError ** 2 > atLeast && along > least && along < 2 - least;
}

/** What moved, by how much and when. */
function bySun({ by, estimate: { value, standardError } }: SunClock, when: string, sign = 1, name = ""): string {
  const of = name === "" ? "" : ` of ${name}`;
  const hours = value * sign;
  const what = by === "tide" ? `the twice-daily tide${of} crests` : by === "warmth" ? `the day${of} warms` : `the twice-daily tide${of} crests, and the day warms,`;
  return `${what} ${Math.abs(hours).toFixed(1)} h ${hours > 0 ? "later" : "earlier"} ${when} (± ${(2 * standardError).toFixed(1)} h)`;
}
