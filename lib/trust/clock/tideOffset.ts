import { estimate } from "../../ground/estimate.js";
import { lag1Autocorrelation } from "../../ground/lag1Autocorrelation.js";
import { mean } from "../../ground/summary.js";
import type { Series } from "../../record/series.js";
import { meanAndSpread } from "../faults/meanAndSpread.js";
import { readingStep } from "../faults/readingStep.js";
import { barometerPair, type Cycle, withoutLeak } from "./barometerPair.js";
import type { ClockOffset } from "./clockOffset.js";
import { hannWidth } from "./stretchOffset.js";

/** Radians of the twice-daily tide in a second. */
const turn = (4 * Math.PI) / 86400;
/** What two sound barometers that feel their own warmth make of it · hPa: 0.01 hPa/K of a warmth that swings twice a day by 1 K (common practice, no source). */
const felt = 0.01;
/** The tide must stand so many errors out, be alike in both within a quarter, and be written in steps of no more than a quarter of it. */
const standsOut = 8;
const mostUnlike = 1.25;
const coarseShare = 0.25;
/** Farther apart the tides tell of another hour of the day, or of nothing · s. */
const farthest = 3 * 3600;

/**
 * The offset between two clocks by the twice-daily tide of their barometers, for air that has nothing fast in common (clockOffset gives null).
 *
 * The tide is the one wave that both saw for sure; what a barometer's own warmth makes of it is in the interval, a minute or two where the
 * tide is 1 hPa. Fast weather tells ten times better, and is asked first.
 *
 * @param a, b station pressure of two places · hPa · flags are respected
 * @returns    see ClockOffset, frozen, without windows and drift; null under a week, where the tide is weak, unlike or coarsely written
 * @example tideOffset(inside, outside)?.offset.value // −110: inside is 110 s behind, to ± 140 s
 * @source own method; see README of this room
 */
export function tideOffset(a: Series, b: Series): ClockOffset | null {
  const pair = barometerPair(b, a);
  if (pair === null || pair.halfDay === null) return null;
  const [x, y] = pair.halfDay;
  const [ax, ay] = [x, y].map(({ cosine, sine }: Cycle) => Math.hypot(cosine, sine));
  const size = Math.min(ax, ay);
  if (!(size > 0) || Math.max(ax, ay) > mostUnlike * size || Math.max(readingStep(a.values), readingStep(b.values)) > coarseShare * size) return null;
  // y reads later by as much as its crest comes earlier in its own time.
  const apart = Math.atan2(x.sine, x.cosine) - Math.atan2(y.sine, y.cosine);
  const delay = (apart - 2 * Math.PI * Math.round(apart / (2 * Math.PI))) / turn;
  const noise = noiseOfCycle(withoutLeak(pair));
  if (!(size > standsOut * noise) || Math.abs(delay) > farthest) return null;
  const value = mean(pair.phases.filter((p) => !Number.isNaN(p))) - delay;
  const standardError = Math.hypot(noise, felt) / size / turn;
  const half = 1.96 * standardError;
  return Object.freeze({
    a: a.place,
    b: b.place,
    offset: estimate({ value, standardError, low: value - half, high: value + half, unit: "s" }),
    drift: null,
    windows: Object.freeze([]),
    stretches: 0,
    lastFrequency: 2,
    stepSeconds: pair.stepSeconds,
  });
}

/** Error of a cycle's part from the rest of the difference, with its memory from step to step · hPa. */
function noiseOfCycle({ x, y }: { readonly x: Float64Array; readonly y: Float64Array }): number {
  const difference = x.map((v, i) => v - y[i]);
  const { spread } = meanAndSpread(difference);
  const n = difference.reduce((count, v) => count + (Number.isNaN(v) ? 0 : 1), 0);
  const memory = Math.min(0.999, Math.max(0, lag1Autocorrelation(difference)));
  return spread * Math.sqrt(((2 * hannWidth) / n) * ((1 + memory) / (1 - memory)));
}
