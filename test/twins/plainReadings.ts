import { median } from "../../lib/ground/summary.js";
import { flagBit } from "../../lib/record/flag.js";
import type { Series } from "../../lib/record/series.js";

/**
 * Indices of the readings that are present and carry none of the given flags.
 *
 * @param series any
 * @param except bits of `flagBit`; default range
 * @returns      increasing · [≤ n]
 */
export function plainSoundIndices(series: Series, except: number = flagBit.range): Uint32Array {
  const kept: Uint32Array = new Uint32Array(series.values.length);
  let n = 0;
  for (let i = 0; i < series.values.length; i++) {
    if (!Number.isNaN(series.values[i]) && (series.flags[i] & except) === 0) kept[n++] = i;
  }
  return kept.slice(0, n);
}

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
 * @example plainReadingStep(Float64Array.of(20.1, 20.3, 20.2, 20.2)) // 0.1
 */
export function plainReadingStep(values: Float64Array): number {
  const stride = Math.ceil(values.length / mostValues);
  const sorted = values.filter((v, i) => i % stride === 0 && !Number.isNaN(v)).sort();
  const distances: number[] = [];
  for (let i = 1; i < sorted.length; i++) {
    const d = sorted[i] - sorted[i - 1];
    // Sums of binary fractions that print alike differ in the last digits: they are one value.
    if (d > 1e-9 * (1 + Math.abs(sorted[i]))) distances.push(d);
  }
  return distances.length === 0 ? 0 : median(distances);
}
