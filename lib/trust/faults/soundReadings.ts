import { flagBit } from "../../record/flag.js";
import type { Series } from "../../record/series.js";

/** The readings of a series that are there and unspoiled. */
export interface SoundReadings {
  /** Indices in the series · increasing · [n]; null where nothing is left out, so that each reading has its own. */
  readonly at: Uint32Array | null;
  /** Values · unit of the series · [n]. The series' own array where nothing is left out: never write to it. */
  readonly x: Float64Array;
  /** Seconds since the series' start · [n]. */
  readonly t: Float64Array;
}

/**
 * Indices of the readings that are present and carry none of the given flags.
 *
 * @param series any
 * @param except bits of `flagBit`; default range
 * @returns      increasing · [≤ n]
 */
export function soundIndices({ values, flags }: Series, except: number = flagBit.range): Uint32Array {
  const kept: Uint32Array = new Uint32Array(values.length);
  let n = 0;
  for (let i = 0; i < values.length; i++) if (!Number.isNaN(values[i]) && (flags[i] & except) === 0) kept[n++] = i;
  return kept.subarray(0, n);
}

/**
 * The readings that are present and carry none of the given flags, as arrays of their own.
 *
 * @param series any
 * @param except bits of `flagBit`; default range
 * @returns      see SoundReadings
 */
export function soundReadings(series: Series, except: number = flagBit.range): SoundReadings {
  const { values, seconds, flags } = series;
  let whole = 0;
  while (whole < values.length && !Number.isNaN(values[whole]) && (flags[whole] & except) === 0) whole++;
  if (whole === values.length) return { at: null, x: values, t: seconds };
  const at = soundIndices(series, except);
  const x: Float64Array = new Float64Array(at.length);
  const t: Float64Array = new Float64Array(at.length);
  for (let k = 0; k < at.length; k++) {
    x[k] = values[at[k]];
    t[k] = seconds[at[k]];
  }
  return { at, x, t };
}
