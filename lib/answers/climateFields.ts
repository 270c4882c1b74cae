import type { CountedDays } from "../cycles/climate/countedDays.js";
import type { DewPointRange } from "../cycles/climate/dewPointRange.js";
import type { PlaceClimate, TrendAnswer } from "../cycles/climate/placeClimate.js";
import type { YearAgainstYear } from "../cycles/climate/sameMonths.js";
import type { Estimate } from "../ground/estimate.js";
import type { Quantity } from "../record/quantity.js";
import type { RecordHead } from "./recordHead.js";

/** One quantity in one day, month or year; extremes are readings, their instants ISO 8601 UTC. */
export interface SpanNumbers<Mean> {
  readonly mean: Mean | null;
  readonly min: number | null;
  readonly max: number | null;
  readonly minAt: string | null;
  readonly maxAt: string | null;
  /** Share of the day's hours, of the month's days or of the year's months that are covered · 0…1. */
  readonly coverage: number;
}

/** One place in one day (YYYY-MM-DD), month (YYYY-MM) or year (YYYY) of the record's standard time. */
export interface ClimateSpan<Mean> {
  readonly place: string;
  readonly date: string;
  readonly quantities: Readonly<Partial<Record<Quantity, SpanNumbers<Mean>>>>;
}

/** The yearly round of one quantity, or the days still to log. */
export interface ClimateRound {
  readonly place: string;
  readonly quantity: Quantity;
  /** Level about which the year swings. */
  readonly mean: Estimate | null;
  /** From level to crest. */
  readonly amplitude: Estimate | null;
  /** Day of the year of the crest, 1 is 0 h of 1 January; null where no round stands out. */
  readonly maximumOn: Estimate | null;
  readonly detected: boolean | null;
  readonly harmonics: number | null;
  readonly daysToGo: number;
}

/** The fields of the answer. */
export interface ClimateFields {
  readonly record: RecordHead;
  readonly daily: readonly ClimateSpan<number>[];
  readonly monthly: readonly ClimateSpan<Estimate>[];
  readonly yearly: readonly ClimateSpan<Estimate>[];
  readonly annualCycle: readonly ClimateRound[];
  readonly trend: readonly ({ readonly place: string; readonly quantity: Quantity } & TrendAnswer)[];
  /** Degree days, frost days, hot days of each place with temperature, by year (YYYY). */
  readonly counted: readonly ({ readonly place: string; readonly date: string; readonly base: number; readonly hotFrom: number } & CountedDays)[];
  readonly dewPoint: readonly ({ readonly place: string } & DewPointRange)[];
  /** The same months of one year and the year before. */
  readonly years: readonly ({ readonly place: string; readonly quantity: Quantity } & YearAgainstYear)[];
  readonly warnings: readonly string[];
  /** What stands behind the answer, for figures; not enumerable, so not in JSON. */
  readonly parts: Readonly<Record<string, Readonly<Partial<Record<Quantity, PlaceClimate>>>>>;
}
