import type { TideFit } from "../cycles/tide/tideFit.js";

/** The mean day of the fitted tide, by local mean solar time. */
export interface MeanDay {
  /** About the mean, every half hour from 00:00 · unit of the fit · [48]. */
  readonly curve: readonly number[];
  /** Lowest to highest · unit of the fit. */
  readonly range: number;
  /** Hours of the day's crests and troughs, to the minute · h. */
  readonly highest: readonly number[];
  readonly lowest: readonly number[];
}

/**
 * Adds up the solar lines of a fit (S1, S2, S3, S4, detected or not) over a day.
 *
 * Crests and troughs smaller than a tenth of the day's range are left out: they are ripples of the smaller lines.
 *
 * @param fit from `fitTides`
 */
export function meanDayOf(fit: TideFit): MeanDay {
  const solar = fit.coefficients.filter((c) => /^S\d$/.test(c.name));
  const at = (hour: number): number => {
    const days = (hour - fit.longitude / 15) / 24;
    return solar.reduce((sum, c) => sum + c.cosine * Math.cos(2 * Math.PI * c.cyclesPerDay * days) + c.sine * Math.sin(2 * Math.PI * c.cyclesPerDay * days), 0);
  };
  const fine = Array.from({ length: 1440 }, (_, i) => at(i / 60));
  const range = Math.max(...fine) - Math.min(...fine);
  return {
    curve: Array.from({ length: 48 }, (_, i) => fine[30 * i]),
    range,
    highest: turns(fine, 1, range),
    lowest: turns(fine, -1, range),
  };
}

/** Hours of the extremes of one kind whose prominence is at least a tenth of the range, on a day that closes on itself. */
function turns(curve: readonly number[], sign: 1 | -1, range: number): number[] {
  const n = curve.length;
  const v = (i: number): number => sign * curve[((i % n) + n) % n];
  const found: number[] = [];
  for (let i = 0; i < n; i++) {
    if (!(v(i) >= v(i - 1) && v(i) > v(i + 1))) continue;
    if (Math.min(drop(v, i, -1, n), drop(v, i, 1, n)) >= range / 10) found.push(i / 60);
  }
  return found;
}

/** How far the curve falls on one side before it rises above its value at i. */
function drop(v: (i: number) => number, i: number, step: 1 | -1, n: number): number {
  let least = v(i);
  for (let k = 1; k < n; k++) {
    const value = v(i + step * k);
    if (value > v(i)) break;
    least = Math.min(least, value);
  }
  return v(i) - least;
}
