import { RecordError, requireWithin } from "../../ground/complaint.js";
import { moreDays } from "../../ground/moreDays.js";
import { bandError } from "./bandError.js";
import { bridgedHours } from "../../grid/bridgedHours.js";
import { lanczosLowPass, runLowPass } from "../../grid/lanczosLowPass.js";
import { leastSquaresLine } from "./leastSquaresLine.js";

/** Days of record below which there is no band at all, and below which the slow background is a straight line. */
export const bandNeedsDays: number = 8;
export const slowFilterNeedsDays: number = 30;
const shortestDays = 2;
const longestDays = 15;
/** σ is taken where the ends no longer matter; a record too short for that is used whole. */
const cleanFromHours = 72;
/** What a daily tide that differs from day to day leaves in the band, per root of the variance dayToDayTide sees (0.06–0.67, by how long it remembers). */
const dailyShare = 0.45;

/** Pressure parted into swings of 2 to 15 days, a slow background and a quick rest; hourly, from the first value to the last. */
export interface SwingBand {
  /** Index of the first hour in the array given. */
  readonly first: number;
  /** h. */
  readonly hours: number;
  /** hPa about the slow background · [hours] · also on bridges, where the error says how little is known. */
  readonly band: Float64Array;
  /** hPa · [hours]. */
  readonly standardError: Float64Array;
  /** The part of that error which comes from a daily tide that differs from day to day · hPa. */
  readonly dailyError: number;
  /** Slow background · hPa · [hours]. */
  readonly slow: Float64Array;
  /** Data less band and slow background · hPa · [hours] · NaN where nothing was measured. */
  readonly rest: Float64Array;
  /** 1 where an hour was measured · [hours]. */
  readonly isReal: Uint8Array;
  /** Root mean square of the band over measured hours at least 3 d from an end · hPa. */
  readonly sigma: number;
  readonly shortestDays: number;
  readonly longestDays: number;
  /** How the slow background was made. */
  readonly slowBy: "15-day filter" | "straight line";
}

/**
 * Parts hourly pressure, tide already out, into multi-day swings, slow background and rest.
 *
 * Two Lanczos low-passes, cut 2 d and 15 d: band = first − second. Gaps are bridged by lines for the filters only, ends decay
 * to the mean. Under 30 d the long filter would reach past both ends everywhere: the slow background is then the straight line
 * of least squares and the longest swing told is half the record.
 *
 * @param hours         tide-free hourly means · hPa · [n] · NaN is missing
 * @param options.noise white noise left in an hourly mean · hPa · default 0
 * @param options.dayToDay variance of the daily tide's change from day to day, by dayToDayTide · hPa² · default 0
 * @returns             see SwingBand, frozen
 * @throws RangeError   when an hour is infinite or beyond ±1e60, or noise or dayToDay is not from 0
 * @throws RecordError  when first and last hour are less than 8 d apart
 * @example swingBand(hours).sigma // 0.675 hPa
 * @source Lanczos filters; ends, gaps and lengths as measured in README of this room
 */
export function swingBand(hours: ArrayLike<number>, options: { noise?: number; dayToDay?: number } = {}): SwingBand {
  const { noise = 0, dayToDay = 0 } = options;
  requireWithin("swingBand", "noise", noise, 0, 1e60, "hPa");
  requireWithin("swingBand", "dayToDay", dayToDay, 0, 1e60, "hPa²");
  const { first, values, isReal, mean } = bridgedHours(hours);
  const n = values.length;
  const days = n / 24;
  if (days < bandNeedsDays) {
    const more = Math.ceil(bandNeedsDays - days);
    throw new RecordError(`swingBand: hours must span at least ${bandNeedsDays} d (got ${days.toFixed(1)} d); log ${moreDays(more)}`, "data");
  }
  const isLong = days >= slowFilterNeedsDays;
  const quick = runLowPass(lanczosLowPass(shortestDays, 3), values, mean);
  const slow = isLong ? runLowPass(lanczosLowPass(longestDays, 15), values, mean) : leastSquaresLine(values);
  const band: Float64Array = quick.map((v, i) => v - slow[i]);
  const rest: Float64Array = quick.map((v, i) => (isReal[i] === 1 ? values[i] - v : Number.NaN));
  let squares = 0;
  let count = 0;
  for (let i = cleanFromHours; i < n - cleanFromHours; i++) {
    if (isReal[i] === 0) continue;
    squares += band[i] ** 2;
    count++;
  }
  if (count === 0) {
    squares = band.reduce((s, v, i) => s + isReal[i] * v * v, 0);
    count = isReal.reduce((s, r) => s + r, 0);
  }
  const sigma = Math.sqrt(squares / count);
  const dailyError = dailyShare * Math.sqrt(dayToDay);
  return Object.freeze({
    first,
    hours: n,
    band,
    standardError: bandError(isReal, sigma, noise).map((s) => Math.hypot(s, dailyError)),
    dailyError,
    slow,
    rest,
    isReal,
    sigma,
    shortestDays,
    longestDays: isLong ? longestDays : days / 2,
    slowBy: isLong ? "15-day filter" : "straight line",
  });
}
