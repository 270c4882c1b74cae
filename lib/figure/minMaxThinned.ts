import { mustSentence } from "../ground/complaint.js";

/** Instants and values of a line to draw; NaN parts it. */
export interface ThinLine {
  /** Seconds since the series' start. */
  readonly seconds: readonly number[];
  /** NaN where the line is broken. */
  readonly values: readonly number[];
}

/** What may be said of the thinning. */
export interface ThinOptions {
  /** Stretches of equal time, each of which keeps two readings at most · default 300. */
  readonly bins?: number;
  /** A hole longer than this breaks the line · s · default three times the usual step, or one bin where that is longer. */
  readonly longestHole?: number;
  /** Readings that do not count: a mask over the series' flags · default none. */
  readonly leftOut?: number;
}

/**
 * Thins a long series for a picture without losing an extreme: of each stretch of time the lowest and the highest reading stay, at
 * their own instants and in their own order.
 *
 * A series with no more readings than would be kept comes back whole. Missing and left-out readings break nothing by themselves, a hole does.
 *
 * @param series  seconds [n], values [n], flags [n]
 * @param options see ThinOptions
 * @returns       see ThinLine
 * @example minMaxThinned(pressure, { bins: 300 }).values.length <= 900 // true
 * @source min–max decimation, common practice, no source
 */
export function minMaxThinned(series: { readonly seconds: Float64Array; readonly values: Float64Array; readonly flags?: Uint16Array }, options: ThinOptions = {}): ThinLine {
  const { seconds, values, flags } = series;
  const { bins = 300, leftOut = 0 } = options;
  const isKept = (i: number): boolean => !Number.isNaN(values[i]) && (flags === undefined || (flags[i] & leftOut) === 0);
  let [first, last, count] = [-1, -1, 0];
  for (let i = 0; i < values.length; i++) {
    if (!isKept(i)) continue;
    if (first < 0) first = i;
    last = i;
    count++;
  }
  const out: { seconds: number[]; values: number[] } = { seconds: [], values: [] };
  if (first < 0) return out;
  const width = (seconds[last] - seconds[first]) / bins;
  const isWhole = count <= 2 * bins;
  const longest = options.longestHole ?? Math.max(3 * usualStep(seconds, first, last), isWhole ? 0 : width);
  let before = Number.NaN;
  const push = (i: number): void => {
    out.seconds.push(seconds[i]);
    out.values.push(values[i]);
  };
  const breakLine = (at: number): void => {
    out.seconds.push(at);
    out.values.push(Number.NaN);
  };
  let [low, high, bin] = [-1, -1, -1];
  const flush = (): void => {
    if (low < 0) return;
    push(Math.min(low, high));
    if (low !== high) push(Math.max(low, high));
    [low, high] = [-1, -1];
  };
  for (let i = first; i <= last; i++) {
    if (!isKept(i)) continue;
    const t = seconds[i];
    const own = isWhole ? i : Math.min(bins - 1, Math.floor((t - seconds[first]) / width));
    const isBroken = t - before > longest;
    if (own !== bin || isBroken) flush();
    if (isBroken) breakLine((before + t) / 2);
    bin = own;
    if (low < 0 || values[i] < values[low]) low = i;
    if (high < 0 || values[i] > values[high]) high = i;
    before = t;
  }
  flush();
  return out;
}

/** Median step of a thousand places spread over the series · s. */
function usualStep(seconds: Float64Array, first: number, last: number): number {
  const stride = Math.max(1, Math.floor((last - first) / 1000));
  const steps: number[] = [];
  for (let i = first + 1; i <= last; i += stride) steps.push(seconds[i] - seconds[i - 1]);
  return steps.sort((a, b) => a - b)[steps.length >> 1] ?? 0;
}

/**
 * Thins even steps to even steps: of each of `bins` equal stretches the lowest and the highest value, in the order in which they came,
 * at the stretch's first and third quarter. A value moves by less than three quarters of a stretch; nothing higher or lower is lost.
 *
 * @param values even steps · [n] · NaN is missing
 * @param bins   stretches
 * @throws RangeError when bins is no whole number from 1
 * @returns values  [n] as given when n ≤ 2·bins, else [2·bins] · NaN where a stretch is empty
 * @returns step    of the result, in steps of the argument
 * @returns first   place of its first value, in steps of the argument
 * @example evenMinMax(Float64Array.of(1, 5, 2, 3, 0, 4, 4, 9), 2).values // 1, 5, 0, 9
 * @source min–max decimation, common practice, no source
 */
export function evenMinMax(values: Float64Array, bins: number): { readonly values: Float64Array; readonly step: number; readonly first: number } {
  if (!(Number.isSafeInteger(bins) && bins >= 1)) throw new RangeError(mustSentence("evenMinMax", "bins", "be a whole number from 1", String(bins)));
  const n = values.length;
  if (n <= 2 * bins) return { values, step: 1, first: 0 };
  const out: Float64Array = new Float64Array(2 * bins).fill(Number.NaN);
  for (let b = 0; b < bins; b++) {
    let [low, high] = [-1, -1];
    for (let i = Math.floor((b * n) / bins); i < Math.floor(((b + 1) * n) / bins); i++) {
      if (Number.isNaN(values[i])) continue;
      if (low < 0 || values[i] < values[low]) low = i;
      if (high < 0 || values[i] > values[high]) high = i;
    }
    if (low < 0) continue;
    out[2 * b] = values[Math.min(low, high)];
    out[2 * b + 1] = values[Math.max(low, high)];
  }
  const step = n / bins / 2;
  return { values: out, step, first: step / 2 - 0.5 };
}
