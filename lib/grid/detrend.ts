import { PolynomialRegression } from "ml-regression";
import { mustSentence, requireReadings, requireWithin } from "../ground/complaint.js";

/** What was taken out and what is left. */
export interface Detrended {
  /** Values less the trend · [n] · NaN where the value was missing. */
  readonly values: Float64Array;
  /** The trend · [n] · given also where values are missing. */
  readonly trend: Float64Array;
  readonly degree: number;
}

/** Times nearer than this share of their size are one time. */
const timesTell = 1e-14;

/**
 * Takes a polynomial of the given degree out of values on any time axis: 0 the level, 1 a slope, 2 and more a bend.
 *
 * Least squares over the values present, on time scaled to −1…1 so that the normal equations stay well conditioned.
 * A polynomial is a poor season and a poor storm: beyond degree 3 use a moving background. Do not take a slope out of
 * single days before fitting a daily cycle: it eats 61 % of the cycle's sine part.
 *
 * @param values         any unit · [n] · NaN is missing
 * @param days           time since the record's start · d · [n]
 * @param options.degree 0…6, default 1
 * @returns              see Detrended
 * @throws RangeError    when lengths differ, the degree is out of range, a value is infinite or beyond ±1e60, or values are present
 *                       at fewer than degree + 1 times
 * @example detrend([1, 3, 5], [0, 1, 2]).values // 0, 0, 0
 * @source least squares by the package ml-regression; checked on NIST StRD Wampler and Norris sets
 */
export function detrend(values: ArrayLike<number>, days: ArrayLike<number>, options: { degree?: number } = {}): Detrended {
  const { degree = 1 } = options;
  const n = values.length;
  if (days.length !== n) throw new RangeError(mustSentence("detrend", "days", `have the length of values, ${n}`, String(days.length)));
  requireWithin("detrend", "degree", degree, 0, 6);
  if (!Number.isInteger(degree)) throw new RangeError(mustSentence("detrend", "degree", "be a whole number", String(degree)));
  requireReadings("detrend", "values", values);
  let low = Infinity;
  let high = -Infinity;
  const present: number[] = [];
  for (let i = 0; i < n; i++) {
    const t = days[i] as number;
    if (!Number.isFinite(t)) throw new RangeError(mustSentence("detrend", "days", "be finite", `${t} d at index ${i}`));
    if (Number.isNaN(values[i] as number)) continue;
    present.push(i);
    low = Math.min(low, t);
    high = Math.max(high, t);
  }
  requireReadings("detrend", "days", days);
  if (present.length < degree + 1) {
    throw new RangeError(mustSentence("detrend", "values", `hold at least ${degree + 1} present for degree ${degree}`, String(present.length)));
  }
  const middle = (low + high) / 2;
  const half = (high - low) / 2 || 1;
  const scaled = (i: number): number => ((days[i] as number) - middle) / half;
  const apart = timesApart(present, scaled, degree + 1, high - low > timesTell * Math.max(Math.abs(low), Math.abs(high)));
  if (apart <= degree) {
    throw new RangeError(mustSentence("detrend", "days", `differ at ${degree + 1} values present or more for degree ${degree}`, `${apart} of ${low} to ${high} d`));
  }
  // The plain mean comes off first: the fit then works on small numbers whatever the level.
  const level = present.reduce((sum, i) => sum + (values[i] as number), 0) / present.length;
  const fit = new PolynomialRegression(present.map(scaled), present.map((i) => (values[i] as number) - level), degree);
  const trend: Float64Array = Float64Array.from({ length: n }, (_, i) => level + fit.predict(scaled(i)));
  const left: Float64Array = Float64Array.from({ length: n }, (_, i) => (values[i] as number) - trend[i]);
  return Object.freeze({ values: left, trend, degree });
}

/** How many of the times are different ones, counted to `enough`; scaled times nearer than a millionth are one. */
function timesApart(present: readonly number[], scaled: (i: number) => number, enough: number, isSpread: boolean): number {
  if (!isSpread) return 1;
  const seen = new Set<number>();
  for (const i of present) {
    seen.add(Math.round(1e6 * scaled(i)));
    if (seen.size >= enough) break;
  }
  return seen.size;
}
