import { tQuantile } from "../ground/distributions.js";
import { type Estimate, estimate } from "../ground/estimate.js";
import { bridgeGaps } from "../grid/gapRule.js";
import { hourlyInfluence, pairedHours } from "./pairedHours.js";
import { roomFilter } from "./roomFilter.js";
import { type RoomNuisance, roomNuisance, transientStarts } from "./roomNuisance.js";

/** One time constant fitted to a record, whether or not it describes the house. */
export interface TimeConstantFit {
  /** h · null when the record is too short for an interval, or the interval has no end. */
  readonly tau: Estimate | null;
  /** NaN where there is no interval. */
  readonly standardErrorOfLog: number;
  /** Student's t for 95 % and its degrees of freedom · NaN and 0 where there is no interval. */
  readonly t: number;
  readonly degreesOfFreedom: number;
  /** Correlation of the first residual from hour to hour. */
  readonly phi: number;
  /** Share of the variance less the nuisance that the first fit explains; negative when the room does not follow at all. */
  readonly explained: number;
  /** τ before whitening · h. */
  readonly firstFitTau: number;
  /** True when the least squares lie at an end of 0.7…300 h: there is no τ then. */
  readonly isAtEdge: boolean;
  /** First to last hour that counts, gaps included · h. */
  readonly spanHours: number;
}

const shortest = 0.7;
const longest = 300;
const trials = 45;
const mostPhi = 0.97;
/** Step in ln τ for the derivative of the room's answer. */
const nudge = Math.log(1.02);
/** What is left of a constant is below this share of its square. */
const rounding = 1e-18;
/** Error of ln τ from hourly steps. */
const stepError = 0.01;

/**
 * Fits one time constant by output error: the record is filtered through a room and compared with what was logged.
 *
 * The gain is fixed at 1 (a room that is left alone comes to the outside's temperature plus a constant). Level, drift and the
 * memory of what went before each start are fitted beside it; `swings` also fits the daily cycle beside it, so that heating
 * and sun that repeat every day do not enter. It is fitted twice, the second time whitened by the memory of the first residual.
 * The step-by-step regression of T on the T before was rejected: sensor noise alone makes it 2 to 40 % short.
 *
 * @param inside, outside hourly · °C · [n], hour 0 a midnight · NaN is missing; outside is used also where inside is missing
 * @param variant         "swings" or "all"
 * @returns               see TimeConstantFit, frozen
 * @throws RangeError     when lengths differ, or fewer than 48 hours are common
 * @example timeConstantFit(inside, outside, "swings").tau?.value // 11.6
 * @source output-error identification of a first-order system; coverage in indoors README
 */
