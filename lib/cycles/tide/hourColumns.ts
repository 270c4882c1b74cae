import { type Gap, gaps } from "../../grid/gapRule.js";
import type { MeansKind } from "./hourMeans.js";
import type { TideSteps } from "./tideSteps.js";

/** A cosine and sine pair of the design: cos and sin of 2π(f·t + turn), t in days since the steps' midnight. */
export interface TidePair {
  readonly cyclesPerDay: number;
  /** Turn at the steps' midnight · cycles. */
  readonly turn: number;
  /** Mean over a reading's averaging time: sin(πfτ)/(πfτ). */
  readonly damping: number;
  /** The hourly columns of an earlier pair of the same frequency, times cos or sin of the year: for the seasonal test. */
  readonly yearly?: "cos" | "sin";
}

/** Hourly means of a fit's columns, by the same rule as the means of the data. */
export interface HourColumns {
  /** Means of a column that is a straight line between the given breaks · s since the steps' midnight. */
  smooth(at: (seconds: number) => number, breaks: readonly number[], into: Float64Array): void;
  /** Means of the cosine or sine of a pair. */
  wave(pair: TidePair, sine: boolean, into: Float64Array): void;
}

const secondsADay = 86_400;

/**
 * Prepares the means of columns over the hours that the data keep: the numbers that `hourMeans` gives for each column, without
 * laying out every step of it where the readings stand regularly.
 *
 * A line whose frequency is whole repeats daily, so a whole hour takes one of 24 means; any other line takes its whole hours in
 * closed form. Hours that were bridged or observed in part are made step by step.
 *
 * @param steps   see `tideSteps`
 * @param kind    see `hourMeans`
 * @param weights see `hourWeights` · [hours]
 * @returns       routines that fill `into` [hours] where the weight is not 0, and leave the rest
 */
export function hourColumns(steps: TideSteps, kind: MeansKind, weights: Float64Array): HourColumns {
  const { values, instants, perHour, hours, firstHour, phase } = steps;
  // Gaps that the data's means do not bridge, over an hour or at an end, empty their hours whatever stands in them here.
  const bridges = kind === "bridged" ? gaps(values) : [];
  let thin = false;
  for (let i = 0; i < hours && !thin; i++) thin = weights[i] > 0 && weights[i] < 1;
  let scratch: Float64Array = new Float64Array(0);
  const column = (): Float64Array => {
    if (scratch.length === 0) scratch = new Float64Array(values.length);
    return scratch;
  };
  const step = 3600 / perHour;

  /** Turn of a wave at an instant · cycles of 2π. */
  const angle = ({ cyclesPerDay, turn }: TidePair, days: number): number => 2 * Math.PI * (cyclesPerDay * days + turn);

  const middle = firstHour * 3600 + phase + (3600 - step) / 2;

  function smooth(at: (seconds: number) => number, breaks: readonly number[], into: Float64Array): void {
    if (steps.regular) {
      // The mean of a straight line is its value in the middle.
      for (let i = 0; i < hours; i++) if (weights[i] > 0) into[i] = at(middle + 3600 * i);
      if (!thin && breaks.length === 0) return;
    }
    const laid = column();
    for (let k = 0; k < laid.length; k++) laid[k] = at(instants[k]);
    bridgeColumn(laid, bridges);
    meansWhere(laid, values, weights, perHour, kind === "plain", steps.regular && breaks.length === 0, into);
  }

  function wave(pair: TidePair, sine: boolean, into: Float64Array): void {
    const turned = sine ? Math.sin : Math.cos;
    const at = (days: number): number => pair.damping * turned(angle(pair, days));
    if (!steps.regular) {
      const laid = column();
      for (let k = 0; k < laid.length; k++) laid[k] = at(instants[k] / secondsADay);
      bridgeColumn(laid, bridges);
      meansWhere(laid, values, weights, perHour, kind === "plain", false, into);
      return;
    }
    const isDaily = Number.isInteger(pair.cyclesPerDay);
    if (isDaily) dailyMeans(at, into);
    else closedMeans(pair, turned, into);
    if (!thin) return;
    const laid = column();
    if (isDaily) layDays(at, laid);
    else for (let k = 0; k < laid.length; k++) laid[k] = at(instants[k] / secondsADay);
    bridgeColumn(laid, bridges);
    meansWhere(laid, values, weights, perHour, kind === "plain", true, into);
  }

  /** A line's steps of one day, from midnight. */
  const dayOf = (at: (days: number) => number): Float64Array => Float64Array.from({ length: 24 * perHour }, (_, k) => at((k / perHour + phase / 3600) / 24));
  const firstOfDay = ((firstHour % 24) + 24) % 24;

  function dailyMeans(at: (days: number) => number, into: Float64Array): void {
    const day = dayOf(at);
    const ofHour: Float64Array = new Float64Array(24);
    for (let h = 0; h < 24; h++) {
      for (let k = h * perHour; k < (h + 1) * perHour; k++) ofHour[h] += day[k];
      ofHour[h] /= perHour;
    }
    for (let i = 0, h = firstOfDay; i < hours; i++, h = h === 23 ? 0 : h + 1) if (weights[i] > 0) into[i] = ofHour[h];
  }

  function layDays(at: (days: number) => number, laid: Float64Array): void {
    const day = dayOf(at);
    for (let k = 0, from = firstOfDay * perHour; k < laid.length; from = 0) {
      const part = day.subarray(from, from + laid.length - k);
      laid.set(part, k);
      k += part.length;
    }
  }

  /** Mean of equally spaced cosines: the one in the middle, times sin(n x) / (n sin x) with x half the turn of a step. */
  function closedMeans(pair: TidePair, turned: (angle: number) => number, into: Float64Array): void {
    const x = (Math.PI * pair.cyclesPerDay * step) / secondsADay;
    const damping = perHour === 1 ? pair.damping : (pair.damping * Math.sin(perHour * x)) / (perHour * Math.sin(x));
    for (let i = 0; i < hours; i++) if (weights[i] > 0) into[i] = damping * turned(angle(pair, middle / secondsADay + i / 24));
  }

  return { smooth, wave };
}

/** Straight lines over the gaps that the data's means bridge too. */
function bridgeColumn(column: Float64Array, bridges: readonly Gap[]): void {
  for (const { from, to } of bridges) {
    const before = column[from - 1];
    const rise = (column[to] - before) / (to - from + 1);
    for (let k = from; k < to; k++) column[k] = before + rise * (k - from + 1);
  }
}

/** Means over the kept hours, or over those of them that were observed in part; of all steps, or of the observed ones only. */
function meansWhere(column: Float64Array, values: Float64Array, weights: Float64Array, perHour: number, observedOnly: boolean, thinOnly: boolean, into: Float64Array): void {
  for (let i = 0; i < into.length; i++) {
    if (weights[i] === 0 || (thinOnly && weights[i] === 1)) continue;
    let sum = 0;
    let count = 0;
    for (let k = i * perHour; k < (i + 1) * perHour; k++) {
      if (observedOnly && Number.isNaN(values[k])) continue;
      sum += column[k];
      count++;
    }
    into[i] = sum / count;
  }
}
