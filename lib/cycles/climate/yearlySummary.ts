import { tQuantile } from "../../ground/distributions.js";
import { type Estimate, estimate } from "../../ground/estimate.js";
import { monthStart } from "./civilDay.js";
import { extremesOf, type MonthSummary } from "./monthlySummary.js";

/** One calendar year of one quantity. */
export interface YearSummary {
  readonly year: number;
  /** YYYY. */
  readonly date: string;
  /** Of the year as it was · house unit · null unless all twelve months have a mean. */
  readonly mean: Estimate | null;
  readonly min: number | null;
  readonly max: number | null;
  readonly minAt: number | null;
  readonly maxAt: number | null;
  /** Share of the year's days that have a mean · 0…1. */
  readonly coverage: number;
}

/**
 * Years of a record: mean over the twelve months by their days, lowest, highest, and when.
 *
 * A year with a month missing has no mean: the season would bend it.
 *
 * @param monthly by monthlySummaries, every month in order
 * @param unit    UDUNITS spelling of the quantity
 * @returns       every year from first to last, frozen
 * @example yearlySummaries(months, "degC")[0].mean // null
 * @source means of twelve monthly means: common practice, no source
 */
export function yearlySummaries(monthly: readonly MonthSummary[], unit: string): readonly YearSummary[] {
  if (monthly.length === 0) return Object.freeze([]);
  const first = Math.floor(monthly[0].month / 12);
  const last = Math.floor(monthly[monthly.length - 1].month / 12);
  return Object.freeze(
    Array.from({ length: last - first + 1 }, (_, y) => {
      const year = first + y;
      const months = monthly.filter((m) => Math.floor(m.month / 12) === year);
      const days = monthStart(12 * year + 12) - monthStart(12 * year);
      const held = months.reduce((sum, m) => sum + m.coverage * daysIn(m), 0);
      return Object.freeze({ year, date: String(year).padStart(4, "0"), mean: yearMean(months, days, unit), ...extremesOf(months), coverage: held / days });
    }),
  );
}

const daysIn = ({ month }: MonthSummary): number => monthStart(month + 1) - monthStart(month);

function yearMean(months: readonly MonthSummary[], days: number, unit: string): Estimate | null {
  if (months.length < 12) return null;
  let value = 0;
  let variance = 0;
  let spread = 0;
  for (const m of months) {
    if (m.mean === null) return null;
    const share = daysIn(m) / days;
    const part = (share * m.mean.standardError) ** 2;
    value += share * m.mean.value;
    variance += part;
    // Welch's degrees of freedom from those of the months.
    spread += part ** 2 / Math.max(3, (m.coverage * daysIn(m)) / 3);
  }
  const standardError = Math.sqrt(variance);
  const reach = variance === 0 ? 0 : tQuantile(0.975, variance ** 2 / spread) * standardError;
  return estimate({ value, standardError, low: value - reach, high: value + reach, unit });
}
