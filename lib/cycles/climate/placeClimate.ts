import type { Estimate } from "../../ground/estimate.js";
import type { Series } from "../../record/series.js";
import { medianStep } from "../../grid/step.js";
import { type DaySummary, dailySummaries, isOneADay } from "./dailySummary.js";
import { daysForTrend, daysToGo, trendNeedsYears } from "./daysToGo.js";
import { type MonthlyTrend, monthlyTrend, trendCaution } from "./monthlyTrend.js";
import { type MonthSummary, monthlySummaries } from "./monthlySummary.js";
import { type TheilSen, theilSen } from "./robustTrend.js";
import { sameMonths, type YearAgainstYear } from "./sameMonths.js";
import { roundNeedsDays, type YearlyRound, yearlyRound } from "./yearlyRound.js";
import { type YearSummary, yearlySummaries } from "./yearlySummary.js";

/** A trend, or why there is none. */
export interface TrendAnswer {
  /** Per decade · null under five years. */
  readonly slope: Estimate | null;
  /** Unit of a difference; the slope is per decade. */
  readonly unit: string;
  /** Why there is no slope, or what it does not count. */
  readonly reason: string;
  /** Days to a slope at all; with a slope, to see one of `smallest` with 90 % power (0 when long enough or not asked). */
  readonly daysToGo: number;
  /** The slope and its memory in full. */
  readonly fit: MonthlyTrend | null;
  /** Median of slopes between like months, as a companion that one wild month does not move · per decade. */
  readonly robust: TheilSen | null;
}

/** The climate of one quantity at one place. */
export interface PlaceClimate {
  readonly daily: readonly DaySummary[];
  readonly monthly: readonly MonthSummary[];
  readonly yearly: readonly YearSummary[];
  /** null under a year; `annualCycleToGo` says how many days are missing. */
  readonly annualCycle: YearlyRound | null;
  readonly annualCycleToGo: number;
  readonly trend: TrendAnswer;
  readonly years: readonly YearAgainstYear[];
  readonly warnings: readonly string[];
}

/**
 * Days, months, years, yearly round and trend of one quantity, each only where the record carries it.
 *
 * @param series              readings in house units; flagged ones that no analysis uses are left out
 * @param offsetHours         the record's standard time less UTC, all year · h
 * @param options.smallest    slope one would want to see, per decade, for `daysToGo` beside a slope · default not asked
 * @returns                   see PlaceClimate, frozen
 * @example placeClimate(temperature, 7).monthly[1].mean?.value // 18.8 °C
 * @source README of this room
 */
export function placeClimate(series: Series, offsetHours: number, options: { smallest?: number } = {}): PlaceClimate {
  const warnings: string[] = [];
  const difference = series.unit === "degC" ? "K" : series.unit;
  const daily = dailySummaries(series, offsetHours);
  const monthly = monthlySummaries(daily, series.unit);
  const step = medianStep(series.seconds);
  if (isOneADay({ stepSeconds: step })) warnings.push("one value a day: each is taken as the mean of its day, and no lowest or highest is told");
  else if (step > 900) warnings.push(`readings every ${step >= 5400 ? `${Math.round(step / 3600)} hours` : `${Math.round(step / 60)} minutes`} miss the true lowest and highest: those of the readings are told`);
  const means = daily.map((d) => d.mean ?? Number.NaN);
  const span = spanOf(means);
  let annualCycle: YearlyRound | null = null;
  const present = means.filter((v) => !Number.isNaN(v)).length;
  if (span >= roundNeedsDays[0] && present >= 0.7 * span) annualCycle = yearlyRound(means, daily[0].day, series.unit, difference);
  else if (span >= roundNeedsDays[0]) warnings.push(`no yearly round: only ${Math.round((100 * present) / span)} % of the days have a mean`);
  return Object.freeze({
    daily,
    monthly,
    yearly: yearlySummaries(monthly, series.unit),
    annualCycle,
    annualCycleToGo: daysToGo(roundNeedsDays[0], span),
    trend: trendAnswer(monthly, span, difference, options.smallest),
    years: sameMonths(monthly, difference),
    warnings: Object.freeze(warnings),
  });
}

/**
 * The trend of monthly means, or the reason there is none and the days to go.
 *
 * @param monthly  by monthlySummaries
 * @param days     days from first to last day with a mean
 * @param unit     UDUNITS spelling of a difference
 * @param smallest slope one would want to see, per decade · omit to ask for none
 * @returns        see TrendAnswer, frozen
 */
export function trendAnswer(monthly: readonly MonthSummary[], days: number, unit: string, smallest?: number): TrendAnswer {
  const needed = Math.ceil(365.25 * trendNeedsYears);
  const none = { slope: null, unit, fit: null, robust: null };
  if (days < needed) {
    const reason = `a trend needs at least ${trendNeedsYears} years: weather alone makes slopes of degrees a decade in shorter records`;
    return Object.freeze({ ...none, reason, daysToGo: daysToGo(needed, days) });
  }
  const means = monthly.map((m) => m.mean?.value ?? Number.NaN);
  const present = means.filter((v) => !Number.isNaN(v)).length;
  const seen = new Set(monthly.filter((m) => m.mean !== null).map((m) => m.month % 12));
  if (present < 0.75 * means.length || present < 12 * trendNeedsYears - 12 || seen.size < 12) {
    return Object.freeze({ ...none, reason: `too many months are missing: ${present} of ${means.length} have a mean`, daysToGo: monthsToGo(present, means.length, seen.size) });
  }
  const fit = monthlyTrend(means, monthly[0].month % 12, unit);
  const robust = theilSen(monthly.map((m) => m.month / 120), means, unit, { group: monthly.map((m) => m.month % 12) });
  const togo = smallest === undefined || smallest === 0 || fit.sigma === 0 ? 0 : daysToGo(daysForTrend(Math.abs(smallest) / 10, fit.sigma, fit.phi), days);
  return Object.freeze({ slope: fit.slope, unit, reason: trendCaution, daysToGo: togo, fit, robust });
}

/** Days until three of four months, enough of them and every month of the year have a mean, if none is missed from now on. */
function monthsToGo(present: number, total: number, ofYear: number): number {
  const months = Math.max((0.75 * total - present) / 0.25, 12 * trendNeedsYears - 12 - present, ofYear < 12 ? 12 : 0);
  return daysToGo(30.44 * Math.ceil(months), 0);
}

function spanOf(means: readonly number[]): number {
  const first = means.findIndex((v) => !Number.isNaN(v));
  return first < 0 ? 0 : means.findLastIndex((v) => !Number.isNaN(v)) - first + 1;
}
