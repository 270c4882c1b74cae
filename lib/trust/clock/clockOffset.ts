import { tQuantile } from "../../ground/distributions.js";
import { type Estimate, estimate } from "../../ground/estimate.js";
import { leastSquares } from "../../ground/leastSquares.js";
import { mean } from "../../ground/summary.js";
import { niceStep } from "../../grid/step.js";
import type { Series } from "../../record/series.js";
import { meanAndSpread } from "../faults/meanAndSpread.js";
import { readingStep } from "../faults/readingStep.js";
import { type BarometerPair, barometerPair, withoutLeak } from "./barometerPair.js";
import { type PressureStretch, pressureStretches } from "./pressureStretches.js";
import { type Folding, shownShare, type StretchOffset, stretchOffset } from "./stretchOffset.js";
import type { UnfoldedDelay } from "./unfoldedDelay.js";

/** The offset of ten days by themselves. */
export interface OffsetWindow {
  /** First and last instant · epoch ms, UTC. */
  readonly from: number;
  readonly to: number;
  /** a's clock minus b's · s. */
  readonly seconds: number;
  readonly standardError: number;
}

/** By how much one place's clock is ahead of another's, told by their barometers. */
export interface ClockOffset {
  readonly a: string;
  readonly b: string;
  /** a's clock minus b's · s · positive when a is ahead. */
  readonly offset: Estimate;
  /** Change of the offset · s d-1; null under 40 days. */
  readonly drift: Estimate | null;
  /** The offset in windows of ten days, where each could be told. */
  readonly windows: readonly OffsetWindow[];
  /** Stretches of two days that were compared, and the highest frequency they share · cpd; 0 and 2 where the twice-daily tide told it. */
  readonly stretches: number;
  readonly lastFrequency: number;
  readonly stepSeconds: number;
}

/**
 * The folding of fast pressure onto slow frequencies, added to the error · s. Two loggers that do not read at the same instants see
 * what is faster than two steps turned the wrong way: the estimate was off by up to 6 % of the step at 5 to 15 min, 7 % at 30 min and
 * 10 % at an hour, most where the offset is a quarter of the step (seeds 3000–3007, pressure with a spectrum falling with
 * the square of frequency; smoother air folds less). At steps to five minutes it counts from where common pressure reaches beyond 0.4 of
 * the highest frequency; below that the method's own simulations held without it.
 */
function foldedError(step: number, lastFrequency: number): number {
  return 0.03 * step * (1 + step / 5400) * foldedShare(step, lastFrequency);
}

function foldedShare(step: number, lastFrequency: number): number {
  const reach = Math.min(1, (lastFrequency * 2 * step) / 86400);
  return step > 300 ? reach : Math.min(1, Math.max(0, (reach - 0.4) / 0.3));
}

/**
 * What is left of the folding after it was taken off · s: a share of the most it does and of how far that is from the usual, because the
 * air's spectrum beyond two steps is not known; and a hundredth of the step for what the transforms of very smooth air leak (seeds 3100–3619).
 */
function leftOfFolding(step: number, lastFrequency: number, { most, mostUsually }: UnfoldedDelay): number {
  return Math.hypot(0.2 * (1 + step / 2400) * most, 0.7 * (mostUsually - most), 0.01 * step * foldedShare(step, lastFrequency));
}

/** A larger offset is taken out and the rest measured again, so that both stretches hold the same weather · s. */
const largeOffset = 1800;
/** An interval wider than the search, three hours either way, tells nothing · s. */
const uselessHalf = 10_800;
const windowDays = 10;
const dayMs = 86400000;
const fewestWindows = 4;

