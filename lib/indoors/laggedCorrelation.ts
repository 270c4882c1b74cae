import { meanProduct } from "../grid/crossCorrelation.js";
import { mustSentence } from "../ground/complaint.js";
import { tCdf, tQuantile } from "../ground/distributions.js";
import { type Estimate, estimate } from "../ground/estimate.js";
import type { LongRunVariance } from "../ground/longRunVariance.js";
import { countOf, hourlyInfluence, pairedHours } from "./pairedHours.js";
import { isVarying, meanSquare } from "./varianceRatio.js";
import { weatherDepartures } from "./weatherDepartures.js";
import { withoutCycles } from "./withoutCycles.js";

/** Lags looked at · h: from inside leading by 12 to inside following by 24. */
const earliest = -12;
const latest = 24;
/** Widening of the lag's error by the length of its memory: 1 + 60 max(lag, 6 h)/T, set by simulation. */
const widening = 60;
const leastLag = 6;

/** The largest correlation of inside with outside, and the lag at which it stands. */
export interface LaggedCorrelation {
  /** Largest correlation of departures from the 5-day mean · 1 · null when it cannot be told. */
  readonly correlation: Estimate | null;
  /** Lag of the largest · h, positive when inside is later · null when it stands at an end of −12…24 h. */
  readonly lag: Estimate | null;
  readonly standardErrorOfAtanh: number;
  /** Second difference of the correlation at its top: the flatter, the less the lag is worth · NaN where lag is null. */
  readonly curvature: number;
  /** r(L) for L = −12…24 h, NaN where no pairs are · [37]. */
  readonly byLag: Float64Array;
}

/** The correlation that everybody computes first, and why it misleads. */
export interface RawCorrelation {
  /** Plain correlation at lag 0, daily cycle included: two unrelated houses reach 0.4. */
  readonly withCycle: number;
  /** The same with mean, slope and daily cycle out of both. */
  readonly withoutCycle: number;
  /** How many independent hours those are, n(1 − ρ₁ρ₂)/(1 + ρ₁ρ₂). */
  readonly effectiveCount: number;
  /** Chance that unrelated houses reach `withoutCycle`: for 'is there any link at all'. */
  readonly pValue: number;
  readonly says: string;
}

/**
 * Largest cross-correlation of inside with outside, of departures from the 5-day running mean.
 *
 * A third number beside the daily lag and the time constant, and neither of them: for a room of 12 hours it stands at 5.2 h,
 * for the daily line at 4.8 h. Its interval is wide where the top is flat; that is honest, do not hide it.
 *
 * @param inside, outside hourly · °C · [n], hour 0 a midnight · NaN is missing
 * @returns               see LaggedCorrelation, frozen
 * @throws RangeError     when lengths differ, under 48 common hours, or the common hours are too few of the day's to tell its cycles apart
 * @example laggedCorrelation(inside, outside).lag?.value // 5.03 h
 * @source long-run variance of the influence on top and height, widened by simulation; indoors README
 */
