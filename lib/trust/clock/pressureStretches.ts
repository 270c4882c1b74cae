import { fourierPlan } from "../../cycles/spectrum/fourier.js";
import { mean } from "../../ground/summary.js";
import type { BarometerPair } from "./barometerPair.js";

/** Transforms of one stretch of two days of both barometers. */
export interface PressureStretch {
  /** Days from the pair's start to the stretch's beginning. */
  readonly day: number;
  /** Mean of the pair's phases · s. */
  readonly phase: number;
  /** Samples in the stretch. */
  readonly length: number;
  /** Transforms as pairs re, im of bins 0…⌊length/2⌋. */
  readonly x: Float64Array;
  readonly y: Float64Array;
}

/** Length of a stretch and distance between their beginnings · d. */
const lengthDays = 2;
const hopDays = 1;

/**
 * The record cut into stretches of two days, half overlapping, each without mean and slope, under a Hann window, transformed.
 *
 * @param pair  from barometerPair
 * @param every only the first of so many stretches is transformed
 * @returns     one entry a stretch in time order; null where a longer gap lies in it, or where it was not asked
 */
export function pressureStretches({ x, y, phases, stepSeconds }: BarometerPair, every = 1): readonly (PressureStretch | null)[] {
  const length = Math.round((lengthDays * 86400) / stepSeconds);
  const hop = Math.round((hopDays * 86400) / stepSeconds);
  const found: (PressureStretch | null)[] = [];
  const plan = fourierPlan(length);
  const window = hann(length);
  const work: Float64Array = new Float64Array(2 * length);
  // A copy of the bins alone: the transform's own answer holds twice their memory.
  const transform = (v: Float64Array): Float64Array => plan.forward(windowed(v, window), work).slice();
  for (let s = 0; s + length <= x.length; s += hop) {
    const a = x.subarray(s, s + length);
    const b = y.subarray(s, s + length);
    const isWhole = found.length % every === 0 && isPresent(a) && isPresent(b);
    const phase = isWhole ? mean(phases.subarray(s, s + length)) : Number.NaN;
    found.push(isWhole ? { day: (s * stepSeconds) / 86400, phase, length, x: transform(a), y: transform(b) } : null);
  }
  return found;
}

function isPresent(v: Float64Array): boolean {
  for (let j = 0; j < v.length; j++) if (Number.isNaN(v[j])) return false;
  return true;
}

/** ½ − ½ cos(2πj/length). */
function hann(length: number): Float64Array {
  const window: Float64Array = new Float64Array(length);
  for (let j = 0; j < length; j++) window[j] = 0.5 - 0.5 * Math.cos((2 * Math.PI * j) / length);
  return window;
}

/** Less mean and slope, times a window. */
function windowed(v: Float64Array, window: Float64Array): Float64Array {
  const n = v.length;
  const middle = (n - 1) / 2;
  let total = 0;
  for (let j = 0; j < n; j++) total += v[j];
  const level = total / n;
  let product = 0;
  let square = 0;
  for (let j = 0; j < n; j++) {
    product += (j - middle) * (v[j] - level);
    square += (j - middle) ** 2;
  }
  const slope = product / square;
  const out: Float64Array = new Float64Array(n);
  for (let j = 0; j < n; j++) out[j] = (v[j] - level - slope * (j - middle)) * window[j];
  return out;
}
