import type { AirRecord } from "../../record/airRecord.js";
import { type FindingWords, plainWords } from "../findings/finding.js";
import type { ClockDoubt } from "./clockDoubt.js";
import type { ClockOffset } from "./clockOffset.js";
import { crestShift } from "./crestShift.js";
import { driftDoubts } from "./sunDrift.js";
import { barometerOf, sunPlaces } from "./sunPlaces.js";
import { summerDoubts } from "./summerDoubts.js";
import { summerTimeDates } from "./summerTimeDates.js";

const hour = 3600;
/** A jump counts as an hour's within so many seconds: the clock may have been set by hand at the same time. */
const hourTolerance = 300;
const dayMs = 86400000;
/** Jumps this near to a date at which civil clocks change are taken for that change. */
const nearDays = 3;
/** Windows that differ by at least this much, and by four of their standard errors, are a jump · s. */
const leastJump = 1200;

/**
 * Doubts about the clock, one sentence each: summer time kept by the logger but not by the description (or the other way round),
 * offsets between two loggers that jump, and a clock that gains or loses steadily by the sun.
 *
 * Five witnesses: jumps of an hour in the order of the lines near a date at which civil clocks change; the hour that stamps skip there; the
 * offset of two loggers by their barometers, in windows of ten days; the tide and the warmth of the day by the true sun, in summer
 * time and out of it; and the hour of the tide's crest before and after each such date, where the sun has not settled it.
 *
 * @param record  a flagged record
 * @param offsets from clockOffset, for any pairs
 * @param words   how places and days are named; default as in the description, in UTC
 * @returns       empty when there is no doubt
 * @source own method, see README of this room
 */
export function clockDoubts(record: AirRecord, offsets: readonly ClockOffset[], words: FindingWords = plainWords): readonly ClockDoubt[] {
  const dates = record.zoneChanges.length > 0 ? record.zoneChanges : summerTimeDates(record.from, record.to, record.site?.latitude ?? 45);
  const jumps = [...jumpDoubts(record, dates, words), ...stampDoubts(record, words)];
  const asked = sunPlaces(record);
  const summer = [...new Set([...asked, ...Object.values(record.places)])].map((place) => summerDoubts(record, place, words, asked.includes(place)));
  // Loggers of one card skip the same hour, and what the lines told already needs no other witness: it is told once.
  const told = jumps.length > 0 ? [] : summer.flatMap(({ doubts }) => doubts).slice(0, 1);
  const crest = summer.some(({ isSettled }) => isSettled) ? [] : crestDoubts(record, dates, words);
  // A step of an hour looks like a drift, and a jump of the clock like anything.
  const drift = jumps.length + told.length + crest.length + record.jumps.length > 0 ? [] : driftDoubts(record, words);
  const likely = summer.flatMap((s) => s.likely ?? []).slice(0, 1);
  return Object.freeze([...jumps, ...windowDoubts(offsets, words), ...told, ...crest, ...(drift.length > 0 && likely.length > 0 ? likely : drift)]);
}

/**
 * What a reader should know of summer time where nothing is doubted: that neither stamps nor the sun could have shown it.
 *
 * @param record a flagged record
 * @param words  how places and days are named
 * @returns      a clause without its full stop; null where it is settled, or civil clocks did not change
 */
export function summerLimit(record: AirRecord, words: FindingWords): string | null {
  const told = sunPlaces(record).map((place) => summerDoubts(record, place, words));
  return told.some(({ isSettled }) => isSettled) ? null : (told.find(({ limit }) => limit !== null)?.limit ?? null);
}

type ChangeDate = { readonly at: number; readonly seconds: number };

function jumpDoubts(record: AirRecord, dates: readonly ChangeDate[], words: FindingWords): ClockDoubt[] {
  if (record.zoneChanges.length > 0) return [];
  return record.jumps.flatMap(({ place, at, seconds }) => {
    const isHour = Math.abs(Math.abs(seconds) - hour) <= hourTolerance;
    const isNear = dates.some((d) => Math.abs(d.at - at) <= nearDays * dayMs && Math.sign(d.seconds) === Math.sign(seconds));
    if (!isHour || !isNear) return [];
    return [{ kind: "jump" as const, says: `the clock of ${words.place(place)} goes ${seconds > 0 ? "forward" : "back"} by ${Math.round(Math.abs(seconds) / 60)} min on ${words.day(at)}, when civil clocks change: it seems to keep summer time, while the description says the fixed zone ${record.zone}; give the zone by its IANA name` }];
  });
}

/** Stamps that no clock of the zone ever showed. */
function stampDoubts({ inSkippedHours = 0, zone, zoneChanges, jumps }: AirRecord, words: FindingWords): ClockDoubt[] {
  const change = zoneChanges.find(({ seconds }) => seconds > 0);
  if (inSkippedHours === 0 || change === undefined) return [];
  const back = jumps.some(({ at, seconds }) => seconds < 0 && Math.abs(at - change.at) < dayMs) ? " (which makes the clock seem to go back there)" : "";
  return [{ kind: "summer time", says: `${inSkippedHours === 1 ? "1 reading is" : `${inSkippedHours} readings are`} stamped in the hour that the clocks of ${zone} skip, such as on ${words.day(change.at)}${back}: the logger seems not to change to summer time; if it stays on standard time, give that as a fixed offset` }];
}

function windowDoubts(offsets: readonly ClockOffset[], words: FindingWords): ClockDoubt[] {
  return offsets.flatMap(({ a, b, windows }) =>
    windows.flatMap((span, k) => {
      if (k === 0) return [];
      const before = windows[k - 1];
      const jump = span.seconds - before.seconds;
      if (Math.abs(jump) < leastJump || Math.abs(jump) < 4 * Math.hypot(span.standardError, before.standardError)) return [];
      const size = `${Math.round(Math.abs(jump) / 60)} min`;
      const isHour = Math.abs(Math.abs(jump) - hour) <= 2 * hourTolerance;
      return [{ kind: "against another" as const, says: `the clock of ${words.place(a)} goes ${jump > 0 ? "forward" : "back"} by ${size} against that of ${words.place(b)} between ${words.day(before.from)} and ${words.day(span.to)}, by their barometers${isHour ? ": one of the two seems to keep summer time and the other not" : ""}` }];
    }),
  );
}

function crestDoubts(record: AirRecord, dates: readonly ChangeDate[], words: FindingWords): ClockDoubt[] {
  if (record.site === null) return [];
  const { longitude } = record.site;
  const place = barometerOf(record);
  const pressure = place?.series.surface_air_pressure;
  if (place === undefined || pressure === undefined) return [];
  return dates.flatMap(({ at }, k) => {
    const shift = crestShift(pressure, longitude, { at, from: dates[k - 1]?.at ?? -Infinity, to: dates[k + 1]?.at ?? Infinity });
    if (shift === null || (shift.low <= 0 && shift.high >= 0)) return [];
    const sign = Math.sign(shift.value);
    if (!(shift.low <= sign && sign <= shift.high) || Math.abs(shift.value) < 0.5) return [];
    return [{ kind: "summer time" as const, says: `the twice-daily tide of ${words.place(place.name)} crests ${Math.abs(shift.value).toFixed(1)} h ${sign > 0 ? "later" : "earlier"} after ${words.day(at)} than before it, by the logger's clock: the clock seems to have changed by an hour there, or not to have changed when the zone ${record.zone} did` }];
  });
}
