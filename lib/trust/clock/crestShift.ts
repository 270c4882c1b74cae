import { tQuantile } from "../../ground/distributions.js";
import { type Estimate, estimate } from "../../ground/estimate.js";
import { longRunVariance } from "../../ground/longRunVariance.js";
import type { Series } from "../../record/series.js";
import { dailyTide } from "./dailyTide.js";

const fewestDays = 20;
const longestDays = 90;
const dayMs = 86400000;
/** Several dates are asked, so each is asked more of: 99 %. */
const level = 0.99;

/**
 * By how much the crest of the twice-daily tide moved at an instant, by the logger's clock.
 *
 * Daily complex amplitudes of two cycles a day, the day's slope fitted with them by a 24-hour running mean, are averaged over 20 to 90 days on
 * either side; their turn is the shift, with the long-run variance of the daily values. The season alone moves S2 by up to 0.3 h.
 *
 * @param pressure  station pressure · hPa
 * @param longitude degrees east (turns UTC into solar days only)
 * @param around.at the instant · epoch ms; `from` and `to` bound what is looked at
 * @returns         h, positive when the crest comes later afterwards, 99 % interval; null with under 20 days on a side or no tide seen
 * @source own method, see README of this room
 */
export function crestShift(pressure: Series, longitude: number, around: { at: number; from: number; to: number }): Estimate | null {
  if (pressure.values.every(Number.isNaN)) return null;
  const { ahead, first, days } = dailyTide(pressure, longitude);
  const split = Math.floor((around.at + ahead) / dayMs) - first;
  const low = Math.max(0, split - longestDays, Math.ceil((around.from + ahead) / dayMs) - first);
  const high = Math.min(days.length, split + 1 + longestDays, Math.floor((around.to + ahead) / dayMs) - first);
  const before = meanAmplitude(days.slice(low, Math.max(low, split)));
  const after = meanAmplitude(days.slice(split + 1, Math.max(split + 1, high)));
  if (before === null || after === null) return null;
  const turn = after.phase - before.phase;
  // Two cycles a day: a turn of 2π is 12 h. Phases fall as the crest comes later.
  const value = (-(turn - 2 * Math.PI * Math.round(turn / (2 * Math.PI))) * 6) / Math.PI + 0;
  const standardError = (Math.hypot(before.error, after.error) * 6) / Math.PI;
  const half = tQuantile(1 - (1 - level) / 2, Math.min(before.terms, after.terms)) * standardError;
  return estimate({ value, standardError, low: value - half, high: value + half, level, unit: "h" });
}

/** Phase of the mean daily amplitude and its standard error; null with few days or an amplitude under three errors. */
function meanAmplitude(days: readonly (readonly [number, number])[]): { phase: number; error: number; terms: number } | null {
  const present = days.filter(([c]) => !Number.isNaN(c));
  if (present.length < fewestDays) return null;
  const c = present.reduce((sum, d) => sum + d[0], 0) / present.length;
  const s = present.reduce((sum, d) => sum + d[1], 0) / present.length;
  const size = Math.hypot(c, s);
  // The part of each day's amplitude that turns the mean's phase.
  const across = days.map(([x, y]) => (c * y - s * x) / size);
  if (!across.some((z, k) => k > 0 && !Number.isNaN(z + across[k - 1]))) return null;
  const { varianceOfSum, terms } = longRunVariance(across);
  const error = Math.sqrt(varianceOfSum) / present.length / size;
  return error > 1 / 3 ? null : { phase: Math.atan2(s, c), error, terms };
}
