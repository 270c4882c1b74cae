import { mustSentence, requireWithin, shown } from "../ground/complaint.js";
import { leftOut } from "../record/flag.js";
import type { Quantity } from "../record/quantity.js";
import type { Series } from "../record/series.js";
import { bridgeGaps } from "./gapRule.js";
import { niceStep } from "./step.js";

/** One quantity of one place on an even grid; every array has the grid's length. */
export interface GridColumn {
  readonly place: string;
  readonly quantity: Quantity;
  readonly unit: string;
  /** Mean of the readings in each step, or the bridge over a short gap · house units · NaN where missing. */
  readonly values: Float64Array;
  /** 1 where the value is a bridge and not a reading. */
  readonly filled: Uint8Array;
  /** Readings that made each step's value. */
  readonly counts: Uint32Array;
  /** Bits of `flagBit` of all readings that fell into each step, those left out too. */
  readonly flags: Uint16Array;
  /** Mean instant of the readings in each step · seconds since the grid's start · bridged like the values. Fits use this, never the step's center. */
  readonly instants: Float64Array;
  /** Share of the steps that hold a reading · 0…1. */
  readonly coverage: number;
}

/** An even grid: step k covers [start + k·stepSeconds, start + (k + 1)·stepSeconds). */
export interface Grid {
  /** Epoch ms, UTC. */
  readonly start: number;
  readonly stepSeconds: number;
  readonly length: number;
  readonly columns: readonly GridColumn[];
}

/** How a grid is laid and how far it is bridged. */
export interface GridOptions {
  /** Seconds; default the usual step of the densest series, rounded up to one that divides an hour or a day. */
  readonly step?: number;
  /** Longest gap that is bridged · seconds · default 3600; 0 bridges nothing. */
  readonly fillUpTo?: number;
  /** `line` joins the neighbors of a short gap by a straight line; `none` leaves every gap. Default `line`. */
  readonly method?: "line" | "none";
  /** An instant that falls on a step's edge · epoch ms · default 0, so that days begin at 00 UTC. */
  readonly alignTo?: number;
}

/** Most steps a grid may have: a year of seconds. */
const mostSteps = 32_000_000;

/**
 * Lays irregular, gappy series on one even grid.
 *
 * A step is the mean of the readings that fell into it. Readings flagged range, spike, stuck or swapped are left out.
 * A gap of at most `fillUpTo` is bridged by a straight line and marked in `filled`; longer gaps stay NaN.
 *
 * @param from             one Series or several; all share the grid
 * @param options          see GridOptions
 * @returns                a frozen Grid from the first to the last reading of all series
 * @throws RangeError      when there is no reading, or step or fillUpTo are out of range
 * @example regularGrid(series({ times: [0, 300000, 900000], values: [1, 2, 4], quantity: "air_temperature" }), { step: 300, fillUpTo: 600 }).columns[0].values // 1, 2, 3, 4
 */
export function regularGrid(from: Series | readonly Series[], options: GridOptions = {}): Grid {
  const all: readonly Series[] = Array.isArray(from) ? (from as readonly Series[]) : [from as Series];
  const { fillUpTo = 3600, method = "line", alignTo = 0 } = options;
  if (method !== "line" && method !== "none") {
    throw new TypeError(mustSentence("regularGrid", "method", 'be "line" or "none"', shown(method)));
  }
  if (options.step !== undefined && !(options.step > 0 && Number.isFinite(options.step))) {
    throw new RangeError(mustSentence("regularGrid", "step", "be positive", shown(options.step, "s")));
  }
  requireWithin("regularGrid", "fillUpTo", fillUpTo, 0, 366 * 86400, "s");
  let first = Infinity;
  let last = -Infinity;
  for (const s of all) {
    if (s.seconds.length === 0) continue;
    first = Math.min(first, s.start + 1000 * s.seconds[0]);
    last = Math.max(last, s.start + 1000 * s.seconds[s.seconds.length - 1]);
  }
  if (!(first <= last)) throw new RangeError(mustSentence("regularGrid", "series", "hold at least one reading", "none"));
  const stepSeconds = options.step ?? Math.min(...all.map((s) => niceStep(s.seconds)).filter((s) => s > 0), 86400);
  const stepMs = 1000 * stepSeconds;
  const start = alignTo + Math.floor((first - alignTo) / stepMs) * stepMs;
  const length = Math.floor((last - start) / stepMs) + 1;
  if (!(length >= 1 && length <= mostSteps)) {
    throw new RangeError(mustSentence("regularGrid", "step", `leave at most ${mostSteps} steps`, `${stepSeconds} s over ${((last - first) / 86400000).toFixed(1)} d`));
  }
  const longest = method === "none" ? 0 : Math.floor(fillUpTo / stepSeconds + 1e-9);
  const columns = all.map((s) => layColumn(s, start, stepSeconds, length, longest));
  return Object.freeze({ start, stepSeconds, length, columns: Object.freeze(columns) });
}

function layColumn(s: Series, start: number, stepSeconds: number, length: number, longest: number): GridColumn {
  const sums: Float64Array = new Float64Array(length);
  const instants: Float64Array = new Float64Array(length);
  const counts: Uint32Array = new Uint32Array(length);
  const flags: Uint16Array = new Uint16Array(length);
  const shift = (s.start - start) / 1000;
  // Taken out of the series once: it comes in many shapes, and this loop runs over millions of readings.
  const { seconds, values, flags: marks } = s;
  for (let i = 0; i < seconds.length; i++) {
    const v = values[i];
    const bits = marks[i];
    const t = shift + seconds[i];
    const k = Math.floor(t / stepSeconds);
    flags[k] |= bits;
    if (Number.isNaN(v) || (bits & leftOut) !== 0) continue;
    sums[k] += v;
    instants[k] += t;
    counts[k]++;
  }
  let held = 0;
  for (let k = 0; k < length; k++) {
    if (counts[k] > 0) held++;
    // Of no readings the mean is 0/0, NaN.
    sums[k] /= counts[k];
    instants[k] /= counts[k];
  }
  const bridged = bridgeGaps(sums, longest);
  return Object.freeze({
    place: s.place,
    quantity: s.quantity,
    unit: s.unit,
    values: bridged.values,
    filled: bridged.filled,
    counts,
    flags,
    instants: bridgeGaps(instants, longest).values,
    coverage: held / length,
  });
}
