import type { AirRecord, PlaceRecord, SetAside } from "../../record/airRecord.js";
import { narrowRecord } from "../../record/narrowRecord.js";

const dayMs = 86_400_000;
const yearMs = 365.2425 * dayMs;
/** A stretch must lie so far from the rest: at most a day of readings, and more of them · ms. */
const gapOfDay = 2 * yearMs;
const gapOfMore = 10 * yearMs;
/** What a clock that was not set wrote is at most so much of the rest, in time and in readings. */
const mostShare = 1 / 5;

/** Readings of one or more places without a gap of two years · epoch ms. */
interface Stretch {
  readonly from: number;
  readonly to: number;
  readonly readings: number;
}

/**
 * A record without the stretches that a clock wrote after it was reset: 2000-01-01 after an empty battery, one stray stamp of 2099.
 *
 * A stretch is set aside when all of this holds; whatever else is parted from the rest stays, and makes the rest longer:
 * - the gap that parts it from the rest is longer than all the rest from first to last;
 * - that gap is over 10 years, or over 2 years for a stretch of at most a day;
 * - it is at most a fifth of the rest, in time and in readings.
 *
 * The rest grows from the stretch with the most readings. Nothing is lost: what was set aside is counted in `setAside`, place by place,
 * and stays in the record that was given. Jumps of the clock are kept.
 *
 * @param record any record · unchanged
 * @returns      a record whose span is that of the rest; the same one where nothing is set aside
 * @source limits of this project (README of this room)
 * @example withoutResets(record).setAside?.[0].readings // 838
 */
export function withoutResets(record: AirRecord): AirRecord {
  if (record.to - record.from <= gapOfDay) return record;
  const places = Object.values(record.places);
  const all = joined(places.flatMap(stretchesOf));
  const rest = restOf(all);
  const aside = all.filter((s) => s.to < rest.from || s.from > rest.to);
  if (aside.length === 0) return record;
  const told = aside.flatMap((s) => places.flatMap((p) => within(p, s)));
  const kept = narrowRecord(record, { since: rest.from, until: rest.to + 1 });
  return Object.freeze({ ...kept, jumps: record.jumps, setAside: Object.freeze([...(record.setAside ?? []), ...told]) });
}

/** The readings of a place, cut at gaps of two years. */
function stretchesOf({ start, seconds, readings }: PlaceRecord): Stretch[] {
  const found: Stretch[] = [];
  let first = 0;
  for (let i = 1; i <= readings; i++) {
    if (i < readings && 1000 * (seconds[i] - seconds[i - 1]) <= gapOfDay) continue;
    found.push({ from: start + 1000 * seconds[first], to: start + 1000 * seconds[i - 1], readings: i - first });
    first = i;
  }
  return found;
}

/** Stretches of several places as those of the record: what lies within two years is one. */
function joined(stretches: readonly Stretch[]): Stretch[] {
  const found: Stretch[] = [];
  for (const s of [...stretches].sort((a, b) => a.from - b.from)) {
    const last = found[found.length - 1];
    if (last === undefined || s.from - last.to > gapOfDay) found.push(s);
    else found[found.length - 1] = { from: last.from, to: Math.max(last.to, s.to), readings: last.readings + s.readings };
  }
  return found;
}

/** What is believed: the stretch with the most readings, and every other that is no reset clock's beside it. */
function restOf(all: readonly Stretch[]): Stretch {
  let rest = all.reduce((a, b) => (b.readings > a.readings ? b : a));
  for (;;) {
    const honest = all.find((s) => (s.to < rest.from || s.from > rest.to) && !isReset(s, rest));
    if (honest === undefined) return rest;
    const [from, to] = [Math.min(rest.from, honest.from), Math.max(rest.to, honest.to)];
    rest = { from, to, readings: all.reduce((n, s) => (s.from >= from && s.to <= to ? n + s.readings : n), 0) };
  }
}

function isReset(stretch: Stretch, rest: Stretch): boolean {
  const [own, whole] = [stretch.to - stretch.from, rest.to - rest.from];
  const gap = Math.max(rest.from - stretch.to, stretch.from - rest.to);
  return gap > whole && gap > (own <= dayMs ? gapOfDay : gapOfMore) && own <= mostShare * whole && stretch.readings <= mostShare * rest.readings;
}

function within(place: PlaceRecord, { from, to }: Stretch): SetAside[] {
  const { name, start, seconds } = place;
  let first = 0;
  while (first < place.readings && start + 1000 * seconds[first] < from) first++;
  let end = first;
  while (end < place.readings && start + 1000 * seconds[end] <= to) end++;
  return end === first ? [] : [Object.freeze({ place: name, from: start + 1000 * seconds[first], to: start + 1000 * seconds[end - 1], readings: end - first })];
}
