import { medianStep } from "../../grid/step.js";
import { leftOut } from "../../record/flag.js";
import type { Series } from "../../record/series.js";

/** Readings that take part in a fit: instants in days since a UTC midnight, and values. */
export interface UsableReadings {
  /** UTC midnight at or before the first usable reading · epoch ms. */
  readonly midnight: number;
  /** Seconds since `midnight` · [n] · non-decreasing. */
  readonly seconds: Float64Array;
  /** Unit of the series · [n] · finite. */
  readonly values: Float64Array;
  /** Readings of the series that are not here: missing or flagged. */
  readonly leftOut: number;
  /** Usual spacing of the readings · s; 0 with fewer than two. */
  readonly spacing: number;
}

const dayMs = 86_400_000;

/**
 * The readings of a series that can be fitted: finite and not flagged range, spike, stuck or swapped.
 *
 * @param series any quantity; not changed
 * @returns      see UsableReadings; empty when there are none
 * @example usableReadings(series({ times: [5.4e6, 9e6], values: [1000, NaN], quantity: "surface_air_pressure" })).leftOut // 1
 */
export function usableReadings(series: Series): UsableReadings {
  const { start, seconds, values, flags } = series;
  const n = seconds.length;
  const at: Float64Array = new Float64Array(n);
  const kept: Float64Array = new Float64Array(n);
  let m = 0;
  for (let i = 0; i < n; i++) {
    if (!Number.isFinite(values[i]) || (flags[i] & leftOut) !== 0) continue;
    at[m] = seconds[i];
    kept[m++] = values[i];
  }
  const midnight = m === 0 ? start : Math.floor((start + 1000 * at[0]) / dayMs) * dayMs;
  const shift = (start - midnight) / 1000;
  for (let i = 0; i < m; i++) at[i] += shift;
  const instants = at.subarray(0, m);
  return { midnight, seconds: instants, values: kept.subarray(0, m), leftOut: n - m, spacing: medianStep(instants) };
}

/**
 * Days that readings cover: their number times their usual spacing, never more than their span.
 *
 * @param readings in time order
 * @returns        d; 0 when there are none
 */
export function observedDays({ seconds, spacing }: UsableReadings): number {
  const n = seconds.length;
  return n === 0 ? 0 : Math.min(n * spacing, seconds[n - 1] - seconds[0] + spacing) / 86_400;
}
