import { tQuantile } from "../../ground/distributions.js";
import { type Estimate, estimate } from "../../ground/estimate.js";
import { leastSquares } from "../../ground/leastSquares.js";

/** A slope through monthly means, the season apart. */
export interface MonthlyTrend {
  /** Per decade · unit of the values (differences). */
  readonly slope: Estimate;
  /** Correlation from one month to the next, 0…0.9. */
  readonly phi: number;
  /** Standard deviation of the months about season and slope · unit of the values. */
  readonly sigma: number;
  readonly degreesOfFreedom: number;
  readonly monthsPresent: number;
}

/** Beside every trend. */
export const trendCaution: string = "not counting sensor drift: 0.1 a year of drift is 1 a decade";

/**
 * Trend of monthly means per decade: least squares on twelve months of the year and a slope, with errors that know months remember.
 *
 * The interval is honest against monthly noise only. A slow wander (sensor drift, a growing tree, years of El Niño) cannot be seen in a
 * short record: with one of 0.4 K the interval held the truth in 85 % at 10 years and 78 % at 20 (simulation): say trendCaution beside it.
 *
 * @param monthly    monthly means · any unit · [n] in order · NaN is missing
 * @param firstMonth calendar month of the first, 0 is January
 * @param unit       UDUNITS spelling of a difference: K for temperatures
 * @returns          see MonthlyTrend, frozen
 * @throws RangeError when a calendar month never occurs or there are fewer than 24 months
 * @example monthlyTrend(sixYearsMonthly, 0, "K").slope.value // 0.377 K per decade
 * @source README of this room
 */
export function monthlyTrend(monthly: ArrayLike<number>, firstMonth: number, unit: string): MonthlyTrend {
  const rows = Array.from({ length: monthly.length }, (_, k) => k).filter((k) => !Number.isNaN(monthly[k]));
  const n = rows.length;
  const seen = new Set(rows.map((k) => (firstMonth + k) % 12));
  if (n < 24 || seen.size < 12) {
    throw new RangeError(`monthlyTrend: monthly must hold at least 24 months and each month of the year (got ${n} months, ${seen.size} of the year); log longer`);
  }
  const middle = (monthly.length - 1) / 2;
  const columns = Array.from({ length: 12 }, (_, m) => Float64Array.from(rows, (k) => ((firstMonth + k) % 12 === m ? 1 : 0)));
  columns.push(Float64Array.from(rows, (k) => (k - middle) / 120));
  const { coefficients, standardErrors, residuals, residualVariance } = leastSquares(columns, Float64Array.from(rows, (k) => monthly[k]));
  let squares = 0;
  let products = 0;
  let pairs = 0;
  for (let i = 0; i < n; i++) {
    squares += residuals[i] ** 2;
    if (i === 0 || rows[i] - rows[i - 1] !== 1) continue;
    products += residuals[i] * residuals[i - 1];
    pairs++;
  }
  const r = squares === 0 ? 0 : (n * products) / ((pairs + 1) * squares);
  const phi = Math.min(0.9, Math.max(0, (n * r + 4) / (n - 4)));
  const value = coefficients[12];
  const standardError = standardErrors[12] * Math.sqrt((1 + phi) / (1 - phi));
  const degreesOfFreedom = Math.max(2, (n * (1 - phi)) / (1 + phi) - 2);
  const reach = tQuantile(0.975, degreesOfFreedom) * standardError;
  return Object.freeze({
    slope: estimate({ value, standardError, low: value - reach, high: value + reach, unit }),
    phi,
    sigma: Math.sqrt(residualVariance),
    degreesOfFreedom,
    monthsPresent: n,
  });
}
