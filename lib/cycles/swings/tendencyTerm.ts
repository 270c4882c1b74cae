/** A term for a 3-hour change, by its size without sign after rounding to 0.1 hPa. */
const sizes: readonly (readonly [upTo: number, adverb: string])[] = [
  [1.5, " slowly"],
  [3.5, ""],
  [6, " quickly"],
];

/**
 * A term for a pressure change in three hours.
 *
 * Classes hold for changes rounded to 0.1 hPa: below 0.1 steady, to 1.5 slowly, to 3.5 without an adverb, to 6.0 quickly, above very
 * rapidly. When the interval holds 0 nothing is said about a direction.
 *
 * @param change   hPa in 3 h · NaN gives 'no clear change'
 * @param interval ends of its interval · hPa · omit to classify the bare number
 * @returns        'steady', 'rising slowly', … or 'no clear change'
 * @example tendencyTerm(-1.55) // "falling"
 * @source common practice of one marine forecast service; read in two public copies of its glossary
 */
export function tendencyTerm(change: number, interval?: { readonly low: number; readonly high: number }): string {
  if (Number.isNaN(change)) return "no clear change";
  if (interval !== undefined && interval.low <= 0 && interval.high >= 0) return "no clear change";
  const tenths = Math.round(10 * Math.abs(change) + 1e-9) / 10;
  if (tenths < 0.1) return "steady";
  const adverb = sizes.find(([upTo]) => tenths <= upTo)?.[1] ?? " very rapidly";
  return `${change > 0 ? "rising" : "falling"}${adverb}`;
}