/**
 * The offset between two loggers' clocks from their barometers: air pressure passes through walls within a second.
 *
 * Daily cycles are taken out first, since the sensors' own temperature would shift them. Expect ±10–30 s in 10 to 30 days of 5-minute readings,
 * more in calm weather, ±6 minutes from hourly readings; whatever it is, the interval says it.
 * Only the difference can be known: which of the two is wrong, the tide may tell (see solarCheck).
 *
 * @param a, b station pressure of two places · hPa · flags are respected
 * @returns    see ClockOffset, frozen; null when fewer than six stretches of two whole days are shared, when no weather in common
 *             is found that is faster than a day, or when the pressure is written too coarsely for it
 * @example clockOffset(inside, outside)?.offset.value // −115: inside is 115 s behind
 * @source own method, chosen by simulation; held by reference vectors
 */
export function clockOffset(a: Series, b: Series): ClockOffset | null {
  let shifted = 0;
  let stretches: readonly (PressureStretch | null)[] = [];
  let found: StretchOffset | null = null;
  let stepSeconds = 0;
  let start = 0;
  let folding: Folding | null = null;
  let shown: number | null = 1;
  for (let again = 0; again < 3; again++) {
    // Moved by whole steps, so that the grid's columns hold the same readings as before.
    if (found !== null) shifted += Math.round(found.delay / stepSeconds) * stepSeconds;
    const plain = barometerPair(b, { ...a, start: a.start + 1000 * shifted });
    if (plain === null || isTooCoarse(a, b, plain)) return null;
    stepSeconds = plain.stepSeconds;
    start = plain.start;
    stretches = pressureStretches(plain);
    const pair = withoutLeakThatMatters(plain, stretches);
    if (pair !== plain) stretches = pressureStretches(pair);
    // Two loggers of one step, one reading each; where one of them is quicker, its mean over the step folds less.
    const isAlike = niceStep(a.seconds) === stepSeconds && niceStep(b.seconds) === stepSeconds;
    folding = isAlike ? { step: stepSeconds, share: (last) => foldedShare(stepSeconds, last) } : null;
    shown = sharedShown(pair, stretches);
    if (shown === null) return null;
    found = stretchOffset(stretches, folding, shown);
    if (found === null) return null;
    if (Math.abs(found.delay) <= largeOffset) break;
  }
  if (found === null) return null;
  const windows = windowsOf(stretches, start, shifted, folding, shown ?? 1);
  // A clock that wanders by more than this against the other folds now one way and now the other.
  const free = wanders(windows, -(found.delay + shifted), stepSeconds / 4) ? null : found.free;
  const own = found.standardError * (free?.slope ?? 1);
  const folded = free === null ? foldedError(stepSeconds, found.lastFrequency) : leftOfFolding(stepSeconds, found.lastFrequency, free);
  const value = -((free ?? found).delay + shifted) + 0;
  const standardError = Math.hypot(own, folded);
  // Only the own error is told by few terms (Welch and Satterthwaite, from memory); a folding that was not taken off is told by none.
  const freedom = free !== null && folded > 0 ? found.terms * (standardError / own) ** 4 : found.terms;
  const half = tQuantile(0.975, freedom) * standardError;
  if (half > uselessHalf) return null;
  return Object.freeze({
    a: a.place,
    b: b.place,
    offset: estimate({ value, standardError, low: value - half, high: value + half, unit: "s" }),
    drift: driftOf(windows, value),
    windows,
    stretches: found.used,
    lastFrequency: found.lastFrequency,
    stepSeconds,
  });
}

/** A part of the record tells how smooth its air is: so many stretches. */
const fewStretches = 60;

function someOf({ x, stepSeconds }: BarometerPair): number {
  return Math.max(1, Math.floor((x.length * stepSeconds) / 86400 / fewStretches));
}

/** A leak that moves the offset by more than this share of its error matters. */
const leakShare = 0.5;

/** The pair with its leak put back (BarometerPair.leak) where that draws the offset to none, by up to 80 s in smooth air; else itself. */
function withoutLeakThatMatters(pair: BarometerPair, stretches: readonly (PressureStretch | null)[]): BarometerPair {
  const every = someOf(pair);
  const whole = withoutLeak(pair);
  const plain = stretchOffset(stretches.map((s, k) => (k % every === 0 ? s : null)));
  const restored = stretchOffset(pressureStretches(whole, every));
  // What has nothing in common without the leak has the leak in common alone.
  const isNeeded = plain !== null && (restored === null || Math.abs(plain.delay - restored.delay) > leakShare * plain.standardError);
  return isNeeded ? whole : pair;
}

