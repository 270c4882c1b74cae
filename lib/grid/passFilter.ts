import { mustSentence, requireWithin } from "../ground/complaint.js";
import { bridgedHours } from "./bridgedHours.js";
import { lanczosLowPass, type LowPass, lowPassResponse, runLowPass } from "./lanczosLowPass.js";

/** A filter of even steps: what it lets pass, and the low-passes it is made of. */
export interface PassFilter {
  /** Period above which waves pass · d · null: the quickest pass too. */
  readonly longerThan: number | null;
  /** Period below which waves pass · d · null: the slowest pass too, and so does the mean. */
  readonly shorterThan: number | null;
  readonly stepHours: number;
  /** Holds back what is quicker than `longerThan`; null where nothing is. */
  readonly quick: LowPass | null;
  /** Taken off: what is slower than `shorterThan`; null where nothing is. */
  readonly slow: LowPass | null;
}

/** Which periods pass, and how sharply they are parted. */
export interface PassBand {
  readonly longerThan?: number;
  readonly shorterThan?: number;
  /** h · default 1. */
  readonly stepHours?: number;
  /** Half length of each low-pass in periods of its cut, 0.5…10, default 1.5: the longer, the sharper, and the more of the ends is unsure. */
  readonly reach?: number;
}

/** What came out of a filter. */
export interface Filtered {
  /** Unit of what went in · [n] · NaN before the first value and after the last, and inside gaps longer than `unsureSteps`. */
  readonly values: Float64Array;
  /** 1 where a value is unsure: within `unsureSteps` of an end, or on a bridge · [n]. */
  readonly isUnsure: Uint8Array;
  /** Half the shorter cut · steps. */
  readonly unsureSteps: number;
}

/**
 * A low-pass, high-pass or band-pass for even steps that moves nothing in time.
 *
 * `longerThan` alone is a low-pass, `shorterThan` alone a high-pass, both a band. Each edge is a Lanczos low-pass; at its cut half
 * of a wave passes. Ask `passResponse` for the whole curve.
 *
 * @param band.longerThan  d · at least 4 steps
 * @param band.shorterThan d · at least 4 steps, above longerThan
 * @param band.stepHours   h · default 1
 * @param band.reach       0.5…10, default 1.5
 * @returns                see PassFilter, frozen
 * @throws RangeError      when neither edge is given, they are not in order, or one is out of range
 * @example passFilter({ longerThan: 2, shorterThan: 15 }).shorterThan // 15
 * @source Lanczos' weights, see lanczosLowPass; scipy agrees (test/reference)
 */
export function passFilter(band: PassBand): PassFilter {
  const { longerThan = null, shorterThan = null, stepHours = 1, reach = 1.5 } = band;
  requireWithin("passFilter", "reach", reach, 0.5, 10);
  if (longerThan === null && shorterThan === null) throw new RangeError(mustSentence("passFilter", "band", "have longerThan or shorterThan", "neither"));
  if (longerThan !== null && shorterThan !== null && !(longerThan < shorterThan)) {
    throw new RangeError(mustSentence("passFilter", "longerThan", `be below shorterThan, ${shorterThan} d`, `${longerThan} d`));
  }
  const low = (cut: number | null, name: string): LowPass | null => {
    if (cut === null) return null;
    requireWithin("passFilter", name, cut, (4 * stepHours) / 24, 36600, "d");
    return lanczosLowPass(cut, reach * cut, stepHours);
  };
  return Object.freeze({ longerThan, shorterThan, stepHours, quick: low(longerThan, "longerThan"), slow: low(shorterThan, "shorterThan") });
}

/**
 * What a filter leaves of a wave: 1 passes whole, 0 is held back, below 0 comes out upside down.
 *
 * @param filter     by passFilter
 * @param periodDays d · from 1e-9
 * @returns          share of the amplitude · signed
 * @throws RangeError when periodDays is under 1e-9 or not finite
 * @example passResponse(passFilter({ longerThan: 2, shorterThan: 15 }), 5) // 1.01
 */
export function passResponse(filter: PassFilter, periodDays: number): number {
  const { quick, slow } = filter;
  return (quick === null ? 1 : lowPassResponse(quick, periodDays)) - (slow === null ? 0 : lowPassResponse(slow, periodDays));
}

/**
 * Runs a filter over even steps with gaps.
 *
 * Gaps are bridged by straight lines for the filter only; beyond the ends the record is taken to decay to its mean within two
 * days, which was best of the ways tried (README of lib/cycles/swings). What stands near an end or on a bridge is marked.
 *
 * @param filter by passFilter, of the same step
 * @param values even steps · any unit · [n] · NaN is missing
 * @returns      see Filtered, frozen
 * @throws RecordError when no value is present
 * @throws RangeError  when a value is infinite or beyond ±1e60
 * @example passed(passFilter({ shorterThan: 2 }), hours).values[500] // 0.0940 hPa from the background
 */
export function passed(filter: PassFilter, values: ArrayLike<number>): Filtered {
  const n = values.length;
  const cut = bridgedHours(values);
  const { first } = cut;
  const through = filter.quick === null ? cut.values : runLowPass(filter.quick, cut.values, cut.mean);
  const slow = filter.slow === null ? null : runLowPass(filter.slow, cut.values, cut.mean);
  const unsureSteps = Math.round((12 * Math.min(filter.longerThan ?? Infinity, filter.shorterThan ?? Infinity)) / filter.stepHours);
  const out: Float64Array = new Float64Array(n).fill(Number.NaN);
  const isUnsure: Uint8Array = new Uint8Array(n);
  const length = cut.values.length;
  for (let i = 0; i < length; i++) {
    out[first + i] = through[i] - (slow === null ? 0 : slow[i]);
    isUnsure[first + i] = Math.min(i, length - 1 - i) < unsureSteps || cut.isReal[i] === 0 ? 1 : 0;
  }
  for (let i = 0; i < length; i++) {
    if (cut.isReal[i] === 1) continue;
    let end = i;
    while (cut.isReal[end] === 0) end++;
    if (end - i > unsureSteps) out.fill(Number.NaN, first + i, first + end);
    i = end;
  }
  return Object.freeze({ values: out, isUnsure, unsureSteps });
}
