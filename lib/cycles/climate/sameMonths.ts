import { tQuantile } from "../../ground/distributions.js";
import { type Estimate, estimate } from "../../ground/estimate.js";
import { monthDate } from "./civilDay.js";
import type { MonthSummary } from "./monthlySummary.js";

/** One year against an earlier one, over the months that both have. */
export interface YearAgainstYear {
  readonly year: number;
  readonly against: number;
  /** Months compared, of the later year · YYYY-MM. */
  readonly months: readonly string[];
  /** Later less earlier, mean over those months · unit of a difference · its interval is what missing days may add, nothing more. */
  readonly difference: Estimate;
  /** Month by month · same unit. */
  readonly byMonth: readonly number[];
}

/**
 * Compares years over the same months, so that a half year is never set against a whole one.
 *
 * Each year with the one before it, told only with at least one month in common. It says how the two years were, not how the climate
 * changes: neighboring years differ by themselves.
 *
 * @param monthly by monthlySummaries
 * @param unit    UDUNITS spelling of a difference: K for temperatures
 * @returns       in order of years, frozen
 * @example sameMonths(months, "K").length // 0 months were seen in two years
 * @source common practice, no source
 */
export function sameMonths(monthly: readonly MonthSummary[], unit: string): readonly YearAgainstYear[] {
  const byNumber = new Map(monthly.map((m) => [m.month, m]));
  const years = [...new Set(monthly.map((m) => Math.floor(m.month / 12)))].sort((a, b) => a - b);
  const found: YearAgainstYear[] = [];
  for (const year of years) {
    const months: string[] = [];
    const byMonth: number[] = [];
    let variance = 0;
    let spread = 0;
    for (let m = 12 * year; m < 12 * year + 12; m++) {
      const [now, then] = [byNumber.get(m), byNumber.get(m - 12)];
      if (now === undefined || then === undefined || now.mean === null || then.mean === null) continue;
      months.push(monthDate(m));
      byMonth.push(now.mean.value - then.mean.value);
      for (const part of [now, then]) {
        const v = (part.mean as Estimate).standardError ** 2;
        variance += v;
        spread += v ** 2 / Math.max(3, (30 * part.coverage) / 3);
      }
    }
    const n = byMonth.length;
    if (n === 0) continue;
    const value = byMonth.reduce((a, b) => a + b, 0) / n;
    const standardError = Math.sqrt(variance) / n;
    const reach = variance === 0 ? 0 : tQuantile(0.975, variance ** 2 / spread) * standardError;
    const difference = estimate({ value, standardError, low: value - reach, high: value + reach, unit });
    found.push(Object.freeze({ year, against: year - 1, months: Object.freeze(months), difference, byMonth: Object.freeze(byMonth) }));
  }
  return Object.freeze(found);
}