/** The share is told by moving one trace by at least so much · s. */
const movedBy = 600;
/** A share this near to 1 is 1: rough air. Below the least, next to nothing of a delay is seen. */
const nearWhole = 0.005;
const leastShown = 0.9;

/** The share of a delay that the phases show; null where it is too little. */
function sharedShown(pair: BarometerPair, stretches: readonly (PressureStretch | null)[]): number | null {
  const steps = Math.ceil(movedBy / pair.stepSeconds);
  const x = new Float64Array(pair.x.length).fill(Number.NaN);
  x.set(pair.x.subarray(steps));
  const share = shownShare(stretches, pressureStretches({ ...pair, x }, someOf(pair)), steps * pair.stepSeconds);
  if (share === null) return 1;
  return Math.abs(share - 1) < nearWhole ? 1 : share < leastShown ? null : share;
}

/** Rounding beyond this share of the departures' spread turns them into stairs whose treads look like a delay. */
const coarseShare = 0.5;

/**
 * Whether the loggers write their pressure too coarsely for the weather they saw: in the tropics at 1 hPa or 1 mmHg the stairs of the
 * daily tide gave offsets of 10 to 100 min between clocks that agreed (seeds 1040–1047).
 */
function isTooCoarse(a: Series, b: Series, { x, y }: BarometerPair): boolean {
  const step = Math.max(readingStep(a.values), readingStep(b.values));
  return step > coarseShare * Math.min(meanAndSpread(x).spread, meanAndSpread(y).spread);
}

/** Offsets of whole windows of ten days. */
function windowsOf(stretches: readonly (PressureStretch | null)[], start: number, shifted: number, folding: Folding | null, shown: number): readonly OffsetWindow[] {
  const windows: OffsetWindow[] = [];
  for (let day = 0; day + windowDays - 1 <= stretches.length; day += windowDays) {
    // Nine stretches of two days, each begun a day after the last, cover ten days.
    const found = stretchOffset(stretches.slice(day, day + windowDays - 1), folding, shown);
    if (found === null) continue;
    const from = start + day * dayMs;
    windows.push(Object.freeze({ from, to: from + windowDays * dayMs, seconds: -((found.free ?? found).delay + shifted), standardError: found.standardError * (found.free?.slope ?? 1) }));
  }
  return Object.freeze(windows);
}

/** Whether the windows' offsets, those within half an hour of the whole record's, drift by more than so many seconds over the record. */
function wanders(windows: readonly OffsetWindow[], usual: number, most: number): boolean {
  const drift = driftOf(windows, usual);
  if (drift !== null) return Math.abs(drift.value) * ((windows[windows.length - 1].from - windows[0].from) / dayMs + windowDays) > most;
  const near = windows.map(({ seconds }) => seconds).filter((s) => Math.abs(s - usual) < largeOffset);
  return near.length > 1 && Math.max(...near) - Math.min(...near) > most;
}

/** Slope of the windows' offsets, those within half an hour of the whole record's · s d-1; null under four. */
function driftOf(windows: readonly OffsetWindow[], usual: number): Estimate | null {
  const near = windows.filter(({ seconds }) => Math.abs(seconds - usual) < largeOffset);
  if (near.length < fewestWindows) return null;
  const days = near.map(({ from }) => from / dayMs);
  const middle = mean(days);
  const line = leastSquares([days.map(() => 1), days.map((day) => day - middle)], near.map(({ seconds }) => seconds));
  const [value, standardError] = [line.coefficients[1], line.standardErrors[1]];
  const half = tQuantile(0.975, near.length - 2) * standardError;
  return estimate({ value, standardError, low: value - half, high: value + half, unit: "s d-1" });
}
