import { remembered } from "../../ground/remembered.js";
import type { AirRecord } from "../../record/airRecord.js";
import { type ClockOffset, clockOffset } from "./clockOffset.js";
import { tideOffset } from "./tideOffset.js";

/** Check and indoors ask for the same offsets. */
const once = remembered<AirRecord, readonly ClockOffset[]>();

/**
 * Offset of every two loggers' clocks, where their barometers tell one.
 *
 * @param record a record whose faults are marked
 * @returns      one entry a pair of places, in the record's order; pairs without an answer are left out
 * @example clocksBetween(flagRecord(record))[0]?.offset.value // −143 s: a is behind b
 * @source see `clockOffset`
 */
export function clocksBetween(record: AirRecord): readonly ClockOffset[] {
  return once(record, "", () => Object.freeze(offsetsOf(record)));
}

function offsetsOf(record: AirRecord): ClockOffset[] {
  const barometers = Object.values(record.places).flatMap((p) => p.series.surface_air_pressure ?? []);
  return barometers.flatMap((a, i) => barometers.slice(i + 1).flatMap((b) => clockOffset(a, b) ?? tideOffset(a, b) ?? []));
}
