import type { AirRecord } from "../../record/airRecord.js";
import type { FindingWords } from "../findings/finding.js";
import type { ClockDoubt } from "./clockDoubt.js";
import { driftBySun, type SunClock } from "./sunClock.js";
import { sunPlaces } from "./sunPlaces.js";

/** A drift by the sun is told when its whole interval lies beyond · s d-1: half an hour a year would be 5. */
const leastDrift = 2;
/** Clocks that drift by so much are rare: more than the usual 99 % is asked before one is accused. */
const sure = 1.25;
const dayMs = 86_400_000;

/**
 * What the sun says of a steady gain or loss of the clock, by the place that knows it best.
 *
 * @param record a flagged record
 * @returns      null without a site, and where no round of the day is seen
 */
export function sunDrift(record: AirRecord): SunClock | null {
  const { site } = record;
  if (site === null) return null;
  const all = sunPlaces(record).flatMap((place) => driftBySun(place, site.longitude) ?? []);
  return all.reduce<SunClock | null>((best, d) => (best === null || d.estimate.standardError < best.estimate.standardError ? d : best), null);
}

/**
 * Whether a drift by the sun is one: its whole interval lies beyond two seconds a day.
 *
 * @param drift from sunDrift
 */
export function isDrift({ estimate: { value, low, high } }: SunClock): boolean {
  return Math.abs(value) - (sure * (high - low)) / 2 >= leastDrift;
}

/**
 * A clock that gains or loses steadily, seen by the sun alone; jumps of the clock would look like it.
 *
 * @param record a flagged record
 * @param words  how places and days are named
 */
export function driftDoubts(record: AirRecord, words: FindingWords): ClockDoubt[] {
  const drift = sunDrift(record);
  if (drift === null || !isDrift(drift)) return [];
  const { place, by, estimate: { value, low, high }, from, to } = drift;
  const [when, half] = [value > 0 ? "later" : "earlier", (high - low) / 2];
  const name = words.place(place);
  const what = by === "tide" ? `the twice-daily tide of ${name} crests ever ${when}` : by === "warmth" ? `the day of ${name} warms ever ${when}` : `the twice-daily tide of ${name} crests ever ${when}, and the day warms ever ${when}`;
  const minutes = Math.round((Math.abs(value) * (to - from)) / dayMs / 60);
  return [{ kind: "drift", says: `${what}: by the sun its clock ${value > 0 ? "gains" : "loses"} ${Math.abs(value).toFixed(0)} ± ${half.toFixed(0)} s a day, ${minutes} min from ${words.day(from)} to ${words.day(to)}` }];
}

/**
 * How large a steady drift the sun would not have shown, for a clock in which it showed none.
 *
 * @param drift from sunDrift
 * @returns     s d-1 at most, either way, and minutes over the days that were asked
 */
export function unseenDrift({ estimate: { value, standardError }, from, to }: SunClock): { readonly secondsADay: number; readonly minutes: number } {
  const secondsADay = Math.abs(value) + 2 * standardError;
  return { secondsADay, minutes: (secondsADay * (to - from)) / dayMs / 60 };
}
