import { fourierPlan } from "../../cycles/spectrum/fourier.js";
import { longRunVariance } from "../../ground/longRunVariance.js";
import { mean } from "../../ground/summary.js";
import type { PressureStretch } from "./pressureStretches.js";
import { type SharedPressure, type UnfoldedDelay, unfoldedDelay } from "./unfoldedDelay.js";

/** A delay between two traces and how sure it is. */
export interface StretchOffset {
  /** Seconds by which y's written times are behind x's: y(t) = x(t + delay). */
  readonly delay: number;
  readonly standardError: number;
  /** Degrees of freedom of the t that goes with it. */
  readonly terms: number;
  /** Stretches used. */
  readonly used: number;
  /** Highest frequency with common pressure · cpd; 0 when there is none. */
  readonly lastFrequency: number;
  /** The same without what folding did to it; null where that was not asked or cannot be told. */
  readonly free: UnfoldedDelay | null;
}

/** How much of the folding counts, by the highest frequency that two loggers of one step share. */
export interface Folding {
  /** s. */
  readonly step: number;
  /** Share 0…1 by the highest common frequency · cpd. */
  share(lastFrequency: number): number;
}

const fewest = 6;
const firstFrequency = 1.2;
/** Bins to one independent frequency under the Hann window: its equivalent noise bandwidth. */
export const hannWidth: number = 1.5;
/** Few terms may come out alike by chance: an error below this share of what the coherence allows is not believed, and that is taken. */
const chanceShare = 0.6;
/** Bins over which coherence is averaged on either side. */
const beside = 7;
/** Steps of the search · s: the longest that has six of them in the fastest cycle, or else the shortest. */
const gridSteps = [120, 60, 30, 15, 10, 5];
const stepsInCycle = 6;
/** Search for the coarse maximum: near first; a zone's error lies far and must stand out. */
const near = 3 * 3600;
const far = 14 * 3600;
const standsOut = 1.3;

/** Width of a bin of a stretch's transform · cpd. */
const perBin = 1 / 2;

/** What some stretches share: their cross spectrum, and how its frequencies, evenly spaced, count for a delay. */
interface Common {
  readonly total: Cross;
  /** Bin of the first frequency, and how many are used. */
  readonly first: number;
  readonly kept: number;
  readonly weights: Float64Array;
  /** rad s-1 · [kept]. */
  readonly omega: Float64Array;
}

/** null where nothing is common. */
function commonOf(present: readonly PressureStretch[]): Common | null {
  const first = Math.ceil(firstFrequency / perBin);
  const total = crossOf(present, first, Math.floor(present[0].length / 2) + 1 - first);
  const { weights, kept } = weightsOf(total, present.length);
  if (kept === 0) return null;
  const omega: Float64Array = new Float64Array(kept);
  for (let k = 0; k < kept; k++) omega[k] = (2 * Math.PI * (k + first) * perBin) / 86400;
  return { total, first, kept, weights, omega };
}

/**
 * Sum over frequencies of weight times ω or its square times one part of a cross spectrum turned by a delay. The frequencies are evenly
 * spaced, so that each turn comes from the one before it by one product: no sine or cosine but at the first.
 */
function turnedSum({ weights, omega, kept }: Common, { real, imaginary }: Cross, delay: number, power: 1 | 2, part: "real" | "positive" | "imaginary"): number {
  const spacing = (2 * Math.PI * perBin) / 86400;
  const [stepC, stepS] = [Math.cos(spacing * delay), Math.sin(spacing * delay)];
  let [c, s] = [Math.cos(omega[0] * delay), Math.sin(omega[0] * delay)];
  let sum = 0;
  for (let k = 0; k < kept; k++) {
    const weight = weights[k] * (power === 1 ? omega[k] : omega[k] * omega[k]);
    if (part === "imaginary") sum += weight * (imaginary[k] * c - real[k] * s);
    else {
      const along = real[k] * c + imaginary[k] * s;
      if (part === "real" || along > 0) sum += weight * along;
    }
    const turnedC = c * stepC - s * stepS;
    s = s * stepC + c * stepS;
    c = turnedC;
  }
  return sum;
}

