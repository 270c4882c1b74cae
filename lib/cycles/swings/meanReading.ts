import { medianStep } from "../../grid/step.js";

/** Readings of one place and quantity; instants are start plus seconds. */
export interface Readings {
  /** Epoch ms, UTC. */
  readonly start: number;
  /** s · [n] · non-decreasing. */
  readonly seconds: ArrayLike<number>;
  /** House unit · [n] · NaN is missing. */
  readonly values: ArrayLike<number>;
}

/** The level at one instant, from readings alone. */
export interface MeanReading {
  readonly raw: number;
  /** The same readings less the tide at each. */
  readonly tideFree: number;
  /** Mean instant of the readings · s since the readings' start. */
  readonly seconds: number;
  /** Variance of the mean for readings with white noise of 1: Σ of squared weights. */
  readonly noiseFactor: number;
}

/** Reads levels out of readings without ever bridging a gap. */
export interface LevelReader {
  /** Usual step · s. */
  readonly step: number;
  /** First and last instant at which a level can be full · s. */
  readonly first: number;
  readonly last: number;
  /** Level at an instant; null beside a gap. */
  level(seconds: number): MeanReading | null;
  /** Level between readings, by a straight line where the step is longer than 15 min; null beside a gap. */
  between(seconds: number): MeanReading | null;
}

const windowSeconds = 900;
const nearSeconds = 1800;
/** Stamps wander by a second or so; this much beyond a limit is within it. */
const slack = 2;

/**
 * Prepares readings for levels: the mean of all within ±15 min at steps up to 15 min, else the one reading within ±30 min.
 *
 * @param readings time order · NaN is left out
 * @param tideAt   tide at an instant (epoch ms) · unit of the values
 * @returns        see LevelReader; null when there are fewer than two readings
 */
export function levelReader(readings: Readings, tideAt: (at: number) => number): LevelReader | null {
  const { seconds: allSeconds, values: allValues } = readings;
  const keptSeconds: Float64Array = new Float64Array(allValues.length);
  const keptValues: Float64Array = new Float64Array(allValues.length);
  let held = 0;
  for (let i = 0; i < allValues.length; i++) {
    if (Number.isNaN(allValues[i])) continue;
    keptSeconds[held] = allSeconds[i];
    keptValues[held++] = allValues[i];
  }
  const seconds: Float64Array = keptSeconds.subarray(0, held);
  const values: Float64Array = keptValues.subarray(0, held);
  const step = medianStep(seconds);
  if (step === 0) return null;
  const isFine = step <= windowSeconds + slack;
  const n = seconds.length;
  const longestGap = Math.max(2.5 * step, 600);

  /** First index at or after an instant. */
  const indexAt = (t: number): number => {
    let low = 0;
    let high = n;
    while (low < high) {
      const middle = (low + high) >> 1;
      if (seconds[middle] < t) low = middle + 1;
      else high = middle;
    }
    return low;
  };
  const weighted = (parts: readonly (readonly [index: number, weight: number])[]): MeanReading => {
    let raw = 0;
    let tide = 0;
    let at = 0;
    let noiseFactor = 0;
    for (const [i, weight] of parts) {
      raw += weight * values[i];
      tide += weight * tideAt(readings.start + 1000 * seconds[i]);
      at += weight * seconds[i];
      noiseFactor += weight * weight;
    }
    return { raw, tideFree: raw - tide, seconds: at, noiseFactor };
  };
  const meanAround = (t: number): MeanReading | null => {
    const from = indexAt(t - windowSeconds - slack);
    const to = indexAt(t + windowSeconds + slack);
    if (to === from) return null;
    for (let i = Math.max(1, indexAt(t - nearSeconds)); i < n && seconds[i - 1] < t + nearSeconds; i++) {
      if (seconds[i] - seconds[i - 1] > longestGap) return null;
    }
    return weighted(Array.from({ length: to - from }, (_, k) => [from + k, 1 / (to - from)] as const));
  };
  const nearest = (t: number): MeanReading | null => {
    const after = indexAt(t);
    const index = after === n || (after > 0 && t - seconds[after - 1] <= seconds[after] - t) ? after - 1 : after;
    return Math.abs(seconds[index] - t) <= nearSeconds + slack ? weighted([[index, 1]]) : null;
  };
  const between = (t: number): MeanReading | null => {
    if (isFine) return meanAround(t);
    const after = indexAt(t);
    if (after < n && seconds[after] - t <= slack) return weighted([[after, 1]]);
    if (after === 0 || after === n || seconds[after] - seconds[after - 1] > 1.5 * step) return null;
    const share = (t - seconds[after - 1]) / (seconds[after] - seconds[after - 1]);
    return weighted([[after - 1, 1 - share], [after, share]]);
  };
  const edge = isFine ? windowSeconds : 0;
  return Object.freeze({ step, first: seconds[0] + edge, last: seconds[n - 1] - edge, level: isFine ? meanAround : nearest, between });
}
