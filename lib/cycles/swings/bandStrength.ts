import { requireWithin } from "../../ground/complaint.js";
import { tQuantile } from "../../ground/distributions.js";
import { type Estimate, estimate } from "../../ground/estimate.js";
import { longRunVariance } from "../../ground/longRunVariance.js";
import type { SwingBand } from "./swingBand.js";

/** How strong the swings are. */
export interface BandStrength {
  /** Standard deviation of the band · hPa. */
  readonly standardDeviation: Estimate;
  /** Part of all variance (tide, band, slow background, rest) that is the band's · 0…1 · a description without interval. */
  readonly share: number;
  /** True when the record holds too few independent spells for the interval to be trusted. */
  readonly isShort: boolean;
}

/**
 * Standard deviation of the multi-day band with an interval that knows how few independent storms a record holds.
 *
 * The interval is laid on ln σ: daily influence of band² with its long-run variance, Student's t, then back. It tells how well
 * these days' weather is an example of weather of this kind, not how well these days themselves were measured.
 *
 * @param swings       by swingBand
 * @param tideVariance variance of the tide that was taken out · hPa² · default 0
 * @returns            see BandStrength, frozen
 * @throws RangeError  when 5 days or fewer hold a measured hour (longRunVariance), or tideVariance is not from 0
 * @example bandStrength(swingBand(hours)).standardDeviation.value // 0.674 hPa
 * @source delta method on longRunVariance; coverage in README of this room
 */
export function bandStrength(swings: SwingBand, tideVariance = 0): BandStrength {
  requireWithin("bandStrength", "tideVariance", tideVariance, 0, 1e60, "hPa²");
  const { band, slow, rest, isReal } = swings;
  let squares = 0;
  let count = 0;
  for (let i = 0; i < band.length; i++) {
    if (isReal[i] === 0) continue;
    squares += band[i] ** 2;
    count++;
  }
  const power = squares / count;
  const value = Math.sqrt(power);
  // Days of 24 h from the first measured hour: where a day begins does not matter here.
  const influence: Float64Array = new Float64Array(Math.ceil(band.length / 24)).fill(Number.NaN);
  for (let i = 0; i < band.length; i++) {
    if (isReal[i] === 0) continue;
    const day = Math.floor(i / 24);
    influence[day] = (Number.isNaN(influence[day]) ? 0 : influence[day]) + band[i] ** 2 - power;
  }
  const spread = longRunVariance(influence);
  const logError = power === 0 ? 0 : Math.sqrt(spread.varianceOfSum) / (count * power) / 2;
  const reach = Math.exp(tQuantile(0.975, spread.terms) * logError);
  const variances = [slow, rest].map((part) => varianceOf(part, isReal));
  const bandVariance = varianceOf(band, isReal);
  const total = tideVariance + bandVariance + variances[0] + variances[1];
  return Object.freeze({
    standardDeviation: estimate({ value, standardError: value * logError, low: value / reach, high: value * reach, unit: "hPa" }),
    share: total === 0 ? 0 : bandVariance / total,
    isShort: spread.isShort,
  });
}

function varianceOf(part: Float64Array, isReal: Uint8Array): number {
  let sum = 0;
  let count = 0;
  for (let i = 0; i < part.length; i++) {
    if (isReal[i] === 0) continue;
    sum += part[i];
    count++;
  }
  const mean = sum / count;
  let squares = 0;
  for (let i = 0; i < part.length; i++) if (isReal[i] === 1) squares += (part[i] - mean) ** 2;
  return squares / count;
}
