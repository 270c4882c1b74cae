import { remembered } from "../../ground/remembered.js";
import type { Series } from "../../record/series.js";
import { readingStep } from "./readingStep.js";

/** Signs of a thermometer whose minus signs were lost. */
export interface FoldAtZero {
  /** Days on which the trace comes down to zero, none of which goes below. */
  readonly touches: number;
  /** Days of a mean below 6 °C, and how many of them are coldest by day and warmest by night. */
  readonly coldDays: number;
  readonly inverted: number;
  /** The first and the last of the days that come down to zero · epoch ms. */
  readonly from: number;
  readonly to: number;
}

const dayMs = 86_400_000;
const hourMs = 3_600_000;
/** Below this mean a day may be one of frost that lost its sign · °C. */
const coldMean = 6;
/** Hour of the sun at which a day is warmest. */
const warmest = 14.5;
const fewestReadings = 20;
const fewestHours = 18;
/** Values in the first degree above zero, against those in the second: a trace that goes through zero has as many; one that turns there few, one that is held there many. */
const likeAbove = { low: 0.4, high: 2.2 };
/** Values of zero itself among those of the first degree: a value cut at zero, or ice that melts, has many. */
const mostZeros = 0.4;
/** The fewer the touches, the more inverted days are asked for; and where they are not many, twice the share that warmer days have. */
const signs = [
  { touches: 3, inverted: 0.6, than: 0 },
  { touches: 6, inverted: 0.35, than: 0 },
  { touches: 20, inverted: 0.18, than: 2 },
] as const;
const fewestWarm = 10;
const fewestCold = 5;

const once = remembered<Series, FoldAtZero | null>();

/**
 * Whether a thermometer's values below zero were logged without their minus sign.
 *
 * Three signs together. No value is below zero. Values just above zero are as many as those a degree higher, as where a trace goes
 * through and not where it turns or is held. And on many of the cold days the day's round stands on its head: coldest by day.
 *
 * @param series     air temperature · °C
 * @param aheadHours of the sun's or the standard time's day before UTC · h
 * @returns          see FoldAtZero; null where one of the signs is missing
 * @source own method and limits, see README of this room
 */
export function foldAtZero(series: Series, aheadHours: number): FoldAtZero | null {
  return once(series, String(aheadHours), () => foldOf(series, aheadHours));
}

function foldOf({ start, seconds, values }: Series, aheadHours: number): FoldAtZero | null {
  let [first, second, zeros] = [0, 0, 0];
  for (const v of values) {
    if (v < 0) return null;
    if (v < 1) first++;
    else if (v < 2) second++;
    if (v === 0) zeros++;
  }
  if (first + second < fewestReadings) return null;
  const digit = readingStep(values);
  // Of whole degrees, zero has half a degree's share on either side, and loses none of it by the fold.
  const isCoarse = digit > 0.4;
  const share = isCoarse ? (2 * first) / Math.max(1, second) : first / Math.max(1, second);
  if (share < likeAbove.low || share > likeAbove.high || (!isCoarse && zeros > mostZeros * first)) return null;
  const offset = aheadHours * hourMs;
  let [touches, coldDays, inverted, warmDays, warmInverted, from, to] = [0, 0, 0, 0, 0, Number.NaN, Number.NaN];
  for (let i = 0; i < values.length; ) {
    const day = Math.floor((start + 1000 * seconds[i] + offset) / dayMs);
    const sums = new Float64Array(24);
    const counts = new Uint32Array(24);
    let touch = Number.NaN;
    for (; i < values.length && Math.floor((start + 1000 * seconds[i] + offset) / dayMs) === day; i++) {
      if (Number.isNaN(values[i])) continue;
      const at = start + 1000 * seconds[i];
      const hour = Math.floor((((at + offset) % dayMs) + dayMs) % dayMs / hourMs);
      sums[hour] += values[i];
      counts[hour]++;
      if (values[i] < 1) touch = at;
    }
    if (!Number.isNaN(touch)) {
      touches++;
      if (Number.isNaN(from)) from = touch;
      to = touch;
    }
    const round = roundOf(sums, counts);
    if (round === null) continue;
    if (round.mean >= coldMean) {
      warmDays++;
      if (round.warmth < 0) warmInverted++;
      continue;
    }
    coldDays++;
    if (round.warmth < 0) inverted++;
  }
  const isMore = (than: number): boolean => than === 0 || (warmDays >= fewestWarm && inverted * warmDays >= than * warmInverted * coldDays);
  const isTold = coldDays >= fewestCold && signs.some((s) => touches >= s.touches && inverted >= s.inverted * coldDays && isMore(s.than));
  return isTold ? Object.freeze({ touches, coldDays, inverted, from, to }) : null;
}

/** Mean of a day, and how far it is warmer in the afternoon than in the night; null with few hours. */
function roundOf(sums: Float64Array, counts: Uint32Array): { mean: number; warmth: number } | null {
  const present = [...counts.keys()].filter((h) => counts[h] > 0);
  if (present.length < fewestHours) return null;
  const mean = present.reduce((sum, h) => sum + sums[h] / counts[h], 0) / present.length;
  return { mean, warmth: present.reduce((sum, h) => sum + (sums[h] / counts[h] - mean) * Math.cos((2 * Math.PI * (h + 0.5 - warmest)) / 24), 0) };
}
