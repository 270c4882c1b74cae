import { requireWithin } from "../../ground/complaint.js";
import { type Estimate, estimate } from "../../ground/estimate.js";
import { gaps } from "../../grid/gapRule.js";
import { prominentPeaks } from "./prominentPeak.js";
import type { SwingBand } from "./swingBand.js";

/** A passing low or high of the multi-day band. */
export interface SwingEvent {
  readonly kind: "low" | "high";
  /** Instant of the deepest or highest point · epoch ms, UTC. */
  readonly at: number;
  /** h · coverage in README of this room. */
  readonly atStandardError: number;
  /** Distance from the slow background · hPa · positive for both kinds. */
  readonly depth: Estimate;
  /** Time between the crossings of half the depth · h · null when one lies outside the record. */
  readonly durationHours: Estimate | null;
  /** Drop to the higher of the two saddles that part it from a deeper one · hPa. */
  readonly prominence: number;
  readonly warnings: readonly string[];
}

const nearEndHours = 36;
const longGapHours = 12;
/** Slope of an error of the band, per hPa of it · 1/d. */
const slowSlope = 0.3 / 0.25;
const quickSlope = 2.4;
const z = 1.959964;

/**
 * Lows and highs of the band.
 *
 * One counts when its prominence is at least one standard deviation of the band and three standard errors, and it lies beyond
 * the slow background. None is told inside a gap over 12 h. A front or squall is no event of this band: it is quicker.
 *
 * @param swings  by swingBand
 * @param firstAt instant of hour 0 of the array that was given to swingBand · epoch ms
 * @returns       in order of time, frozen
 * @throws RangeError when firstAt is no instant (±8.64e15 ms)
 * @example swingEvents(swingBand(hours), firstAt)[0].kind // "high"
 * @source threshold and errors measured by simulation, see README of this room
 */
export function swingEvents(swings: SwingBand, firstAt: number): readonly SwingEvent[] {
  requireWithin("swingEvents", "firstAt", firstAt, -8.64e15, 8.64e15, "ms");
  const inLongGap: Uint8Array = new Uint8Array(swings.hours);
  for (const { from, to } of gaps(Float64Array.from(swings.isReal, (r) => (r === 1 ? 0 : Number.NaN)))) {
    if (to - from > longGapHours) inLongGap.fill(1, from, to);
  }
  const found: { index: number; event: SwingEvent }[] = [];
  for (const kind of ["low", "high"] as const) {
    const sign = kind === "high" ? 1 : -1;
    const values: Float64Array = swings.band.map((v) => sign * v);
    for (const { index, prominence, saddle } of prominentPeaks(values)) {
      const s = swings.standardError[index];
      if (prominence < Math.max(swings.sigma, 3 * s) || values[index] <= 0 || inLongGap[index] === 1) continue;
      const depth = values[index];
      const top = vertex(values, index, s, swings.dailyError);
      const nearEnd = [index, saddle].some((i) => Math.min(i, values.length - 1 - i) < nearEndHours);
      const event = Object.freeze({
        kind,
        at: firstAt + Math.round((swings.first + index + top.shiftHours) * 3600e3),
        atStandardError: top.standardError,
        depth: estimate({ value: depth, standardError: s, low: depth - z * s, high: depth + z * s, unit: "hPa" }),
        durationHours: halfDepthDuration(values, index, s),
        prominence,
        warnings: Object.freeze(nearEnd ? ["near an end of the record"] : []),
      });
      found.push({ index, event });
    }
  }
  return Object.freeze(found.sort((a, b) => a.index - b.index).map(({ event }) => event));
}

/** Vertex of the parabola through the point and its neighbors 3 h away, and the error of its time. */
function vertex(values: Float64Array, index: number, s: number, daily: number): { shiftHours: number; standardError: number } {
  const reach = Math.min(3, index, values.length - 1 - index);
  const before = values[index - reach];
  const after = values[index + reach];
  const bend = before - 2 * values[index] + after;
  if (!(bend < 0)) return { shiftHours: 0, standardError: 24 };
  const shiftHours = (0.5 * reach * (before - after)) / bend;
  const curvature = bend / (reach / 24) ** 2;
  // The filter's own error is slow (0.3 of it in a quarter of a day), what a daily tide leaves is quicker.
  const slopeError = Math.hypot(slowSlope * Math.sqrt(Math.max(0, s * s - daily * daily)), quickSlope * daily);
  return { shiftHours, standardError: Math.max((24 * slopeError) / Math.abs(curvature), 0.5) };
}

function halfDepthDuration(values: Float64Array, index: number, s: number): Estimate | null {
  const half = values[index] / 2;
  const sides = ([-1, 1] as const).map((step) => {
    for (let i = index; i + step >= 0 && i + step < values.length; i += step) {
      if (values[i + step] > half) continue;
      const slope = values[i] - values[i + step];
      return { at: i + (step * (values[i] - half)) / slope, slope };
    }
    return null;
  });
  const [left, right] = sides;
  if (left === null || right === null) return null;
  const value = right.at - left.at;
  const standardError = (Math.SQRT2 * s) / ((left.slope + right.slope) / 2);
  return estimate({ value, standardError, low: Math.max(0, value - z * standardError), high: value + z * standardError, unit: "h" });
}
