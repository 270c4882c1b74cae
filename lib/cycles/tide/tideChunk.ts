import type { NoiseTheta } from "./bandedNoise.js";
import { fitAtNoise } from "./fittedNoise.js";
import { pairsOf } from "./fittedLines.js";
import type { MeansKind } from "./hourMeans.js";
import { lineNoise } from "./lineNoise.js";
import type { LineOfTide } from "./lineTable.js";
import { factorInPlace, inverseOf, solveInPlace } from "./smallCholesky.js";
import { tideSteps } from "./tideSteps.js";
import type { UsableReadings } from "./usableReadings.js";

/** What a stretch of readings says of the tide, its own mean and slope eliminated; such sums can be added. */
export interface TideChunk {
  /** First and end of the last hour · epoch ms. */
  readonly from: number;
  readonly to: number;
  readonly days: number;
  readonly hours: number;
  /** Fitted readings, and the mean of the hours. */
  readonly readings: number;
  readonly level: number;
  /** Information on the pairs, row-major [2K × 2K], and information × coefficients, both for σ = 1. */
  readonly normal: readonly number[];
  readonly right: readonly number[];
  readonly sigma2: number;
  /** Per line: sum over side frequencies of R σ², and how many there were. */
  readonly beside: readonly { readonly sum: number; readonly count: number }[];
}

/** Shortest stretch that is used · d, and observed hours beyond the number of columns. */
const leastDays = 3;
const spareHours = 20;

/** The readings from instant `from` up to (not including) `to`, seconds since the readings' midnight. */
export function stretch(readings: UsableReadings, from: number, to: number): UsableReadings {
  const { seconds, values } = readings;
  const first = firstNotBelow(seconds, from);
  const end = firstNotBelow(seconds, to);
  const whole = end > first ? Math.floor(seconds[first] / 86_400) * 86_400 : 0;
  return {
    midnight: readings.midnight + 1000 * whole,
    seconds: seconds.slice(first, end).map((s) => s - whole),
    values: values.slice(first, end),
    leftOut: 0,
    spacing: readings.spacing,
  };
}

function firstNotBelow(sorted: Float64Array, at: number): number {
  let low = 0;
  let high = sorted.length;
  while (low < high) {
    const middle = (low + high) >> 1;
    if (sorted[middle] < at) low = middle + 1;
    else high = middle;
  }
  return low;
}

/**
 * Fits a stretch with its own mean and slope at a known noise and keeps what adds up.
 *
 * @param readings     the stretch
 * @param lines        fitted lines
 * @param averagedOver s
 * @param kind         see `hourMeans`
 * @param theta        noise of a longer record
 * @returns            null when the stretch is too short (under 3 days) or too thin to say anything
 */
export function tideChunk(readings: UsableReadings, lines: readonly LineOfTide[], averagedOver: number, kind: MeansKind, theta: NoiseTheta): TideChunk | null {
  if (readings.seconds.length < spareHours) return null;
  const steps = tideSteps(readings);
  const pairs = pairsOf(lines, steps.midnight, averagedOver);
  if (steps.hours < 24 * leastDays) return null;
  const fit = fitAtNoise(steps, pairs, [], kind, theta);
  const { columns, smooth, kept, days, level } = fit.rows;
  if (kept < columns + spareHours || !(fit.sigma2 > 0)) return null;
  const n = 2 * pairs.length;
  const block: Float64Array = new Float64Array(n * n);
  for (let i = 0; i < n; i++) for (let j = 0; j < n; j++) block[i * n + j] = fit.inverse[(smooth + i) * columns + smooth + j];
  if (Number.isNaN(factorInPlace(block, n))) return null;
  const normal = inverseOf(block, n);
  const right: Float64Array = fit.beta.slice(smooth);
  solveInPlace(block, n, right);
  const frequencies = pairs.map((p) => p.cyclesPerDay);
  const from = steps.midnight + 3_600_000 * steps.firstHour;
  return {
    from,
    to: from + 3_600_000 * steps.hours,
    days,
    hours: kept,
    readings: readings.seconds.length,
    level,
    normal: Array.from(normal),
    right: Array.from(right),
    sigma2: fit.sigma2,
    beside: lineNoise(fit.ratioAt, frequencies, frequencies, days).map(({ ratio, count }) => ({ sum: ratio * count * fit.sigma2, count })),
  };
}