/** Highest frequency that counts · cpd. */
function lastOf({ kept, first }: Common): number {
  return (kept - 1 + first) * perBin;
}

/** The delay at which a cross spectrum agrees best: first on a grid, then six steps of Newton. */
function peakOf(common: Common, cross: Cross): number {
  const gridSeconds = gridSteps.find((step) => step * stepsInCycle * lastOf(common) <= 86400) ?? gridSteps[gridSteps.length - 1];
  let delay = coarse(agreements(cross, common.weights, common.first, common.kept, gridSeconds), gridSeconds);
  for (let round = 0; round < 6; round++) {
    delay += turnedSum(common, cross, delay, 1, "imaginary") / turnedSum(common, cross, delay, 2, "positive");
  }
  return delay;
}

/**
 * How much of a delay the phases of two traces show: 1 where their air is rough; less where it is so smooth that what stands at a frequency
 * under the window is mostly the slower air beside it, which turns less. Told by moving one trace a known way.
 *
 * @param stretches from pressureStretches
 * @param moved     the same with x later by `seconds`
 * @returns         change of the delay found, per second of the move; null under 6 stretches or where nothing is common
 */
export function shownShare(stretches: readonly (PressureStretch | null)[], moved: readonly (PressureStretch | null)[], seconds: number): number | null {
  const pairs = stretches.flatMap((s, k) => (s === null || moved[k] === null || moved[k] === undefined ? [] : [[s, moved[k]] as const]));
  if (pairs.length < fewest) return null;
  const common = commonOf(pairs.map(([s]) => s));
  if (common === null) return null;
  const after = crossOf(pairs.map(([, m]) => m), common.first, common.kept);
  const share = (peakOf(common, common.total) - peakOf(common, after)) / seconds;
  return Number.isFinite(share) ? share : null;
}

/**
 * The delay between two pressure traces, by the turn of the phase of what they have in common.
 *
 * Frequencies from 1.2 cpd up to where coherence is lost, each weighted by what it knows: γ²/((1 − γ²)|C|). First the largest
 * sum on a grid of two minutes or less within ±3 h (±14 h where that stands out), then six steps of Newton.
 *
 * @param stretches from pressureStretches; null entries count as missing
 * @param folding   asks for the delay without folding too (unfoldedDelay), for loggers with one reading a step
 * @param shown     share of a delay that the phases show (shownShare)
 * @returns         see StretchOffset; null under 6 stretches or where nothing is common
 * @source own method, chosen by simulation; see README of this room
 */
export function stretchOffset(stretches: readonly (PressureStretch | null)[], folding: Folding | null = null, shown = 1): StretchOffset | null {
  const present = stretches.filter((s) => s !== null);
  if (present.length < fewest) return null;
  const common = commonOf(present);
  if (common === null) return null;
  const { total, weights, omega, first, kept } = common;
  const peak = peakOf(common, total);
  const bend = turnedSum(common, total, peak, 2, "real");
  if (!Number.isFinite(peak) || !(bend > 0)) return null;
  const influence = stretches.map((s) => (s === null ? Number.NaN : turnedSum(common, crossOf([s], first, kept), peak, 1, "imaginary") / bend));
  if (!influence.some((z, k) => k > 0 && !Number.isNaN(z + influence[k - 1]))) return null;
  const { varianceOfSum, terms } = longRunVariance(influence);
  const bound = hannWidth / (2 * independentOf(present.length) * bend);
  const isChance = varianceOfSum < chanceShare * chanceShare * bound;
  const standardError = Math.sqrt(isChance ? bound : varianceOfSum) / shown;
  const lastFrequency = lastOf(common);
  const phase = mean(present.map((s) => s.phase));
  const delay = peak / shown;
  const free = folding === null ? null : unfoldedDelay(sharedOf(total, weights, omega, present.map((s) => s.phase - phase)), delay, folding.step, folding.share(lastFrequency));
  return { delay: delay - phase, standardError, terms: isChance ? Math.max(terms, independentOf(present.length)) : terms, used: present.length, lastFrequency, free: free === null ? null : { ...free, delay: free.delay - phase } };
}