export function timeConstantFit(inside: ArrayLike<number>, outside: ArrayLike<number>, variant: "swings" | "all"): TimeConstantFit {
  const both = pairedHours("timeConstantFit", inside, outside);
  const first = both.indexOf(1);
  const last = both.lastIndexOf(1);
  const spanHours = first < 0 ? 0 : last - first + 1;
  if (spanHours < 48) throw new RangeError(`timeConstantFit: inside and outside must share at least 48 h (got ${spanHours} h); log longer`);
  const x = filledOver(outside);
  const y = Float64Array.from(both, (m, h) => (m === 1 ? inside[h] : 0));
  const cycles = variant === "swings" ? 3 : 0;
  const starts = transientStarts(both);

  const plain = roomNuisance(both, starts, cycles);
  const misfit = (tau: number): Float64Array => {
    const room = roomFilter(x, tau);
    return y.map((v, h) => (both[h] === 1 ? v - room[h] : 0));
  };
  const firstLeast = leastOver((tau) => squares(plain.without(misfit(tau), tau)));
  const e1 = plain.without(misfit(firstLeast.tau), firstLeast.tau);
  const whole = squares(plain.without(y, firstLeast.tau));
  // A room that never moves explains nothing of nothing, and rounding is no movement.
  const explained = whole > rounding * squares(y) ? 1 - squares(e1) / whole : 0;
  let products = 0;
  for (let h = 1; h < e1.length; h++) products += e1[h] * e1[h - 1];
  const phi = Math.min(mostPhi, Math.max(0, products / squares(e1) || 0));

  const adjacent = both.map((m, h) => (m === 1 && both[h - 1] === 1 ? 1 : 0));
  const nuisance = roomNuisance(adjacent, starts, cycles);
  const white = (values: Float64Array): Float64Array => values.map((v, h) => (adjacent[h] === 1 ? v - phi * values[h - 1] : 0));
  const least = leastOver((tau) => squares(nuisance.without(white(misfit(tau)), tau)));
  const { tau: value, isAtEdge } = least;
  const error = errorOfLog(value, white(misfit(value)), nuisance, (tau) => white(roomFilter(x, tau)), adjacent);
  const parts = { phi, explained, firstFitTau: firstLeast.tau, isAtEdge, spanHours };
  if (error === null) return Object.freeze({ tau: null, standardErrorOfLog: Number.NaN, t: Number.NaN, degreesOfFreedom: 0, ...parts });
  const standardErrorOfLog = Math.hypot(error.plain * (1 + (4 * value) / spanHours), stepError);
  const t = tQuantile(0.975, error.terms);
  const reach = Math.exp(t * standardErrorOfLog);
  // An interval without an end tells no time constant.
  if (!(value * reach < Infinity)) return Object.freeze({ tau: null, standardErrorOfLog, t, degreesOfFreedom: error.terms, ...parts });
  const tau = estimate({ value, standardError: value * standardErrorOfLog, low: value / reach, high: value * reach, unit: "h" });
  return Object.freeze({ tau, standardErrorOfLog, t, degreesOfFreedom: error.terms, ...parts });
}

/** Bridges of any length, ends held: the filter needs every hour; a bridge counts nowhere unless inside was there. */
function filledOver(outside: ArrayLike<number>): Float64Array {
  const { values } = bridgeGaps(outside, outside.length);
  const first = values.findIndex((v) => !Number.isNaN(v));
  const last = values.findLastIndex((v) => !Number.isNaN(v));
  values.fill(values[first], 0, first);
  values.fill(values[last], last + 1);
  return values;
}

/** Least of a function over the trial constants, refined by a parabola in ln τ. */
function leastOver(cost: (tau: number) => number): { tau: number; isAtEdge: boolean } {
  const step = Math.log(longest / shortest) / (trials - 1);
  const costs = Float64Array.from({ length: trials }, (_, i) => cost(shortest * Math.exp(step * i)));
  const lowest = costs.indexOf(Math.min(...costs));
  const isAtEdge = lowest <= 0 || lowest === trials - 1;
  const i = Math.min(trials - 2, Math.max(1, lowest));
  const bend = costs[i - 1] - 2 * costs[i] + costs[i + 1];
  const shift = bend > 0 ? (0.5 * (costs[i - 1] - costs[i + 1])) / bend : lowest - i;
  return { tau: shortest * Math.exp(step * (i + Math.min(1, Math.max(-1, shift)))), isAtEdge };
}

/** Standard error of ln τ before its widening: influence Σ_day e·G over ΣG², G the derivative of the answer less nuisance. */
function errorOfLog(
  tau: number,
  whiteMisfit: Float64Array,
  nuisance: RoomNuisance,
  whiteRoom: (tau: number) => Float64Array,
  counts: Uint8Array,
): { plain: number; terms: number } | null {
  const e = nuisance.without(whiteMisfit, tau);
  const up = whiteRoom(tau * Math.exp(nudge));
  const down = whiteRoom(tau / Math.exp(nudge));
  const g = nuisance.without(up.map((v, h) => (v - down[h]) / (2 * nudge)), tau);
  const spread = hourlyInfluence(e.map((v, h) => (counts[h] === 1 ? v * g[h] : Number.NaN)));
  const power = squares(g);
  return spread === null || power === 0 ? null : { plain: Math.sqrt(spread.varianceOfSum) / power, terms: spread.terms };
}

function squares(values: Float64Array): number {
  let sum = 0;
  for (const v of values) sum += v * v;
  return sum;
}