export function laggedCorrelation(inside: ArrayLike<number>, outside: ArrayLike<number>): LaggedCorrelation {
  const both = pairedHours("laggedCorrelation", inside, outside);
  const x = weatherDepartures(outside, both);
  const y = weatherDepartures(inside, both);
  const [sx, sy] = [meanSquare(x), meanSquare(y)];
  const byLag: Float64Array = new Float64Array(latest - earliest + 1).fill(Number.NaN);
  const none = { correlation: null, lag: null, standardErrorOfAtanh: Number.NaN, curvature: Number.NaN, byLag };
  if (!isVarying(sx, outside) || !isVarying(sy, inside)) return Object.freeze(none);
  for (let h = 0; h < x.length; h++) {
    x[h] /= Math.sqrt(sx);
    y[h] /= Math.sqrt(sy);
  }
  let top = earliest;
  for (let lag = earliest; lag <= latest; lag++) {
    byLag[lag - earliest] = meanProduct(x, y, lag);
    if (byLag[lag - earliest] > byLag[top - earliest] || Number.isNaN(byLag[top - earliest])) top = lag;
  }
  const [before, peak, after] = [-1, 0, 1].map((step) => byLag[top + step - earliest]);
  // At an end of the range one neighbor is missing: NaN.
  const curvature = before - 2 * peak + after;
  const isRound = curvature < 0;
  const delta = isRound ? (0.5 * (before - after)) / curvature : 0;
  // Height and place of the parabola through the largest and its neighbors.
  const r = isRound ? Math.min(1, peak - 0.5 * curvature * delta * delta) : peak;
  const shifted = (h: number, lag: number): number => y[h + lag] ?? Number.NaN;
  const near = isRound ? 1 : 0;
  const present = x.map((v, h) => v * shifted(h, top - near) * shifted(h, top) * shifted(h, top + near));
  const pairs = present.reduce((count, v) => count + (Number.isNaN(v) ? 0 : 1), 0);
  const ofPairs = (part: (v: number, h: number) => number): LongRunVariance | null => {
    const z = x.map((v, h) => (Number.isNaN(present[h]) ? Number.NaN : part(v, h)));
    const mean = z.reduce((sum, v) => sum + (Number.isNaN(v) ? 0 : v), 0) / pairs;
    return hourlyInfluence(z.map((v) => v - mean));
  };
  const height = ofPairs((v, h) => v * shifted(h, top) - (r / 2) * (v * v + shifted(h, top) ** 2));
  if (height === null) return Object.freeze(none);
  // Two equal series have r = 1: no error, and atanh has no value there.
  const isPerfect = 1 - r * r < 1e-9;
  const standardErrorOfAtanh = isPerfect ? 0 : Math.sqrt(height.varianceOfSum) / pairs / (1 - r * r);
  const reachOfAtanh = tQuantile(0.975, height.terms) * standardErrorOfAtanh;
  const [low, high] = isPerfect ? [r, r] : [Math.tanh(Math.atanh(r) - reachOfAtanh), Math.tanh(Math.atanh(r) + reachOfAtanh)];
  const correlation = estimate({ value: r, standardError: standardErrorOfAtanh * (1 - r * r), low: Math.min(low, r), high: Math.max(high, r), unit: "1" });
  const slope = isRound
    ? ofPairs((v, h) => {
        const [p, q, s] = [shifted(h, top - 1), shifted(h, top), shifted(h, top + 1)];
        return v * (0.5 * (s - p) + delta * (s - 2 * q + p));
      })
    : null;
  if (slope === null) return Object.freeze({ correlation, lag: null, standardErrorOfAtanh, curvature, byLag });
  const value = top + delta;
  const plain = Math.sqrt(slope.varianceOfSum) / (pairs * Math.abs(curvature));
  const standardError = plain * (1 + (widening * Math.max(value, leastLag)) / x.length);
  const reach = tQuantile(0.975, slope.terms) * standardError;
  const lag = estimate({ value, standardError, low: value - reach, high: value + reach, unit: "h" });
  return Object.freeze({ correlation, lag, standardErrorOfAtanh, curvature, byLag });
}

/**
 * The plain correlation at lag 0, told together with why it misleads, and a fair test of whether there is any link at all.
 *
 * @param inside, outside hourly · °C · [n], hour 0 a midnight · NaN is missing
 * @returns               see RawCorrelation, frozen; NaN where a place does not vary
 * @throws RangeError     as laggedCorrelation
 * @example rawCorrelation(inside, outside).pValue < 0.001 // true
 * @source n(1 − ρ₁ρ₂)/(1 + ρ₁ρ₂): Bartlett's approximation for two AR(1) series (from memory); false calls 3 %, measured by simulation
 */
export function rawCorrelation(inside: ArrayLike<number>, outside: ArrayLike<number>): RawCorrelation {
  const both = pairedHours("rawCorrelation", inside, outside);
  const n = countOf(both);
  if (n < 48) throw new RangeError(mustSentence("rawCorrelation", "inside and outside", "share at least 48 hours", `${n} h`, "log longer"));
  const centered = [inside, outside].map((values) => {
    let sum = 0;
    for (let h = 0; h < both.length; h++) if (both[h] === 1) sum += values[h];
    return Float64Array.from(both, (m, h) => (m === 1 ? values[h] - sum / n : Number.NaN));
  });
  const [u, v] = [withoutCycles(inside, both), withoutCycles(outside, both)];
  const correlationOf = (a: Float64Array, b: Float64Array, lag: number): number => meanProduct(a, b, lag) / Math.sqrt(meanSquare(a) * meanSquare(b));
  const isFlat = !isVarying(meanSquare(u), inside) || !isVarying(meanSquare(v), outside);
  const withCycle = isFlat ? Number.NaN : correlationOf(centered[0], centered[1], 0);
  const withoutCycle = isFlat ? Number.NaN : correlationOf(u, v, 0);
  const memory = isFlat ? 0 : Math.max(0, correlationOf(u, u, 1)) * Math.max(0, correlationOf(v, v, 1));
  const effectiveCount = Math.max(3, (n * (1 - memory)) / (1 + memory));
  const dof = effectiveCount - 2;
  const score = Math.abs(withoutCycle) * Math.sqrt(dof / Math.max(1e-300, 1 - withoutCycle ** 2));
  const pValue = isFlat ? Number.NaN : 2 * (1 - tCdf(score, dof));
  const says =
    "The plain correlation misleads: any two places that see the same sun agree in their daily cycle, and neighboring hours are not independent, " +
    `so that these ${n} hours count as ${Math.round(effectiveCount)} once the cycle is out.`;
  return Object.freeze({ withCycle, withoutCycle, effectiveCount, pValue, says });
}
