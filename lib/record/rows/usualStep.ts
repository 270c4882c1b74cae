/** Most steps that are looked at for the median. */
const most = 4097;

/**
 * The usual step between rows in the order of the log: the median of the steps forward, of an even sample in a long log.
 *
 * @param times ms · in the order of the log, or against it
 * @returns     ms; 0 when there is no step
 */
export function usualStep(times: Float64Array): number {
  const stride = Math.max(1, Math.floor(times.length / most));
  const steps: number[] = [];
  for (let i = 1; i < times.length; i += stride) {
    const step = Math.abs(times[i] - times[i - 1]);
    if (step > 0) steps.push(step);
  }
  steps.sort((a, b) => a - b);
  return steps[steps.length >> 1] ?? 0;
}

/** Whether a log runs from its newest row to its oldest: two of three of its steps go back, and more than rows in disorder would show. */
export function isNewestFirst(times: Float64Array): boolean {
  let back = 0;
  let forward = 0;
  for (let i = 1; i < times.length; i++) {
    if (times[i] < times[i - 1]) back++;
    else if (times[i] > times[i - 1]) forward++;
  }
  return back >= 2 && back > 2 * forward;
}
