import type { Estimate } from "../../ground/estimate.js";
import { gaps } from "../../grid/gapRule.js";
import { civilMonth, monthDate, monthStart } from "./civilDay.js";
import type { DaySummary } from "./dailySummary.js";
import { dayMemory, monthMean } from "./monthMean.js";

/** One calendar month of one quantity. */
export interface MonthSummary {
  /** 12 · year + month − 1. */
  readonly month: number;
  /** YYYY-MM. */
  readonly date: string;
  /** Of the month as it was · house unit · null under 20 days or with a gap over 7 days. */
  readonly mean: Estimate | null;
  /** Lowest and highest told by the month's days, and their instants (epoch ms, UTC). */
  readonly min: number | null;
  readonly max: number | null;
  readonly minAt: number | null;
  readonly maxAt: number | null;
  /** Share of the month's days that have a mean · 0…1. */
  readonly coverage: number;
}

const fewestDays = 20;
const longestGapDays = 7;
/** From so many months on, the memory from day to day is taken from the whole record. */
const pooledFrom = 3;

/**
 * Months of a record: mean with its interval, lowest, highest, and when.
 *
 * @param daily by dailySummaries, every day in order
 * @param unit  UDUNITS spelling of the quantity
 * @returns     every month from first to last, frozen
 * @example monthlySummaries(dailySummaries(temperature, 7), "degC")[1].mean?.value // 18.8 °C
 * @source README of this room
 */
export function monthlySummaries(daily: readonly DaySummary[], unit: string): readonly MonthSummary[] {
  if (daily.length === 0) return Object.freeze([]);
  const firstDay = daily[0].day;
  const first = civilMonth(firstDay);
  const last = civilMonth(daily[daily.length - 1].day);
  const months = Array.from({ length: last - first + 1 }, (_, m) => {
    const start = monthStart(first + m);
    const days = Array.from({ length: monthStart(first + m + 1) - start }, (__, k) => daily[start + k - firstDay] as DaySummary | undefined);
    return { month: first + m, days, means: Float64Array.from(days, (d) => d?.mean ?? Number.NaN) };
  });
  const enough = months.filter(({ means }) => isEnough(means));
  const phi = enough.length >= pooledFrom ? dayMemory(enough.map(({ means }) => departures(means))) : undefined;
  return Object.freeze(
    months.map(({ month, days, means }) => {
      const mean = isEnough(means) ? (monthMean(means, unit, { phi })?.mean ?? null) : null;
      const coverage = means.filter((v) => !Number.isNaN(v)).length / means.length;
      return Object.freeze({ month, date: monthDate(month), mean, ...extremesOf(days), coverage });
    }),
  );
}

function isEnough(means: Float64Array): boolean {
  return means.filter((v) => !Number.isNaN(v)).length >= fewestDays && gaps(means).every(({ from, to }) => to - from <= longestGapDays);
}

function departures(means: Float64Array): Float64Array {
  const present = means.filter((v) => !Number.isNaN(v));
  const mean = present.reduce((a, b) => a + b, 0) / present.length;
  return means.map((v) => v - mean);
}

/**
 * Lowest and highest of days or months, with their instants.
 *
 * @param parts days or months; what is missing or null is left out
 * @returns     nulls where nothing is told
 */
export function extremesOf(parts: readonly (Pick<MonthSummary, "min" | "max" | "minAt" | "maxAt"> | undefined)[]): Pick<MonthSummary, "min" | "max" | "minAt" | "maxAt"> {
  let low: (typeof parts)[number];
  let high: (typeof parts)[number];
  for (const part of parts) {
    if (part === undefined) continue;
    if (part.min !== null && (low === undefined || part.min < (low.min as number))) low = part;
    if (part.max !== null && (high === undefined || part.max > (high.max as number))) high = part;
  }
  return { min: low?.min ?? null, max: high?.max ?? null, minAt: low?.minAt ?? null, maxAt: high?.maxAt ?? null };
}
