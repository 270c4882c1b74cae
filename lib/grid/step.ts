/** Steps that divide an hour or a day, in seconds: what loggers use, and what hourly means can be made from. */
const evenSteps: readonly number[] = [
  1, 2, 5, 10, 15, 20, 30, 60, 120, 180, 240, 300, 360, 600, 720, 900, 1200, 1800, 3600, 7200, 10800, 14400, 21600, 28800, 43200, 86400,
];

/**
 * The usual step between readings: the median of the positive differences between neighbors.
 *
 * @param seconds instants · s · [n] · non-decreasing
 * @returns       s; 0 when there are fewer than two distinct instants
 * @example medianStep(Float64Array.of(0, 300, 600, 4000)) // 300
 */
export function medianStep(seconds: Float64Array): number {
  const steps: Float64Array = new Float64Array(Math.max(0, seconds.length - 1));
  let n = 0;
  for (let i = 1; i < seconds.length; i++) {
    const d = seconds[i] - seconds[i - 1];
    if (d > 0) steps[n++] = d;
  }
  if (n === 0) return 0;
  return steps.subarray(0, n).sort()[n >> 1];
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
