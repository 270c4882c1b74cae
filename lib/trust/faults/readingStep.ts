import { medianOf } from "./orderStatistics.js";

/** Of longer series so many values, evenly drawn, are looked at. */
const mostValues = 50_000;

/**
 * The least step in which a logger writes its values, as its values betray it.
 *
 * The median distance between neighboring distinct values: the printed resolution where values are many (0.1 °C, 1 hPa,
 * 0.01 inHg turned into 0.34 hPa), and close to nothing where values carry all their digits.
 *
 * @param values any unit · [n] · NaN is left out
 * @returns      same unit; 0 under two distinct values
 * @example readingStep(Float64Array.of(20.1, 20.3, 20.2, 20.2)) // 0.1
 */
export function readingStep(values: Float64Array): number {
  const stride = Math.max(1, Math.ceil(values.length / mostValues));
  const drawn: Float64Array = new Float64Array(Math.ceil(values.length / stride));
  let n = 0;
  for (let i = 0; i < values.length; i += stride) if (!Number.isNaN(values[i])) drawn[n++] = values[i];
  const sorted = drawn.subarray(0, n).sort();
  // The distances are written over the values they come from, which are read before.
  let count = 0;
  for (let i = 1, before = sorted[0]; i < n; i++) {
    const here = sorted[i];
    const d = here - before;
    before = here;
    // Sums of binary fractions that print alike differ in the last digits: they are one value.
    if (d > 1e-9 * (1 + Math.abs(here))) sorted[count++] = d;
  }
  return count === 0 ? 0 : medianOf(sorted.subarray(0, count));
}
