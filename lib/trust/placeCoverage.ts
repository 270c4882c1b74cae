import { medianStep } from "../grid/step.js";
import type { PlaceRecord } from "../record/airRecord.js";
import { leftOut } from "../record/flag.js";
import { type Quantity, quantities } from "../record/quantity.js";

/** A hole in the record: from the last reading before it to the first after. */
export interface RecordGap {
  /** Epoch ms, UTC. */
  readonly from: number;
  readonly to: number;
  readonly hours: number;
}

/** What a place holds of one quantity. */
export interface QuantitySummary {
  /** Values that are there. */
  readonly values: number;
  /** Share of the steps from first to last reading that hold a value · 0…1. */
  readonly coverage: number;
  /** Of the values that no fault spoils · house units · NaN when there is none. */
  readonly min: number;
  readonly mean: number;
  readonly max: number;
}

/** How well a place's time is filled. */
export interface PlaceCoverage {
  /** Usual step · s · 0 with fewer than two readings. */
  readonly medianStepSeconds: number;
  /** Share of the usual steps from first to last reading that hold a reading · 0…1. */
  readonly coverage: number;
  readonly gaps: readonly RecordGap[];
  readonly quantities: Readonly<Partial<Record<Quantity, QuantitySummary>>>;
}

/** Above this share of filled steps nobody asks how they are counted. */
const nearlyAll = 0.999;
/** A gap is longer than this many usual steps. */
const gapSteps = 2.5;

/**
 * How much of its time a place has readings for, where the gaps are, and what each quantity ranges over.
 *
 * Coverage counts each usual step once: readings closer together than the usual step do not make up for a gap.
 *
 * @param place a place, with flags where they were set
 * @returns     see PlaceCoverage, frozen
 * @source definitions of this project (README, "What the output says")
 * @example placeCoverage(record.places.veranda).medianStepSeconds // 300
 */
export function placeCoverage(place: PlaceRecord): PlaceCoverage {
  const { seconds, start, readings } = place;
  const step = medianStep(seconds);
  // Counted by the median step; where some are missing, by the mean one too, which a logger that wavers fills.
  const share = (values: Float64Array | null): number => {
    const filled = filledShare(seconds, step, values);
    return filled > nearlyAll ? filled : Math.max(filled, filledShare(seconds, meanStep(seconds, step), values));
  };
  const gaps: RecordGap[] = [];
  for (let i = 1; i < readings; i++) {
    const wide = seconds[i] - seconds[i - 1];
    if (step > 0 && wide > gapSteps * step) gaps.push(Object.freeze({ from: start + 1000 * seconds[i - 1], to: start + 1000 * seconds[i], hours: wide / 3600 }));
  }
  const summaries: Partial<Record<Quantity, QuantitySummary>> = {};
  for (const quantity of quantities) {
    const series = place.series[quantity];
    if (series === undefined) continue;
    const { values, flags } = series;
    let present = 0;
    let sound = 0;
    let sum = 0;
    let min = Infinity;
    let max = -Infinity;
    for (let i = 0; i < values.length; i++) {
      const v = values[i];
      if (Number.isNaN(v)) continue;
      present++;
      if ((flags[i] & leftOut) !== 0) continue;
      sound++;
      sum += v;
      if (v < min) min = v;
      if (v > max) max = v;
    }
    const none = Number.NaN;
    summaries[quantity] = Object.freeze({
      values: present,
      coverage: share(values),
      min: sound === 0 ? none : min,
      mean: sound === 0 ? none : sum / sound,
      max: sound === 0 ? none : max,
    });
  }
  return Object.freeze({
    medianStepSeconds: step,
    coverage: share(null),
    gaps: Object.freeze(gaps),
    quantities: Object.freeze(summaries),
  });
}

/** Mean of the steps about the usual one: a logger that takes 10 s and now and then 11 skips nothing. */
function meanStep(seconds: Float64Array, usual: number): number {
  let [sum, count] = [0, 0];
  for (let i = 1; i < seconds.length; i++) {
    const by = seconds[i] - seconds[i - 1];
    if (by < 0.5 * usual || by > 1.5 * usual) continue;
    sum += by;
    count++;
  }
  return 2 * count >= seconds.length - 1 && count > 0 ? sum / count : usual;
}

/** Share of the usual steps between first and last reading that are filled; a reading fills at most one. */
function filledShare(seconds: Float64Array, step: number, values: Float64Array | null): number {
  const n = seconds.length;
  if (n === 0) return 0;
  if (step === 0) return values === null || !Number.isNaN(values[0]) ? 1 : 0;
  const first = seconds[0];
  const steps = Math.round((seconds[n - 1] - first) / step) + 1;
  let filled = 0;
  let last = -1;
  for (let i = 0; i < n; i++) {
    if (values !== null && Number.isNaN(values[i])) continue;
    const k = Math.round((seconds[i] - first) / step);
    if (k === last) continue;
    filled++;
    last = k;
  }
  return Math.min(1, filled / steps);
}
