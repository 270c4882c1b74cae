import { gaps } from "../../grid/gapRule.js";

/** Error near an end, in standard deviations of the band, by distance from it; the larger of the two climates simulated. */
const endTable: readonly (readonly [belowDays: number, share: number])[] = [
  [1, 0.56],
  [1.5, 0.4],
  [2, 0.32],
  [3, 0.23],
  [5, 0.11],
  [8, 0.07],
  [15, 0.06],
];

/** Error in a gap, in standard deviations of the band, by its length; linear between, 1 beyond. */
const gapTable: readonly (readonly [hours: number, share: number])[] = [
  [0, 0],
  [6, 0.03],
  [12, 0.07],
  [24, 0.21],
  [48, 0.62],
  [72, 1],
];
/** Outside a gap its error fades to nothing over so many hours. */
const fadeHours = 12;

/**
 * Error of the band so many days from the nearest end, in standard deviations of the band.
 *
 * @param days d · from 0
 * @returns    share of the band's standard deviation
 * @example endShare(0.5) // 0.56
 * @source measured by simulation, see README of this room
 */
export function endShare(days: number): number {
  return endTable.find(([below]) => days < below)?.[1] ?? 0.04;
}

/**
 * Error of the band inside a gap of so many hours, in standard deviations of the band; 1 says 'no band here'.
 *
 * @param hours h · from 0
 * @returns     share of the band's standard deviation · 0…1
 * @example gapShare(18) // 0.14
 * @source measured by simulation at the middle of a gap, see README of this room
 */
export function gapShare(hours: number): number {
  for (let i = 1; i < gapTable.length; i++) {
    const [h, share] = gapTable[i];
    const [h0, share0] = gapTable[i - 1];
    if (hours <= h) return share0 + ((share - share0) * (hours - h0)) / (h - h0);
  }
  return 1;
}

/**
 * Standard error of the band at every hour: ends, gaps and the readings' own noise.
 *
 * s² = σ²(g_end² + g_gap²) + s_w², where s_w is white noise through the 2-day filter. An interval is ± 1.96 s.
 *
 * @param isReal    1 where an hour was measured · [n] · first and last are 1
 * @param sigma     standard deviation of the band · hPa
 * @param noise     white noise left in an hourly mean · hPa · default 0
 * @returns         hPa · [n]
 * @example bandError(Uint8Array.of(1, 1, 1), 2)[1] // 1.12
 */
export function bandError(isReal: Uint8Array, sigma: number, noise = 0): Float64Array {
  const n = isReal.length;
  const gapError: Float64Array = new Float64Array(n);
  for (const { from, to } of gaps(Float64Array.from(isReal, (r) => (r === 1 ? 0 : Number.NaN)))) {
    const share = gapShare(to - from);
    for (let i = Math.max(0, from - fadeHours); i < Math.min(n, to + fadeHours); i++) {
      const outside = i < from ? from - i : i >= to ? i - to + 1 : 0;
      gapError[i] = Math.max(gapError[i], share * (1 - outside / fadeHours));
    }
  }
  // √Σw² of the 2-day filter at hourly steps is about 1/√(48/2).
  const white = noise / Math.sqrt(24);
  return Float64Array.from(gapError, (g, i) => Math.hypot(sigma * Math.hypot(endShare(Math.min(i, n - 1 - i) / 24), g), white));
}
