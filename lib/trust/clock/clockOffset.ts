import { tQuantile } from "../../ground/distributions.js";
import { type Estimate, estimate } from "../../ground/estimate.js";
import { leastSquares } from "../../ground/leastSquares.js";
import type { Series } from "../../record/series.js";
import { barometerPair } from "./barometerPair.js";
import { type PressureStretch, pressureStretches } from "./pressureStretches.js";
import { type StretchOffset, stretchOffset } from "./stretchOffset.js";

/** By how much one place's clock is ahead of another's, told by their barometers. */
export interface ClockOffset {
  readonly a: string;
  readonly b: string;
  /** a's clock minus b's · s · positive when a is ahead. */
  readonly offset: Estimate;
  /** Change of the offset · s d-1; null under 40 days. */
  readonly drift: Estimate | null;
  /** Stretches of two days that were compared, and the highest frequency they share · cpd. */
  readonly stretches: number;
  readonly lastFrequency: number;
  readonly stepSeconds: number;
}

/** From this step on the estimate was seen biased by 5 to 50 s, and so much is added in quadrature · s. */
const coarseStep = 1800;
const coarseError = 60;
/** A larger offset is taken out and the rest measured again, so that both stretches hold the same weather · s. */
const largeOffset = 1800;
const windowDays = 10;
const fewestWindows = 4;

/**
 * The offset between two loggers' clocks from their barometers: air pressure passes through walls within a second.
 *
 * Daily cycles are taken out first, since the sensors' own temperature would shift them. Expect ±20–70 s in 20 days of 5-minute readings at
 * middle latitudes, three times that in the tropics, several minutes from hourly readings; whatever it is, the interval says it.
 * Only the difference can be known: which of the two is wrong, the tide may tell (see solarCheck).
 *
 * @param a, b station pressure of two places · hPa · flags are respected
 * @returns    see ClockOffset, frozen; null when fewer than six stretches of two whole days are shared, or no weather in common is found
 * @example clockOffset(inside, outside)?.offset.value // −115: inside is 115 s behind
 * @source own method, chosen by simulation; held by reference vectors
 */
export function clockOffset(a: Series, b: Series): ClockOffset | null {
  let shifted = 0;
  let stretches: readonly (PressureStretch | null)[] = [];
  let found: StretchOffset | null = null;
  let stepSeconds = 0;
  for (let again = 0; again < 3; again++) {
    // Moved by whole steps, so that the grid's columns hold the same readings as before.
    if (found !== null) shifted += Math.round(found.delay / stepSeconds) * stepSeconds;
    const pair = barometerPair(b, { ...a, start: a.start + 1000 * shifted });
    if (pair === null) return null;
    stepSeconds = pair.stepSeconds;
    stretches = pressureStretches(pair);
    found = stretchOffset(stretches);
    if (found === null) return null;
    if (Math.abs(found.delay) <= largeOffset) break;
  }
  if (found === null) return null;
  const value = -(found.delay + shifted) + 0;
  const standardError = stepSeconds >= coarseStep ? Math.hypot(found.standardError, coarseError) : found.standardError;
  const half = tQuantile(0.975, found.terms) * standardError;
  return Object.freeze({
    a: a.place,
    b: b.place,
    offset: estimate({ value, standardError, low: value - half, high: value + half, unit: "s" }),
    drift: driftOf(stretches),
    stretches: found.used,
    lastFrequency: found.lastFrequency,
    stepSeconds,
  });
}

/** Slope of the offsets of windows of ten days · s d-1. */
function driftOf(stretches: readonly (PressureStretch | null)[]): Estimate | null {
  const offsets: { day: number; value: number }[] = [];
  for (let from = 0; from + windowDays - 1 <= stretches.length; from += windowDays) {
    // Nine stretches of two days, each begun a day after the last, cover ten days.
    const found = stretchOffset(stretches.slice(from, from + windowDays - 1));
    if (found !== null && Math.abs(found.delay) < largeOffset) offsets.push({ day: from, value: -found.delay });
  }
  if (offsets.length < fewestWindows) return null;
  const middle = offsets.reduce((sum, { day }) => sum + day, 0) / offsets.length;
  const line = leastSquares([offsets.map(() => 1), offsets.map(({ day }) => day - middle)], offsets.map(({ value }) => value));
  const [value, standardError] = [line.coefficients[1], line.standardErrors[1]];
  const half = tQuantile(0.975, offsets.length - 2) * standardError;
  return estimate({ value, standardError, low: value - half, high: value + half, unit: "s d-1" });
}
