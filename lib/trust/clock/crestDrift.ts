import { type Estimate, estimate } from "../../ground/estimate.js";
import { tQuantile } from "../../ground/distributions.js";
import { olsAr1 } from "../../ground/regressionAr1.js";
import type { Series } from "../../record/series.js";
import { dailyTide } from "./dailyTide.js";

/** The season turns the crest to and fro by up to 0.3 h; only from about a year on can a steady drift be told from it. */
const fewestDays = 330;
const yearDays = 365.25;
/** One question among several: 99 %. */
const level = 0.99;

/**
 * By how much a logger's clock gains a day, by the crest of the twice-daily tide.
 *
 * The daily turn of S2 against its mean is fitted by a slope with a yearly and a half-yearly round beside it, so that the season is not
 * taken for a drift; the errors allow for the memory of the days. For one logger alone; two are compared better by their barometers.
 *
 * @param pressure  station pressure · hPa
 * @param longitude degrees east
 * @returns         s d-1, positive when the clock gains, 99 % interval; null under 330 days or where no tide is seen
 * @source own method, see README of this room
 */
export function crestDrift(pressure: Series, longitude: number): Estimate | null {
  if (pressure.seconds.length < fewestDays || pressure.values.every(Number.isNaN)) return null;
  if (pressure.seconds[pressure.seconds.length - 1] - pressure.seconds[0] < fewestDays * 86400) return null;
  const { days } = dailyTide(pressure, longitude);
  const present = [...days.keys()].filter((k) => !Number.isNaN(days[k][0]));
  if (present.length < 0.8 * fewestDays || present[present.length - 1] - present[0] < fewestDays) return null;
  const c = present.reduce((sum, k) => sum + days[k][0], 0) / present.length;
  const s = present.reduce((sum, k) => sum + days[k][1], 0) / present.length;
  const size = Math.hypot(c, s);
  // The part of each day's amplitude across the mean's direction, as hours by which that day's crest comes later.
  const later = present.map((k) => (-(c * days[k][1] - s * days[k][0]) / (size * size)) * (6 / Math.PI));
  const middle = (present[0] + present[present.length - 1]) / 2;
  const years = present.map((k) => (k - middle) / yearDays);
  const round = (times: number, of: (x: number) => number): number[] => years.map((y) => of(2 * Math.PI * times * y));
  const fit = olsAr1([years.map(() => 1), years, round(1, Math.cos), round(1, Math.sin), round(2, Math.cos), round(2, Math.sin)], later, present);
  const scale = 3600 / yearDays;
  const [value, standardError] = [scale * fit.coefficients[1], scale * fit.standardErrors[1]];
  if (!(standardError > 0)) return null;
  const half = tQuantile(1 - (1 - level) / 2, fit.degreesOfFreedom) * standardError;
  return estimate({ value, standardError, low: value - half, high: value + half, level, unit: "s d-1" });
}
