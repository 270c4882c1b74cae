import type { RecordEvent } from "../record/airRecord.js";
import { isAbout } from "../record/eventPlaces.js";
import type { HourAxis, LeftOut } from "./hourlyPair.js";
import { hoursADay } from "./pairedHours.js";

/** A stretch between dated events, in whole days of an hourly axis. */
export interface EventPeriod {
  readonly title: string;
  /** First hour and first hour after the last · index on the axis. */
  readonly fromHour: number;
  readonly toHour: number;
}

/** Days about an event that belong to no period: people, walls and habits settle. */
const settling = 2;
const dayMs = 86_400_000;

/** Stretches in which sensors stood together, epoch ms: those that are about one of the places, where places are given. */
export function coLocations(events: readonly RecordEvent[], places?: readonly string[]): LeftOut[] {
  return coLocationsOf(events, places).map((e) => ({ from: e.at, to: e.to ?? e.at }));
}

/** The events themselves. */
export function coLocationsOf(events: readonly RecordEvent[], places?: readonly string[]): RecordEvent[] {
  return events.filter((e) => e.kind === "co-location" && e.to !== null && (places === undefined || isAbout(e, places)));
}

/**
 * Dated events that may have changed the house, in order: all but co-locations, and only those inside the axis.
 *
 * @param events of the record
 * @param axis   see HourAxis
 * @param places only events about one of these · default all
 * @example changingEvents(record.events, axis)[0].title // "shutters closed at night"
 */
export function changingEvents(events: readonly RecordEvent[], { start, hours }: HourAxis, places?: readonly string[]): RecordEvent[] {
  const end = start + (hours / hoursADay) * dayMs;
  return events.filter((e) => e.kind !== "co-location" && e.at > start && e.at < end && (places === undefined || isAbout(e, places))).sort((a, b) => a.at - b.at);
}

/**
 * Cuts an hourly axis at its events; days that touch the two days on each side of an event are left out.
 *
 * @param events as changingEvents gives them
 * @param axis   see HourAxis; hour 0 is a midnight of the standard time
 * @returns      one period more than events, in order, frozen; none without events. A period may be empty (fromHour = toHour)
 * @example eventPeriods(changingEvents(record.events, axis), axis)[0].title // "before: shutters closed at night"
 * @source two days: chosen by simulation, indoors README
 */
export function eventPeriods(events: readonly RecordEvent[], { start, hours }: HourAxis): readonly EventPeriod[] {
  if (events.length === 0) return Object.freeze([]);
  const days = hours / hoursADay;
  const ends = events.map((e) => Math.floor((e.at - start) / dayMs - settling));
  // A later event may be over before an earlier one: what follows it waits for both.
  const over = events.map((_, i) => Math.max(...events.slice(0, i + 1).map((e) => e.to ?? e.at)));
  const begins = over.map((to) => Math.ceil((to - start) / dayMs + settling));
  return Object.freeze(
    Array.from({ length: events.length + 1 }, (_, i) => {
      const fromDay = i === 0 ? 0 : Math.min(days, Math.max(0, begins[i - 1]));
      const toDay = i === events.length ? days : Math.max(fromDay, Math.min(days, ends[i]));
      const after = i === 0 ? null : `after: ${events[i - 1].title}`;
      const before = i === events.length ? null : `before: ${events[i].title}`;
      const title = [after, before].filter((part) => part !== null).join(", ");
      return Object.freeze({ title, fromHour: fromDay * hoursADay, toHour: toDay * hoursADay });
    }),
  );
}
