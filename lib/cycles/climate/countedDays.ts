import { requireWithin } from "../../ground/complaint.js";
import type { DaySummary } from "./dailySummary.js";

/** Days counted and degrees summed over a span; every number says from how many days it comes. */
export interface CountedDays {
  /** Σ of how far daily means lie below the base · K d. */
  readonly heatingDegreeDays: number;
  /** Σ of how far daily means lie above the base · K d. */
  readonly coolingDegreeDays: number;
  /** Days with a mean, of `days`: a sum over fewer days is too small, nothing is filled in. */
  readonly daysWithMean: number;
  /** Days whose lowest reading is below 0 °C; days with a lowest reading. */
  readonly frostDays: number;
  readonly daysWithMin: number;
  /** Days whose highest reading is at least `hotFrom`; days with a highest reading. */
  readonly hotDays: number;
  readonly daysWithMax: number;
  readonly days: number;
}

/**
 * Degree days to a base, frost days and hot days.
 *
 * From daily means, not from (max + min)/2, whose error differs from place to place. Bases differ from country to country: say yours.
 *
 * @param daily            by dailySummaries of air temperature
 * @param options.base     base of both degree days · °C · default 18
 * @param options.hotFrom  lowest maximum of a hot day · °C · default 30
 * @returns                see CountedDays, frozen
 * @throws RangeError      when a limit is not finite
 * @example countedDays(days, { base: 25 }).heatingDegreeDays // 589 K d
 * @source common practice, no source
 */
export function countedDays(daily: readonly DaySummary[], options: { base?: number; hotFrom?: number } = {}): CountedDays {
  const { base = 18, hotFrom = 30 } = options;
  requireWithin("countedDays", "base", base, -100, 100, "degC");
  requireWithin("countedDays", "hotFrom", hotFrom, -100, 100, "degC");
  const counted = { heatingDegreeDays: 0, coolingDegreeDays: 0, daysWithMean: 0, frostDays: 0, daysWithMin: 0, hotDays: 0, daysWithMax: 0, days: daily.length };
  for (const { mean, min, max } of daily) {
    if (mean !== null) {
      counted.daysWithMean++;
      counted.heatingDegreeDays += Math.max(0, base - mean);
      counted.coolingDegreeDays += Math.max(0, mean - base);
    }
    if (min !== null) {
      counted.daysWithMin++;
      if (min < 0) counted.frostDays++;
    }
    if (max !== null) {
      counted.daysWithMax++;
      if (max >= hotFrom) counted.hotDays++;
    }
  }
  return Object.freeze(counted);
}
