import { RecordError } from "../../ground/complaint.js";
import { fQuantile, tQuantile } from "../../ground/distributions.js";
import { type Estimate, estimate } from "../../ground/estimate.js";
import { moreDays } from "../../ground/moreDays.js";
import { olsAr1, type RegressionAr1 } from "../../ground/regressionAr1.js";
import { civilMonth, monthStart } from "./civilDay.js";

/** The yearly round of one quantity. */
export interface YearlyRound {
  /** Level about which the year swings · house unit. */
  readonly mean: Estimate;
  /** From level to crest of the yearly wave · unit of a difference; the interval reaches 0 when no round stands out. */
  readonly amplitude: Estimate;
  /** Day of the year of the crest, 1 is 0 h of 1 January · value in [1, 366.25), low and high unwrapped · null where no round stands out. */
  readonly maximumOn: Estimate | null;
  readonly detected: boolean;
  /** 1, or 2 from two years on: the second lets spring and autumn differ. */
  readonly harmonics: 1 | 2;
  /** Level, then cosine and sine of each harmonic, phase 0 at 1 January of the first year, year of 365.2425 d · house unit. */
  readonly coefficients: readonly number[];
  readonly days: number;
  readonly warnings: readonly string[];
}

/** Days of record that one and two harmonics need. */
export const roundNeedsDays: readonly [number, number] = Object.freeze([365, 730]) as readonly [number, number];
const yearDays = 365.2425;
const binDays = 5;
const fewestInBin = 3;

/**
 * The yearly round: level, size and day of its crest.
 *
 * Least squares on 5-day means with residuals that remember (on daily means the interval covers 90 % at one year, so 5-day ones are taken).
 * One year cannot tell the year from the climate: the interval is about this year's weather, not about how years differ.
 *
 * @param daily    daily means · house unit · [n] every day in order · NaN is missing
 * @param firstDay civil day of the first · days since 1970-01-01
 * @param unit     UDUNITS spelling of the quantity
 * @param difference UDUNITS spelling of a difference of it, as K beside degC · default unit
 * @returns        see YearlyRound, frozen
 * @throws RecordError when first and last day are less than 365 d apart, or fewer than half of the days are present
 * @example yearlyRound(twoYearsDaily, 19000, "degC", "K").amplitude.value // 8.07 K
 * @source README of this room
 */
export function yearlyRound(daily: ArrayLike<number>, firstDay: number, unit: string, difference: string = unit): YearlyRound {
  let from = 0;
  let end = daily.length;
  while (from < end && Number.isNaN(daily[from])) from++;
  while (end > from && Number.isNaN(daily[end - 1])) end--;
  const days = end - from;
  if (days < roundNeedsDays[0]) {
    throw new RecordError(`yearlyRound: daily must span at least ${roundNeedsDays[0]} d (got ${days} d); log ${moreDays(roundNeedsDays[0] - days)}`, "data");
  }
  const harmonics = days >= roundNeedsDays[1] ? 2 : 1;
  const yearStart = monthStart(12 * Math.floor(civilMonth(firstDay + from) / 12));
  const turns = (k: number): number => (2 * Math.PI * (firstDay + k + 0.5 - yearStart)) / yearDays;
  const columns: number[][] = Array.from({ length: 1 + 2 * harmonics }, () => []);
  const y: number[] = [];
  const bins: number[] = [];
  for (let bin = 0; from + bin * binDays < end; bin++) {
    const present: number[] = [];
    for (let k = from + bin * binDays; k < Math.min(end, from + (bin + 1) * binDays); k++) if (!Number.isNaN(daily[k])) present.push(k);
    if (present.length < fewestInBin) continue;
    const meanOf = (of: (k: number) => number): number => present.reduce((sum, k) => sum + of(k), 0) / present.length;
    // Columns are averaged over the very days that are present.
    columns[0].push(1);
    for (let h = 1; h <= harmonics; h++) {
      columns[2 * h - 1].push(meanOf((k) => Math.cos(h * turns(k))));
      columns[2 * h].push(meanOf((k) => Math.sin(h * turns(k))));
    }
    y.push(meanOf((k) => daily[k]));
    bins.push(bin);
  }
  if (bins.length < days / binDays / 2) throw new RecordError(`yearlyRound: daily must hold at least half of its days (got ${bins.length * binDays} of ${days}); log without long gaps`, "data");
  const fit = olsAr1(columns, y, bins);
  const warnings: string[] = [];
  if (days < 3 * 365) warnings.push("under three years: the interval is about these years' weather, not about how years differ");
  return Object.freeze({
    mean: estimate({ value: fit.coefficients[0], standardError: fit.standardErrors[0], low: fit.low[0], high: fit.high[0], unit }),
    ...crest(fit, difference),
    harmonics,
    coefficients: Object.freeze([...fit.coefficients]),
    days,
    warnings: Object.freeze(warnings),
  });
}

/** Size and day of the yearly wave's crest, by the delta method along and across its vector. */
function crest(fit: RegressionAr1, unit: string): Pick<YearlyRound, "amplitude" | "maximumOn" | "detected"> {
  const [, a, b] = fit.coefficients;
  const { covariance, degreesOfFreedom } = fit;
  const size = Math.hypot(a, b);
  const [u, v] = size === 0 ? [1, 0] : [a / size, b / size];
  const along = Math.sqrt(u * u * covariance[1][1] + 2 * u * v * covariance[1][2] + v * v * covariance[2][2]);
  const across = Math.sqrt(v * v * covariance[1][1] - 2 * u * v * covariance[1][2] + u * u * covariance[2][2]);
  const t = tQuantile(0.975, degreesOfFreedom);
  // Two numbers are tested at once: a size of 1.96 errors alone would be found in 15 of 100 records without a round.
  const detected = size * size > 2 * fQuantile(0.95, 2, degreesOfFreedom) * along * along;
  const low = detected ? Math.max(0, size - t * along) : 0;
  const amplitude = estimate({ value: size, standardError: along, low, high: size + t * along, unit });
  if (!detected) return { amplitude, maximumOn: null, detected };
  const phase = Math.atan2(b, a) / (2 * Math.PI);
  const value = 1 + yearDays * (phase - Math.floor(phase));
  const error = (yearDays * across) / size / (2 * Math.PI);
  const reach = (yearDays / (2 * Math.PI)) * Math.atan(Math.min((t * across) / size, 1e6));
  return { amplitude, maximumOn: estimate({ value, standardError: error, low: value - reach, high: value + reach, unit: "d" }), detected };
}
