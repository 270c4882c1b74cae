import { mustSentence } from "../ground/complaint.js";
import { kthSmallest } from "../ground/selection.js";

/** Steps that divide an hour or a day, in seconds: what loggers use, and what hourly means can be made from. */
const evenSteps: readonly number[] = [
  1, 2, 5, 10, 15, 20, 30, 60, 120, 180, 240, 300, 360, 600, 720, 900, 1200, 1800, 3600, 7200, 10800, 14400, 21600, 28800, 43200, 86400,
];

/** How far apart two instants are; an infinite one is no instant. */
function apart(seconds: number): number {
  if (seconds === Infinity) throw new RangeError(mustSentence("medianStep", "seconds", "be finite", "a step of Infinity s"));
  return seconds;
}

/**
 * The usual step between readings: the median of the positive differences between neighbors.
 *
 * @param seconds instants · s · [n] · non-decreasing
 * @returns       s; 0 when there are fewer than two distinct instants
 * @throws RangeError when a step is infinite
 * @example medianStep(Float64Array.of(0, 300, 600, 4000)) // 300
 */
export function medianStep(seconds: Float64Array): number {
  // A step that more than half of all share is the median, and in a logger's record a middle one is nearly always such a step.
  let guess = 0;
  for (let i = Math.max(1, seconds.length >> 1); i < seconds.length && guess === 0; i++) guess = Math.max(0, apart(seconds[i] - seconds[i - 1]));
  let n = 0;
  let held = 0;
  for (let i = 1, before = seconds[0]; i < seconds.length; i++) {
    const d = seconds[i] - before;
    before = seconds[i];
    if (!(d > 0)) continue;
    n++;
    if (d === guess) held++;
    else apart(d);
  }
  if (n === 0) return 0;
  return 2 * held > n ? guess : middleStep(seconds, n);
}

/** More distinct steps than this are not counted but selected from. */
const mostDistinct = 4096;

/** The median of the n positive differences: counted step by step while few are distinct, as those of a wandering clock in whole seconds are. */
function middleStep(seconds: Float64Array, n: number): number {
  const counts = new Map<number, number>();
  for (let i = 1; i < seconds.length && counts.size <= mostDistinct; i++) {
    const d = seconds[i] - seconds[i - 1];
    if (d > 0) counts.set(d, (counts.get(d) ?? 0) + 1);
  }
  if (counts.size <= mostDistinct) {
    let below = 0;
    for (const [step, count] of [...counts].sort(([a], [b]) => a - b)) {
      below += count;
      if (below > n >> 1) return step;
    }
  }
  const steps: Float64Array = new Float64Array(n);
  for (let i = 1, k = 0; i < seconds.length; i++) {
    const d = seconds[i] - seconds[i - 1];
    if (d > 0) steps[k++] = d;
  }
  return kthSmallest(steps, n >> 1);
}

/**
 * The usual step, rounded to the nearest step that divides an hour or a day; a step within 5 % above an even one is read as that one.
 *
 * A logger that writes every 301 s is a 5-minute logger whose clock wanders; one that writes every 7 minutes is laid on 10.
 *
 * @param seconds instants · s · [n] · non-decreasing
 * @returns       s; 0 when there are fewer than two distinct instants
 * @example niceStep(Float64Array.of(0, 301, 602, 903)) // 300
 */
export function niceStep(seconds: Float64Array): number {
  const usual = medianStep(seconds);
  if (usual === 0) return 0;
  return evenSteps.find((step) => usual <= 1.05 * step) ?? 86400;
}
