import { bridgedHours } from "../../grid/bridgedHours.js";
import { withoutLine } from "./leastSquaresLine.js";
import { sineTaperSpectrum } from "./sineTaperSpectrum.js";

/** Days of record under which a day-to-day change of the daily tide cannot be seen. */
const needsDays = 8;
const tapers = 5;

/**
 * Variance of what is left at one beat a day after a steady tide is taken out: clouds and sun differ from day to day.
 *
 * Five sine tapers of the hourly record; what stands over a straight line in ln f between 0.6 and 1.5 cpd, summed over
 * 0.7…1.3 cpd, floor 0. It makes the 3-hour tendency's interval wider.
 *
 * @param hours tide-free hourly means · hPa · [n] · NaN is missing
 * @returns     hPa² · null under 8 d
 * @example dayToDayTide(new Float64Array(100)) // null
 * @source chosen by simulation, see README of this room
 */
export function dayToDayTide(hours: ArrayLike<number>): number | null {
  const { values } = bridgedHours(hours);
  const n = values.length;
  if (n < 24 * needsDays) return null;
  const density = sineTaperSpectrum(n, tapers).of(withoutLine(values));
  const days = n / 24;
  const below = meanOver(density, 0.5 * days, 0.7 * days);
  const above = meanOver(density, 1.3 * days, 1.7 * days);
  if (!(below > 0 && above > 0)) return 0;
  const slope = Math.log(above / below) / Math.log(1.5 / 0.6);
  let excess = 0;
  for (let i = Math.ceil(0.7 * days); i <= 1.3 * days; i++) excess += density[i] - below * (i / days / 0.6) ** slope;
  return Math.max(0, (2 * excess) / n);
}

function meanOver(density: Float64Array, from: number, to: number): number {
  let sum = 0;
  let count = 0;
  for (let i = Math.ceil(from); i <= to; i++) {
    sum += density[i];
    count++;
  }
  return sum / count;
}
