import { medianStep } from "../grid/step.js";
import { leftOut } from "../record/flag.js";
import type { Series } from "../record/series.js";

/** Steps within a fifth of the usual one; fewer of them than this are uneven. */
const nearUsual = 0.2;
const evenShare = 0.5;
/** Readings are laid so far apart · s. */
const layStep = 300;

/**
 * Readings that come when something changed, laid evenly: lines between them, every five minutes.
 *
 * A sensor that reports changes speaks often where the air moves fast and hardly where it stands: the mean of an hour's reports is not that
 * of the hour, and the inside, which moves less, comes out at other instants than the outside by up to some minutes.
 *
 * @param series  one quantity of one place; flagged readings are left out
 * @param longest readings further apart are not joined · s
 * @returns       the series itself where most of its steps are alike
 */
export function evenReadings(series: Series, longest: number): Series {
  const { start, seconds, values, flags } = series;
  if (!isUneven(seconds)) return series;
  const at: number[] = [];
  const laid: number[] = [];
  let last = -1;
  for (let i = 0; i < values.length; i++) {
    if (Number.isNaN(values[i]) || (flags[i] & leftOut) !== 0) continue;
    const isJoined = last >= 0 && seconds[i] > seconds[last] && seconds[i] - seconds[last] <= longest;
    const first = isJoined ? Math.floor(seconds[last] / layStep) + 1 : Math.ceil(seconds[i] / layStep);
    for (let k = first; k * layStep <= seconds[i]; k++) {
      const share = isJoined ? (k * layStep - seconds[last]) / (seconds[i] - seconds[last]) : 1;
      at.push(k * layStep);
      laid.push(isJoined ? values[last] + share * (values[i] - values[last]) : values[i]);
    }
    last = i;
  }
  return Object.freeze({ ...series, start, seconds: Float64Array.from(at), values: Float64Array.from(laid), flags: new Uint16Array(at.length) });
}

/**
 * Whether readings come at steps of all lengths, as from a sensor that reports changes.
 *
 * @param seconds instants of the readings · s · [n]
 */
export function isUneven(seconds: Float64Array): boolean {
  if (seconds.length < 3) return false;
  const usual = medianStep(seconds);
  let alike = 0;
  for (let i = 1; i < seconds.length; i++) if (Math.abs(seconds[i] - seconds[i - 1] - usual) <= nearUsual * usual) alike++;
  return alike < evenShare * (seconds.length - 1);
}
