import { tQuantile } from "../ground/distributions.js";
import { type Estimate, estimate } from "../ground/estimate.js";
import { countOf, hourlyInfluence, pairedHours } from "./pairedHours.js";
import { weatherDepartures } from "./weatherDepartures.js";

/** Variance inside over variance outside, and how well its logarithm is known. */
export interface VarianceRatio {
  /** Of departures from the 5-day running mean · 1 · null when it cannot be told. */
  readonly ratio: Estimate | null;
  readonly standardErrorOfLog: number;
  readonly hours: number;
  readonly of: "departures from the 5-day running mean";
}

/**
 * How much of the weather's variance comes through: variance inside over variance outside, of departures from the 5-day
 * running mean.
 *
 * The ratio of total variances is not offered: it grows with the length of the record and with the season, so that two
 * records of one house disagree. Its root is an amplitude, to be compared with the gains of bandResponse.
 *
 * @param inside, outside hourly · °C · [n], hour 0 a midnight · NaN is missing
 * @returns               see VarianceRatio, frozen · null under 6 days of both, or when the outside does not vary
 * @throws RangeError     when lengths differ, under 48 common hours, or the common hours are too few of the day's to tell its cycles apart
 * @example varianceRatio(inside, outside).ratio?.value // 0.384
 * @source long-run variance of the influence on ln ratio; coverage in indoors README
 */
export function varianceRatio(inside: ArrayLike<number>, outside: ArrayLike<number>): VarianceRatio {
  const both = pairedHours("varianceRatio", inside, outside);
  const hours = countOf(both);
  const x = weatherDepartures(outside, both);
  const y = weatherDepartures(inside, both);
  const vx = meanSquare(x);
  const vy = meanSquare(y);
  const of = "departures from the 5-day running mean" as const;
  if (!isVarying(vx, outside)) return Object.freeze({ ratio: null, standardErrorOfLog: Number.NaN, hours, of });
  // An inside that never moves has the ratio 0 and no logarithm.
  const still = !isVarying(vy, inside);
  const spread = hourlyInfluence(y.map((v, h) => (still ? 0 : (v * v) / vy - (x[h] * x[h]) / vx)));
  if (spread === null || still) return Object.freeze({ ratio: null, standardErrorOfLog: Number.NaN, hours, of });
  const standardErrorOfLog = Math.sqrt(spread.varianceOfSum) / hours;
  const value = vy / vx;
  const reach = Math.exp(tQuantile(0.975, spread.terms) * standardErrorOfLog);
  const ratio = estimate({ value, standardError: value * standardErrorOfLog, low: value / reach, high: value * reach, unit: "1" });
  return Object.freeze({ ratio, standardErrorOfLog, hours, of });
}

/** Mean square of the values present. */
export function meanSquare(values: Float64Array): number {
  let sum = 0;
  let n = 0;
  for (const v of values) {
    if (Number.isNaN(v)) continue;
    sum += v * v;
    n++;
  }
  return sum / n;
}

/** Whether departures are more than what rounding leaves of a constant: above 1e-9 of the largest value. */
export function isVarying(variance: number, values: ArrayLike<number>): boolean {
  let largest = 1;
  for (let i = 0; i < values.length; i++) if (Math.abs(values[i]) > largest) largest = Math.abs(values[i]);
  return Math.sqrt(variance) > 1e-9 * largest;
}
