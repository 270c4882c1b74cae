import type { AirRecord, PlaceRecord } from "../../record/airRecord.js";
import { type FindingWords, plainWords } from "../findings/finding.js";
import type { ClockOffset } from "./clockOffset.js";
import { crestDrift } from "./crestDrift.js";
import { crestShift } from "./crestShift.js";
import { summerTimeDates } from "./summerTimeDates.js";

const hour = 3600;
/** A jump counts as an hour's within so many seconds: the clock may have been set by hand at the same time. */
const hourTolerance = 300;
const dayMs = 86400000;
/** Jumps this near to a date at which civil clocks change are taken for that change. */
const nearDays = 3;
/** Windows that differ by at least this much, and by four of their standard errors, are a jump · s. */
const leastJump = 1200;
/** A drift by the sun is told when its whole interval lies beyond · s d-1: half an hour a year would be 5. */
const leastDrift = 2;

/**
 * Doubts about the clock, one sentence each: summer time kept by the logger but not by the description (or the other way round),
 * offsets between two loggers that jump, and a clock that gains or loses steadily by the sun.
 *
 * Three witnesses: jumps of an hour in the order of the lines near a date at which civil clocks change; the offset of two loggers
 * by their barometers, in windows of ten days; and the hour of the twice-daily tide's crest before and after each such date, which needs
 * some weeks on either side and a strong tide (about 1 hPa over 30 days, less over more).
 *
 * @param record  a flagged record
 * @param offsets from clockOffset, for any pairs
 * @param words   how places and days are named; default as in the description, in UTC
 * @returns       sentences; empty when there is no doubt
 * @source own method, see README of this room
 */
export function clockDoubts(record: AirRecord, offsets: readonly ClockOffset[], words: FindingWords = plainWords): readonly string[] {
  const dates = record.zoneChanges.length > 0 ? record.zoneChanges : summerTimeDates(record.from, record.to, record.site?.latitude ?? 45);
  return Object.freeze([...jumpDoubts(record, dates, words), ...windowDoubts(offsets, words), ...crestDoubts(record, dates, words), ...driftDoubts(record, words)]);
}

type ChangeDate = { readonly at: number; readonly seconds: number };

function jumpDoubts(record: AirRecord, dates: readonly ChangeDate[], words: FindingWords): string[] {
  if (record.zoneChanges.length > 0) return [];
  return record.jumps.flatMap(({ place, at, seconds }) => {
    const isHour = Math.abs(Math.abs(seconds) - hour) <= hourTolerance;
    const isNear = dates.some((d) => Math.abs(d.at - at) <= nearDays * dayMs && Math.sign(d.seconds) === Math.sign(seconds));
    if (!isHour || !isNear) return [];
    return [`the clock of ${words.place(place)} goes ${seconds > 0 ? "forward" : "back"} by ${Math.round(Math.abs(seconds) / 60)} min on ${words.day(at)}, when civil clocks change: it seems to keep summer time, while the description says the fixed zone ${record.zone}; give the zone by its IANA name`];
  });
}

function windowDoubts(offsets: readonly ClockOffset[], words: FindingWords): string[] {
  return offsets.flatMap(({ a, b, windows }) =>
    windows.flatMap((span, k) => {
      if (k === 0) return [];
      const before = windows[k - 1];
      const jump = span.seconds - before.seconds;
      if (Math.abs(jump) < leastJump || Math.abs(jump) < 4 * Math.hypot(span.standardError, before.standardError)) return [];
      const size = `${Math.round(Math.abs(jump) / 60)} min`;
      const isHour = Math.abs(Math.abs(jump) - hour) <= 2 * hourTolerance;
      return [`the clock of ${words.place(a)} goes ${jump > 0 ? "forward" : "back"} by ${size} against that of ${words.place(b)} between ${words.day(before.from)} and ${words.day(span.to)}, by their barometers${isHour ? ": one of the two seems to keep summer time and the other not" : ""}`];
    }),
  );
}

function crestDoubts(record: AirRecord, dates: readonly ChangeDate[], words: FindingWords): string[] {
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
    return [`the twice-daily tide of ${words.place(place.name)} crests ${Math.abs(shift.value).toFixed(1)} h ${sign > 0 ? "later" : "earlier"} after ${words.day(at)} than before it, by the logger's clock: the clock seems to have changed by an hour there, or not to have changed when the zone ${record.zone} did`];
  });
}

/** A barometer outdoors, or the first there is. */
function barometerOf(record: AirRecord): PlaceRecord | undefined {
  const places = Object.values(record.places).filter(({ series }) => series.surface_air_pressure !== undefined);
  return places.find(({ exposure }) => exposure !== "indoor") ?? places[0];
}

/** A clock that gains or loses steadily, seen by the sun alone; jumps of the clock would look like it. */
function driftDoubts(record: AirRecord, words: FindingWords): string[] {
  const place = barometerOf(record);
  const pressure = place?.series.surface_air_pressure;
  if (record.site === null || place === undefined || pressure === undefined || record.jumps.length > 0) return [];
  const drift = crestDrift(pressure, record.site.longitude);
  if (drift === null || (drift.low < leastDrift && drift.high > -leastDrift)) return [];
  const half = (drift.high - drift.low) / 2;
  return [`the twice-daily tide of ${words.place(place.name)} crests ever ${drift.value > 0 ? "later" : "earlier"}: by the sun its clock ${drift.value > 0 ? "gains" : "loses"} ${Math.abs(drift.value).toFixed(0)} ± ${half.toFixed(0)} s a day`];
}
