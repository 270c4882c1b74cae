import { flagBit } from "../../record/flag.js";
import type { AirRecord, PlaceRecord } from "../../record/airRecord.js";
import type { Quantity } from "../../record/quantity.js";
import type { Series } from "../../record/series.js";
import { withoutResets } from "../clock/withoutResets.js";
import { flagRange } from "./flagRange.js";
import { flagSaturated } from "./flagSaturated.js";
import { flagSpikes } from "./flagSpikes.js";
import { flagSteps } from "./flagSteps.js";
import { flagStuck } from "./flagStuck.js";
import { flagWarmed } from "./flagWarmed.js";
import { swappedSpans } from "./swappedSpans.js";

/** What was marked already, so that several questions about one record look for its faults once; a marked record stands for itself. */
const known: WeakMap<AirRecord, AirRecord> = new WeakMap();

/**
 * Looks for every fault of the closed list and marks the readings that have it; what a reset clock wrote is set aside first.
 *
 * Order matters: what is out of range is no spike, what is a spike does not break a stuck run, and places that were
 * exchanged are set aside before levels are compared. Flags already there stay. Nothing is removed: an analysis leaves out range, spike, stuck
 * and swapped by itself. Only a stretch years away from all the rest is no part of the result (`withoutResets`); `setAside` counts it.
 *
 * @param record any record
 * @returns      the same record with new flags; the one given is not changed
 * @source each detector's own page; the table of hits and false alarms is in the README of this room
 * @example flagRecord(record).places.veranda.readings // 28112
 */
export function flagRecord(record: AirRecord): AirRecord {
  const found = known.get(record) ?? faultsMarked(record);
  known.set(record, found);
  known.set(found, found);
  return found;
}

function faultsMarked(whole: AirRecord): AirRecord {
  const record = withoutResets(whole);
  const places: Record<string, PlaceRecord> = { ...record.places };
  const mark = (place: string, of: (s: Series) => Uint16Array): void => {
    places[place] = marked(places[place], of);
  };
  const names = Object.keys(places);
  for (const name of names) {
    mark(name, (s) => flagRange(s, { elevation: places[name].elevation ?? record.site?.elevation }));
    mark(name, flagSaturated);
    mark(name, flagSpikes);
  }
  const witnesses = { ...places };
  for (const name of names) {
    mark(name, (s) => flagStuck(s, s.quantity === "surface_air_pressure" ? twinOf(s, witnesses) : null));
  }
  for (let i = 0; i < names.length; i++) {
    for (let j = i + 1; j < names.length; j++) {
      for (const { from, to } of swappedSpans(places[names[i]], places[names[j]])) {
        for (const name of [names[i], names[j]]) mark(name, (s) => spanBits(s, from, to));
      }
    }
  }
  const barometers = { ...places };
  for (const name of names) {
    mark(name, (s) => flagSteps(s, twinOf(s, barometers)));
    const { exposure, series } = places[name];
    if (exposure === "indoor") continue;
    mark(name, (s) => flagWarmed(s, series.relative_humidity ?? null, record.site?.longitude ?? null));
  }
  return Object.freeze({ ...record, places: Object.freeze(places) });
}

/** The other place's series of the same quantity with the most readings; null where there is none. */
export function twinOf(series: Series, places: Readonly<Record<string, PlaceRecord>>): Series | null {
  let best: Series | null = null;
  for (const [name, place] of Object.entries(places)) {
    const other = name === series.place ? undefined : place.series[series.quantity];
    if (other !== undefined && other.values.length > (best?.values.length ?? 0)) best = other;
  }
  return best;
}

function marked(place: PlaceRecord, of: (s: Series) => Uint16Array): PlaceRecord {
  const series: Partial<Record<Quantity, Series>> = {};
  for (const [quantity, s] of Object.entries(place.series) as [Quantity, Series][]) series[quantity] = withBits(s, of(s));
  return Object.freeze({ ...place, series: Object.freeze(series) });
}

/** The series with more bits set; itself where there are none. */
function withBits(s: Series, found: Uint16Array): Series {
  let first = 0;
  while (first < found.length && found[first] === 0) first++;
  if (first === found.length) return s;
  const flags = s.flags.slice();
  for (let i = first; i < flags.length; i++) flags[i] |= found[i];
  return Object.freeze({ ...s, flags });
}

/** Every present reading of a span, [from, to) in epoch ms. */
function spanBits({ start, seconds, values }: Series, from: number, to: number): Uint16Array {
  const bits: Uint16Array = new Uint16Array(values.length);
  for (let i = 0; i < bits.length; i++) {
    const t = start + 1000 * seconds[i];
    if (t >= from && t < to && !Number.isNaN(values[i])) bits[i] = flagBit.swapped;
  }
  return bits;
}
