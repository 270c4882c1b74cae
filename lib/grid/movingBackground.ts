import { mustSentence, requireReadings, requireWithin } from "../ground/complaint.js";

/** How a moving background is taken. */
export interface BackgroundOptions {
  /**
   * What happens where the window reaches past an end of the record. `cut` (default) keeps what lies inside, so that the mean is
   * over fewer steps; `shift` moves the whole window inside, so that a window of whole days is one everywhere.
   */
  readonly ends?: "cut" | "shift";
  /** Least share of the window that must be present, default 0: one value is enough. */
  readonly least?: number;
}

/**
 * The slow background of even steps: the mean of what is present in a window about each of them.
 *
 * For taking out season and drift where no line or polynomial fits. A window of whole days lets nothing of the daily cycle
 * through; a wave comes out turned round where it is a little shorter than the window (down to −0.22), so use the filters of
 * `passFilter` where that matters. Missing steps get a background too.
 *
 * @param values        any unit · [n] · NaN is missing
 * @param width         steps in the window, at least 1 · an odd count reaches as far back as forward, an even one a step further back
 * @param options.ends  see BackgroundOptions
 * @param options.least see BackgroundOptions
 * @returns             unit of values · [n] · NaN where too little is present
 * @throws TypeError    when ends is neither
 * @throws RangeError   when width is not a whole number above 0, least is outside 0…1, or a value is infinite or beyond ±1e60
 * @example movingBackground([1, 2, NaN, 6], 3) // 1.5, 1.5, 4, 6
 * @source arithmetic mean by running sums
 */
export function movingBackground(values: ArrayLike<number>, width: number, options: BackgroundOptions = {}): Float64Array {
  const { ends = "cut", least = 0 } = options;
  const n = values.length;
  if (!(Number.isInteger(width) && width >= 1)) throw new RangeError(mustSentence("movingBackground", "width", "be a whole number of steps above 0", String(width)));
  if (ends !== "cut" && ends !== "shift") throw new TypeError(mustSentence("movingBackground", "ends", 'be "cut" or "shift"', String(ends)));
  requireWithin("movingBackground", "least", least, 0, 1);
  requireReadings("movingBackground", "values", values);
  // Sums of departures from one value stay small, whatever the level and however long the record.
  let level = 0;
  for (let i = 0; i < n; i++) {
    if (Number.isNaN(values[i])) continue;
    level = values[i];
    break;
  }
  const sums = new Float64Array(n + 1);
  const counts = new Float64Array(n + 1);
  for (let i = 0; i < n; i++) {
    const isPresent = !Number.isNaN(values[i]);
    sums[i + 1] = sums[i] + (isPresent ? values[i] - level : 0);
    counts[i + 1] = counts[i] + (isPresent ? 1 : 0);
  }
  const back = width >> 1;
  const out: Float64Array = new Float64Array(n);
  for (let i = 0; i < n; i++) {
    let from = i - back;
    let to = from + width;
    if (ends === "shift") {
      const move = from < 0 ? -from : Math.min(0, n - to);
      from += move;
      to += move;
    }
    from = Math.max(0, from);
    to = Math.min(n, to);
    const count = counts[to] - counts[from];
    // Of nothing the mean is 0/0, NaN.
    out[i] = count >= least * width ? level + (sums[to] - sums[from]) / count : Number.NaN;
  }
  return out;
}
