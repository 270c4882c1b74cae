import { tQuantile } from "../ground/distributions.js";
import { type Estimate, estimate } from "../ground/estimate.js";
import { dailyInfluence, dailyTurn, hoursADay, pairedHours } from "./pairedHours.js";

/** How a house answers the daily cycle of the air outside. */
export interface DailyResponse {
  /** Amplitude inside over amplitude outside, at one cycle per day · 1 · null when fewer than 6 days are whole. */
  readonly decrementFactor: Estimate | null;
  /** How much later inside has its maximum · h, −12…12, negative when it leads · null when no daily cycle inside can be seen. */
  readonly timeLag: Estimate | null;
  /** The answer as a complex number: real and imaginary part, e^{−iωt} convention, a lag has a negative imaginary part · NaN
   *  where a place has no whole day, or outside does not vary. */
  readonly real: number;
  readonly imaginary: number;
  /** Standard errors along and across that number · 1 · NaN where decrementFactor is null. */
  readonly radialError: number;
  readonly tangentialError: number;
  /** Student's t for 95 %, and its degrees of freedom · NaN and 0 where decrementFactor is null. */
  readonly t: number;
  readonly degreesOfFreedom: number;
  readonly daysUsed: number;
}

/**
 * Decrement factor and time lag: gain and delay of the house at one cycle per day.
 *
 * The ratio of the two mean cycles, over days on which both are complete from 12 hours before to 12 hours after; a running
 * mean of 24 hours takes mean and slope off first and leaves the daily line as it is (a slope taken from single days would eat
 * 61 % of its sine part). Noise of the outdoor sensor does not bias it. With sun through windows, a heater or windows
 * opened by the clock the numbers are apparent: they describe the house as it is lived in, they do not identify its walls.
 *
 * @param inside, outside hourly · °C · [n], hour 0 a midnight · NaN is missing
 * @returns               see DailyResponse, frozen
 * @throws RangeError     when lengths differ or a value is infinite
 * @example dailyResponse(inside, outside).timeLag?.value // 4.71 h
 * @source ratio of mean cycles with a long-run variance; decrement factor and time lag as ISO 13786 names them (from memory)
 */
export function dailyResponse(inside: ArrayLike<number>, outside: ArrayLike<number>): DailyResponse {
  const both = pairedHours("dailyResponse", inside, outside);
  const days = Math.floor(both.length / hoursADay);
  const isWhole = Uint8Array.from({ length: days }, (_, k) => {
    for (let h = k * hoursADay - 12; h < (k + 1) * hoursADay + 12; h++) if (both[h] !== 1) return 0;
    return 1;
  });
  const a = dayAmplitudes(inside, isWhole);
  const b = dayAmplitudes(outside, isWhole);
  const daysUsed = isWhole.reduce((sum, w) => sum + w, 0);
  const [ar, ai, br, bi] = [a.real, a.imaginary, b.real, b.imaginary].map((part) => part.reduce((sum, v) => sum + v, 0));
  const power = br * br + bi * bi;
  const real = (ar * br + ai * bi) / power;
  const imaginary = (ai * br - ar * bi) / power;
  const none = { decrementFactor: null, timeLag: null, real, imaginary, radialError: Number.NaN, tangentialError: Number.NaN, t: Number.NaN, degreesOfFreedom: 0, daysUsed };
  if (!(Math.sqrt(power) > 1e-9 * Math.max(1, daysUsed))) return Object.freeze(none);

  // Influence of each day on H, turned so that the real part is along H: (a − H b) e^{−i arg H} / Σ b.
  const gain = Math.hypot(real, imaginary);
  const along: Float64Array = new Float64Array(days).fill(Number.NaN);
  const across: Float64Array = new Float64Array(days).fill(Number.NaN);
  for (let k = 0; k < days; k++) {
    if (isWhole[k] === 0) continue;
    const er = a.real[k] - (real * b.real[k] - imaginary * b.imaginary[k]);
    const ei = a.imaginary[k] - (real * b.imaginary[k] + imaginary * b.real[k]);
    const zr = (er * br + ei * bi) / power;
    const zi = (ei * br - er * bi) / power;
    const c = gain > 0 ? real / gain : 1;
    const s = gain > 0 ? imaginary / gain : 0;
    along[k] = zr * c + zi * s;
    across[k] = zi * c - zr * s;
  }
  const spread = dailyInfluence(along);
  const side = dailyInfluence(across);
  if (spread === null || side === null) return Object.freeze(none);
  const radialError = Math.sqrt(spread.varianceOfSum);
  const tangentialError = Math.sqrt(side.varianceOfSum);
  const t = tQuantile(0.975, spread.terms);
  const isSeen = gain > 1e-9 && t * Math.max(radialError, tangentialError) < gain;
  const low = isSeen ? Math.max(0, gain - t * radialError) : 0;
  const decrementFactor = estimate({ value: gain, standardError: radialError, low, high: gain + t * radialError, unit: "1" });
  const parts = { real, imaginary, radialError, tangentialError, t, degreesOfFreedom: spread.terms, daysUsed };
  if (!isSeen) return Object.freeze({ decrementFactor, timeLag: null, ...parts });
  const value = -Math.atan2(imaginary, real) / dailyTurn;
  const standardError = tangentialError / gain / dailyTurn;
  const timeLag = estimate({ value, standardError, low: value - t * standardError, high: value + t * standardError, unit: "h" });
  return Object.freeze({ decrementFactor, timeLag, ...parts });
}

/** a_k = (1/12) Σ x'_h e^{−iωh} of each whole day, x' less its 24-hour running mean (25 points, ends at half weight); 0 elsewhere. */
function dayAmplitudes(values: ArrayLike<number>, isWhole: Uint8Array): { real: Float64Array; imaginary: Float64Array } {
  const real: Float64Array = new Float64Array(isWhole.length);
  const imaginary: Float64Array = new Float64Array(isWhole.length);
  for (let k = 0; k < isWhole.length; k++) {
    if (isWhole[k] === 0) continue;
    for (let h = k * hoursADay; h < (k + 1) * hoursADay; h++) {
      let mean = (values[h - 12] + values[h + 12]) / 48;
      for (let j = h - 11; j < h + 12; j++) mean += values[j] / 24;
      real[k] += ((values[h] - mean) * Math.cos(dailyTurn * h)) / 12;
      imaginary[k] -= ((values[h] - mean) * Math.sin(dailyTurn * h)) / 12;
    }
  }
  return { real, imaginary };
}
