import { kthSmallest } from "../../ground/selection.js";
import type { PlaceRecord } from "../../record/airRecord.js";
import type { Quantity } from "../../record/quantity.js";
import type { Series } from "../../record/series.js";
import { deviationOf, medianOf } from "./orderStatistics.js";
import { type StepFrame, stepFrame, stepMeans } from "./stepMeans.js";

/** Hours during which two places carried each other's readings. */
export interface SwappedSpan {
  /** First and last swapped step, epoch ms, UTC: from inclusive, to exclusive. */
  readonly from: number;
  readonly to: number;
}

/** One quantity of the two places. */
type SeriesPair = readonly [Series, Series];

const compared: readonly Quantity[] = ["air_temperature", "relative_humidity", "surface_air_pressure"];
/** By how much crossing must fit better than going straight, in units of log likelihood, at each end of a span and at both together. */
const confirmedGain = { each: 4, together: 10 };
/** The same where the barometers' offset cannot confirm it. */
const bareGain = { each: 8, together: 24 };
const longestHours = 72;
const longestGapHours = 12;

/**
 * Hours in which two places' readings were exchanged: the traces trade roles at one moment and trade back at another.
 *
 * At every step the two traces are continued straight and crosswise; where all quantities together fit much better crosswise,
 * the roles were traded. A span needs both its ends, at most 72 hours apart. Where the barometers differ by more than three times the
 * scatter of their difference, that offset must be turned round inside the span; where they do not, the two ends must
 * be twice as clear. Carrying the sensors themselves is no swap: they settle slowly, and the offset stays.
 *
 * @param a, b two places
 * @returns    spans in time order
 * @source own method; hits and false alarms measured by simulation, see README of this room
 */
export function swappedSpans(a: PlaceRecord, b: PlaceRecord): SwappedSpan[] {
  const pairs = compared.flatMap((q) => {
    const [x, y] = [a.series[q], b.series[q]];
    return x !== undefined && y !== undefined && x.values.length > 1 && y.values.length > 1 ? [[x, y] as const] : [];
  });
  if (!pairs.some(([x]) => x.quantity === "air_temperature")) return [];
  const frame = stepFrame(pairs.flat());
  const { ends, gains } = crossings(pairs, frame);
  const isConfirmed = ends.length < 2 ? () => null : offsetTurns(pairs.find(([x]) => x.quantity === "surface_air_pressure") ?? null, frame);
  const spans: SwappedSpan[] = [];
  for (let i = 0; i < ends.length; i++) {
    for (let j = i + 1; j < ends.length && (ends[j] - ends[i]) * frame.stepSeconds <= longestHours * 3600; j++) {
      const [g, h] = [gains[i], gains[j]];
      if (g + h < confirmedGain.together) continue;
      const confirmed = isConfirmed(ends[i], ends[j]);
      const needed = confirmed === true ? confirmedGain : bareGain;
      if (confirmed === false || Math.min(g, h) < needed.each || g + h < needed.together) continue;
      spans.push({ from: frame.start + 1000 * frame.stepSeconds * ends[i], to: frame.start + 1000 * frame.stepSeconds * ends[j] });
      i = j;
      break;
    }
  }
  return spans;
}

/**
 * The steps into which the traces fit much better when they cross, and by how much.
 *
 * Minus log likelihood under Student's t with three degrees of freedom (weather has heavy tails) is 2 ln(1 + z²/3) a step: the gain over
 * all quantities is twice the logarithm of one product of ratios, so that a logarithm is taken at the few steps that count.
 */
function crossings(pairs: readonly SeriesPair[], frame: StepFrame): { ends: number[]; gains: number[] } {
  const { stepSeconds, length } = frame;
  const ratios: Float64Array = new Float64Array(length).fill(1);
  const longest = (longestGapHours * 3600) / stepSeconds;
  for (const [x, y] of pairs) {
    const [a, b] = [stepMeans(x, frame, "values"), stepMeans(y, frame, "values")];
    const scale = usualStep(a, b);
    if (!(scale > 0)) continue;
    let last = -1;
    for (let k = 0; k < length; k++) {
      if (Number.isNaN(a[k]) || Number.isNaN(b[k])) continue;
      if (last >= 0 && k - last <= longest) {
        const unit = 3 * scale * scale * (k - last);
        const ownA = a[k] - a[last];
        const ownB = b[k] - b[last];
        const intoB = b[k] - a[last];
        const intoA = a[k] - b[last];
        const straight = (1 + (ownA * ownA) / unit) * (1 + (ownB * ownB) / unit);
        const crossed = (1 + (intoB * intoB) / unit) * (1 + (intoA * intoA) / unit);
        ratios[k] *= straight / crossed;
      }
      last = k;
    }
  }
  const least = Math.exp(confirmedGain.each / 2) * (1 - 1e-9);
  const ends: number[] = [];
  const gains: number[] = [];
  for (let k = 0; k < length; k++) {
    if (!(ratios[k] >= least) || 2 * Math.log(ratios[k]) < confirmedGain.each) continue;
    ends.push(k);
    gains.push(2 * Math.log(ratios[k]));
  }
  return { ends, gains };
}

/** More steps than this tell the usual one no better: of longer traces every second, third … is looked at. */
const enoughSteps = 50_000;

/** Usual step-to-step change of the two traces, never under their rounding; NaN where neither moves. */
function usualStep(a: Float64Array, b: Float64Array): number {
  const stride = Math.max(1, Math.floor(a.length / enoughSteps));
  const steps: Float64Array = new Float64Array(2 * Math.ceil(a.length / stride));
  let [n, still] = [0, 0];
  for (const x of [a, b]) {
    for (let k = 1; k < x.length; k += stride) {
      const d = Math.abs(x[k] - x[k - 1]);
      if (d > 0) steps[n++] = d;
      else if (d === 0) still++;
    }
  }
  if (n === 0) return Number.NaN;
  const moving = steps.subarray(0, n);
  // Steps of nothing stand before all others.
  const order = (k: number): number => (k < still ? 0 : kthSmallest(moving, k - still));
  const median = (from: number, count: number): number => {
    const upper = order(from + (count >> 1));
    if (count % 2 === 1) return upper;
    const lower = order(from + (count >> 1) - 1);
    return lower + (upper - lower) / 2;
  };
  return Math.max(1.4826 * median(0, still + n), 0.5 * median(still, n));
}

/** A test of steps [from, to): true where the barometers' offset is turned round there, false where not, null where it cannot tell. */
function offsetTurns(barometers: SeriesPair | null, frame: StepFrame): (from: number, to: number) => boolean | null {
  if (barometers === null) return () => null;
  const around = Math.round((36 * 3600) / frame.stepSeconds);
  const [a, b] = [stepMeans(barometers[0], frame, "values"), stepMeans(barometers[1], frame, "values")];
  const differences = (...spans: readonly (readonly [number, number])[]): Float64Array => {
    const found: number[] = [];
    for (const [from, to] of spans) for (let k = from; k < to; k++) if (!Number.isNaN(a[k] - b[k])) found.push(a[k] - b[k]);
    return Float64Array.from(found);
  };
  return (from, to) => {
    const outside = differences([Math.max(0, from - around), from], [to, Math.min(a.length, to + around)]);
    const inside = medianOf(differences([from, to]));
    const usual = medianOf(outside);
    const scatter = 1.4826 * deviationOf(outside);
    if (!(Math.abs(usual) > 3 * scatter) || Number.isNaN(inside)) return null;
    return Math.abs(inside + usual) < 0.5 * Math.abs(usual);
  };
}
