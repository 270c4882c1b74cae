import { niceStep } from "../../grid/step.js";
import { leftOut } from "../../record/flag.js";
import type { Series } from "../../record/series.js";

/** Where even steps begin, how long they are and how many there are. */
export interface StepFrame {
  /** Epoch ms, UTC. */
  readonly start: number;
  readonly stepSeconds: number;
  readonly length: number;
}

/**
 * The frame on which `regularGrid` lays these series: from the first to the last reading of all, aligned to 00 UTC.
 *
 * @param all  series with at least one reading among them
 * @param step s; default the usual step of the densest
 */
export function stepFrame(all: readonly Series[], step?: number): StepFrame {
  let [first, last] = [Infinity, -Infinity];
  for (const { start, seconds } of all) {
    if (seconds.length === 0) continue;
    first = Math.min(first, start + 1000 * seconds[0]);
    last = Math.max(last, start + 1000 * seconds[seconds.length - 1]);
  }
  const stepSeconds = step ?? Math.min(...all.map((s) => niceStep(s.seconds)).filter((s) => s > 0), 86400);
  const start = Math.floor(first / (1000 * stepSeconds)) * 1000 * stepSeconds;
  return { start, stepSeconds, length: Math.floor((last - start) / (1000 * stepSeconds)) + 1 };
}

/**
 * The mean of the sound readings in each step, or the mean of their instants: what `regularGrid` lays, without the counts, flags and bridges that
 * it carries besides, which would be a gigabyte for the six columns of seven years of minutes.
 *
 * @param series any
 * @param frame  from stepFrame
 * @param of     `values`, unit of the series, or `instants`, seconds since the frame's start
 * @returns      [length] · NaN where there is no sound reading
 */
export function stepMeans(series: Series, { start, stepSeconds, length }: StepFrame, of: "values" | "instants"): Float64Array {
  const { seconds, values, flags } = series;
  const sums: Float64Array = new Float64Array(length);
  const counts: Uint32Array = new Uint32Array(length);
  const shift = (series.start - start) / 1000;
  const isValue = of === "values";
  for (let i = 0; i < seconds.length; i++) {
    const v = values[i];
    if (Number.isNaN(v) || (flags[i] & leftOut) !== 0) continue;
    const t = shift + seconds[i];
    const k = Math.floor(t / stepSeconds);
    sums[k] += isValue ? v : t;
    counts[k]++;
  }
  for (let k = 0; k < length; k++) sums[k] = counts[k] > 0 ? sums[k] / counts[k] : Number.NaN;
  return sums;
}
