import { flagBit, type FlagName, flagNames } from "../record/flag.js";
import type { Exposure } from "../record/airRecord.js";
import type { RecordHead } from "./recordHead.js";

/** One quantity of one place on the common time axis; every array has the grid's length. */
export interface CleanedColumn {
  readonly place: string;
  /** CF standard name, or that name with `_tide_free` behind it. */
  readonly quantity: string;
  /** CF standard name; null where CF has none for it. */
  readonly standardName: string | null;
  /** UDUNITS spelling. */
  readonly unit: string;
  /** Plain words. */
  readonly title: string;
  /** How it was made, where it was not logged; else null. */
  readonly made: string | null;
  /** Mean of the sound readings of each step, or a bridge over a short gap · `unit` · NaN where missing. */
  readonly values: Float64Array;
  /** Bits of `gridFlagBit` of each step: faults of all its readings, and `filled`. */
  readonly flags: Uint16Array;
  /** 1 where the value is a bridge. */
  readonly filled: Uint8Array;
  /** Share of the readings that a whole step has, of each step · 0…1. */
  readonly stepCoverage: Float32Array;
  /** Share of the steps that hold a sound reading · 0…1. */
  readonly coverage: number;
  /** Steps that are bridges. */
  readonly filledSteps: number;
  /** Readings left out, by fault. */
  readonly leftOut: Readonly<Record<"range" | "spike" | "stuck" | "swapped", number>>;
  /** How far behind its step's beginning the mean instant of the readings lies, on average · s. */
  readonly meanInstant: number;
}

/** A place as a file tells it. */
export interface CleanedPlace {
  readonly name: string;
  readonly title: string;
  readonly exposure: Exposure | null;
  /** m above mean sea level; null where none is told. */
  readonly elevation: number | null;
}

/** The cleaned, regular grid of a record: step k covers [start + k·stepSeconds, start + (k + 1)·stepSeconds). */
export interface CleanedGrid {
  readonly record: RecordHead;
  readonly places: readonly CleanedPlace[];
  /** Epoch ms, UTC. */
  readonly start: number;
  readonly stepSeconds: number;
  readonly length: number;
  readonly columns: readonly CleanedColumn[];
}

/** What a step can be flagged with: the faults of `flagBit`, and `filled` for a bridge. */
export const gridFlagBit: Readonly<Record<FlagName | "filled", number>> = Object.freeze({ ...flagBit, filled: 128 });

/** Names of `gridFlagBit` in the order of their bits. */
export const gridFlagNames: readonly (FlagName | "filled")[] = Object.freeze([...flagNames, "filled"] as const);

const suffixes: Readonly<Record<string, string>> = Object.freeze({ degC: "degC", "%": "percent", hPa: "hPa", "g m-3": "g_per_m3" });

/**
 * Names of a column in flat files: `veranda.air_temperature_degC`, `veranda.air_temperature_flag`, `veranda.air_temperature_coverage`.
 *
 * @param column of a cleaned grid: its place, quantity and unit
 * @returns      value, flag, coverage: the three names
 * @example columnNames({ place: "veranda", quantity: "air_temperature", unit: "degC" }).value // "veranda.air_temperature_degC"
 */
export function columnNames({ place, quantity, unit }: { readonly place: string; readonly quantity: string; readonly unit: string }): { readonly value: string; readonly flag: string; readonly coverage: string } {
  const stem = `${place}.${quantity}`;
  return { value: `${stem}_${suffixes[unit] ?? unit.replace(/[^A-Za-z0-9]+/g, "_")}`, flag: `${stem}_flag`, coverage: `${stem}_coverage` };
}

/** A value as text files write it: to a millionth of its unit, which no sensor of a home comes near. */
export function writtenValue(value: number): number {
  return Math.round(value * 1e6) / 1e6;
}
