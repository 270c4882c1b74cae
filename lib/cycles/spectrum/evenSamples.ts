import { mustSentence, requireReadings, requireWithin, shown } from "../../ground/complaint.js";
import { detrend } from "../../grid/detrend.js";

/** What is taken out of the values before a transform: nothing, their mean, or a straight line. */
export type Removed = "nothing" | "mean" | "line";

const removals: readonly Removed[] = Object.freeze(["nothing", "mean", "line"] as const);

/** Steps of an even record: a nanosecond to some thousand years · s. */
export const shortestStep: number = 1e-9;
export const longestStep: number = 1e12;

/**
 * Refuses a value that is missing, infinite or beyond ±1e60.
 *
 * @throws RangeError that names the remedy: no spectrum here guesses what was not logged
 */
export function requireNoGap(at: string, values: ArrayLike<number>): void {
  for (let i = 0; i < values.length; i++) {
    const v = values[i] as number;
    if (Number.isFinite(v)) continue;
    const remedy = "bridge short gaps, or use lombScargle for a record with gaps";
    throw new RangeError(mustSentence(at, "values", "be finite and without gaps", `${v} at index ${i}`, remedy));
  }
  requireReadings(at, "values", values);
}

/**
 * Checks an even record for a spectrum: long enough, a positive step, no gap.
 *
 * @throws RangeError when one of them fails
 */
export function requireEven(at: string, values: ArrayLike<number>, stepSeconds: number, least: number): void {
  requireWithin(at, "stepSeconds", stepSeconds, shortestStep, longestStep, "s");
  const n = values.length;
  if (n < least) throw new RangeError(mustSentence(at, "values", `hold at least ${least} steps`, String(n), "log longer"));
  requireNoGap(at, values);
}

/**
 * A copy of a stretch of values less its mean or its straight line.
 *
 * @param values  any unit · even steps · without gaps
 * @param removed what is taken out
 * @param at      name of the caller, for the message
 * @throws TypeError when `removed` is not one of the three words
 */
export function withoutLevel(values: ArrayLike<number>, removed: Removed, at: string): Float64Array {
  if (!removals.includes(removed)) throw new TypeError(mustSentence(at, "removed", `be one of ${removals.join(", ")}`, shown(removed)));
  const out: Float64Array = Float64Array.from(values);
  if (removed === "nothing") return out;
  if (removed === "line") return detrend(out, Float64Array.from(out.keys()), { degree: 1 }).values;
  // The first value comes off before summing: a mean of 860.0 hPa readings keeps its digits, a constant becomes exactly 0.
  const first = out[0];
  let sum = 0;
  for (const v of out) sum += v - first;
  const mean = first + sum / out.length;
  for (let i = 0; i < out.length; i++) out[i] -= mean;
  return out;
}

/**
 * Frequencies of bins 0…⌊n/2⌋ of n even steps.
 *
 * @param length      steps n
 * @param stepSeconds s
 * @returns           cycles per day · [⌊n/2⌋ + 1]
 * @example binFrequencies(48, 3600)[2] // 1 (cycle per day)
 */
export function binFrequencies(length: number, stepSeconds: number): Float64Array {
  const days = (length * stepSeconds) / 86400;
  return Float64Array.from({ length: Math.floor(length / 2) + 1 }, (_, k) => k / days);
}