function sharedOf({ real, imaginary }: Cross, weights: Float64Array, omega: Float64Array, phases: readonly number[]): SharedPressure {
  const size = omega.map((_, k) => Math.hypot(real[k], imaginary[k]));
  return { omega, size, weighted: size.map((v, k) => v * weights[k]), phases };
}

interface Cross {
  readonly real: Float64Array;
  readonly imaginary: Float64Array;
  readonly powerX: Float64Array;
  readonly powerY: Float64Array;
}

/** Sums of X*Y, |X|² and |Y|² over stretches, `count` bins from `first` on. */
function crossOf(stretches: readonly PressureStretch[], first: number, count: number): Cross {
  const [real, imaginary, powerX, powerY] = [0, 1, 2, 3].map(() => new Float64Array(count));
  for (const { x, y } of stretches) {
    for (let k = 0; k < count; k++) {
      const at = 2 * (k + first);
      const [a, b, c, d] = [x[at], x[at + 1], y[at], y[at + 1]];
      real[k] += a * c + b * d;
      imaginary[k] += a * d - b * c;
      powerX[k] += a * a + b * b;
      powerY[k] += c * c + d * d;
    }
  }
  return { real, imaginary, powerX, powerY };
}

/** Half-overlapping stretches count as so many independent ones. */
function independentOf(stretches: number): number {
  return Math.max(2, 0.53 * stretches + 0.5);
}

/** Weight of each frequency, and how many from the first on are kept before coherence is lost. */
function weightsOf({ real, imaginary, powerX, powerY }: Cross, stretches: number): { weights: Float64Array; kept: number } {
  const n = real.length;
  const raw = real.map((re, k) => (re * re + imaginary[k] ** 2) / (powerX[k] * powerY[k]));
  const mirrored = (k: number): number => (k < 0 ? -k - 1 : k >= n ? 2 * n - 1 - k : k);
  const independent = independentOf(stretches);
  const least = Math.max(0.1, 0.8 / independent);
  const weights: Float64Array = new Float64Array(n);
  if (n < beside + 1) return { weights, kept: 0 };
  for (let k = 0; k < n; k++) {
    let sum = 0;
    for (let j = -beside; j <= beside; j++) sum += raw[mirrored(k + j)];
    const coherence = Math.min(0.9999, (sum / (2 * beside + 1) - 1 / independent) / (1 - 1 / independent));
    if (!(coherence >= least)) return { weights, kept: k };
    weights[k] = coherence / ((1 - coherence) * Math.hypot(real[k], imaginary[k]));
  }
  return { weights, kept: n };
}

/**
 * How well the traces agree, Σ W Re(C e^{−iωδ}), at every delay δ of the grid, by one transform.
 *
 * The bins are half a cycle a day apart, so that the sum repeats every two days: its values on the grid are a transform of
 * the weighted cross spectrum, with frequencies beyond the grid's own folded onto it.
 *
 * @returns by step of the grid, negative delays from the end · [steps in two days]
 */
function agreements({ real, imaginary }: Cross, weights: Float64Array, first: number, kept: number, gridSeconds: number): Float64Array {
  const length = (2 * 86400) / gridSeconds;
  const pairs: Float64Array = new Float64Array(2 * length);
  for (let k = 0; k < kept; k++) {
    const bin = (k + first) % length;
    pairs[2 * bin] += weights[k] * real[k];
    pairs[2 * bin + 1] += weights[k] * imaginary[k];
  }
  return fourierPlan(length).complexForward(pairs).filter((_, i) => i % 2 === 0);
}

/** The best delay of a grid near zero, or a far one where it stands out. */
function coarse(agreement: Float64Array, gridSeconds: number): number {
  let [nearest, nearestAt, farthest, farthestAt] = [-Infinity, 0, -Infinity, 0];
  for (let delay = -far; delay <= far; delay += gridSeconds) {
    const value = agreement[(delay / gridSeconds + agreement.length) % agreement.length];
    if (value > farthest) [farthest, farthestAt] = [value, delay];
    if (Math.abs(delay) <= near && value > nearest) [nearest, nearestAt] = [value, delay];
  }
  return farthest > standsOut * Math.max(0, nearest) ? farthestAt : nearestAt;
}
