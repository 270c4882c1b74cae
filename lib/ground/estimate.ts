import { mustSentence, shown } from "./complaint.js";

/**
 * An inferred number with its interval.
 *
 * `low ≤ value ≤ high`; the interval is meant to hold the truth in `level` of repeated records.
 * `standardError` is in `unit` too. Unit strings are UDUNITS (`hPa`, `h`, `K`, `1`, `g m-3`).
 */
export interface Estimate {
  readonly value: number;
  readonly standardError: number;
  readonly low: number;
  readonly high: number;
  readonly level: number;
  readonly unit: string;
}

/**
 * Builds a frozen Estimate and holds the promise low ≤ value ≤ high.
 *
 * @param parts.value         the best value · `unit`
 * @param parts.standardError its standard error · `unit`
 * @param parts.low, high     ends of the interval · `unit`
 * @param parts.level         share of repeated records whose interval holds the truth, default 0.95
 * @param parts.unit          UDUNITS spelling
 * @returns                   the same numbers, frozen
 * @throws RangeError         when low ≤ value ≤ high does not hold (our own broken promise), the standard error is not 0 or more, or the
 *                            level does not lie between 0 and 1
 * @example estimate({ value: 1.1, standardError: 0.05, low: 1, high: 1.2, unit: "hPa" }).level // 0.95
 */
export function estimate(parts: {
  value: number;
  standardError: number;
  low: number;
  high: number;
  unit: string;
  level?: number;
}): Estimate {
  const { value, standardError, low, high, unit, level = 0.95 } = parts;
  if (!(low <= value && value <= high)) {
    throw new RangeError(`estimate: low, value, high must be in order (got ${low}, ${value}, ${high} ${unit})`);
  }
  if (!(standardError >= 0)) throw new RangeError(mustSentence("estimate", "standardError", "be at least 0", shown(standardError, unit)));
  if (!(level > 0 && level < 1)) throw new RangeError(mustSentence("estimate", "level", "be above 0 and below 1", shown(level)));
  return Object.freeze({ value, standardError, low, high, level, unit });
}
