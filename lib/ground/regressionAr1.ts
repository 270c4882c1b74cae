import { mustSentence, requireReadings } from "./complaint.js";
import { tQuantile } from "./distributions.js";
import { leastSquares } from "./leastSquares.js";

/** Least squares on daily values whose residuals remember the day before. */
export interface RegressionAr1 {
  /** One per column · [p] · plain least squares. */
  readonly coefficients: Float64Array;
  /** Allowing for the residuals' memory · [p]. */
  readonly standardErrors: Float64Array;
  /** Rows · [p][p]. */
  readonly covariance: readonly Float64Array[];
  /** Ends of the 95 % intervals (Student's t) · [p]. */
  readonly low: Float64Array;
  readonly high: Float64Array;
  /** Correlation of residuals from one day to the next, corrected for what the columns ate, 0…0.95. */
  readonly phi: number;
  /** Residual variance, corrected likewise · unit of y squared. */
  readonly gamma: number;
  /** Equivalent independent days less the columns, at least 2 · fractions. */
  readonly degreesOfFreedom: number;
  /** y less the fit · [n]. */
  readonly residuals: Float64Array;
}

/**
 * Fits daily values by slow columns (trend, before and after, yearly round) and tells errors that allow for memory.
 *
 * Coefficients are those of least squares; their covariance is γ N X'RX N with R an AR(1) correlation over the days between
 * rows, so that missing days are simply left out. Use it where `longRunVariance` must not be used.
 *
 * @param columns p columns of n numbers · present rows only · finite
 * @param y       daily values · any unit · [n]
 * @param day     day number of each row · d · [n] · increasing; neighbors are rows exactly 1 apart
 * @returns       see RegressionAr1, frozen
 * @throws RangeError as leastSquares; when a column holds what is beyond ±1e60, days do not increase, or there are not more than 2p + 2 rows
 * @example olsAr1([[1, 1, 1, 1, 1, 1]], [1, 2, 1, 2, 1, 2], [0, 1, 2, 3, 4, 5]).coefficients[0] // 1.5
 * @source sandwich of least squares with an AR(1) correlation, bias corrections chosen by simulation, see README of this room
 */
export function olsAr1(columns: readonly ArrayLike<number>[], y: ArrayLike<number>, day: ArrayLike<number>): RegressionAr1 {
  const p = columns.length;
  const n = y.length;
  if (day.length !== n) throw new RangeError(mustSentence("olsAr1", "day", `have the length of y, ${n}`, String(day.length)));
  if (n <= 2 * p + 2) throw new RangeError(mustSentence("olsAr1", "y", `have more than ${2 * p + 2} rows for ${p} columns`, String(n)));
  for (const [j, column] of columns.entries()) requireReadings("olsAr1", `column ${j}`, column);
  for (let k = 0; k < n; k++) {
    if (!Number.isFinite(day[k]) || (k > 0 && day[k] <= day[k - 1])) {
      throw new RangeError(mustSentence("olsAr1", "day", "be finite and increase", `${day[k]} d at index ${k}`));
    }
  }
  const { coefficients, residuals, unitCovariance } = leastSquares(columns, y);
  let squares = 0;
  let products = 0;
  let pairs = 0;
  for (let k = 0; k < n; k++) {
    squares += residuals[k] ** 2;
    if (k > 0 && day[k] - day[k - 1] === 1) {
      products += residuals[k] * residuals[k - 1];
      pairs++;
    }
  }
  const r = squares === 0 ? 0 : (n * products) / ((pairs + 1) * squares);
  const phi = Math.min(0.95, Math.max(0, (n * r + p) / (n - 2 - 2 * p)));
  const ns = product(unitCovariance, remembered(columns, day, phi));
  let trace = 0;
  for (let j = 0; j < p; j++) trace += ns[j][j];
  const gamma = squares / Math.max(n - trace, 0.15 * n);
  const covariance = product(ns, unitCovariance).map((row) => row.map((v) => v * gamma));
  const degreesOfFreedom = Math.max(2, (n * (1 - phi)) / (1 + phi) - p);
  const t = tQuantile(0.975, degreesOfFreedom);
  const standardErrors: Float64Array = Float64Array.from(covariance, (row, j) => Math.sqrt(row[j]));
  return Object.freeze({
    coefficients,
    standardErrors,
    covariance: Object.freeze(covariance),
    low: coefficients.map((b, j) => b - t * standardErrors[j]),
    high: coefficients.map((b, j) => b + t * standardErrors[j]),
    phi,
    gamma,
    degreesOfFreedom,
    residuals,
  });
}

/** X'RX with R_jk = φ^|day_j − day_k|, in one pass: what earlier rows leave decays by φ a day. */
function remembered(columns: readonly ArrayLike<number>[], day: ArrayLike<number>, phi: number): Float64Array[] {
  const p = columns.length;
  const sum = Array.from({ length: p }, () => new Float64Array(p));
  const trail = new Float64Array(p);
  for (let k = 0; k < day.length; k++) {
    const decay = k === 0 ? 0 : phi ** (day[k] - day[k - 1]);
    for (let i = 0; i < p; i++) trail[i] = k === 0 ? 0 : decay * (trail[i] + columns[i][k - 1]);
    for (let i = 0; i < p; i++) {
      const x = columns[i][k];
      for (let j = 0; j < p; j++) sum[i][j] += x * (columns[j][k] + trail[j]) + trail[i] * columns[j][k];
    }
  }
  return sum;
}

function product(a: readonly Float64Array[], b: readonly Float64Array[]): Float64Array[] {
  return a.map((row) => Float64Array.from({ length: b[0].length }, (_, j) => row.reduce((s, v, k) => s + v * b[k][j], 0)));
}
