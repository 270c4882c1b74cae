import { mustSentence, shown } from "../../ground/complaint.js";
import type { Series } from "../../record/series.js";
import type { TideFit } from "./tideFit.js";

/** Instants as `start` (epoch ms) and seconds since it, like those of a Series. */
export interface Instants {
  readonly start: number;
  readonly seconds: Float64Array;
}

/** Highest line of the day that is made from the first. */
const mostDaily = 6;

function isDaily(cyclesPerDay: number): boolean {
  return Number.isInteger(cyclesPerDay) && cyclesPerDay >= 1 && cyclesPerDay <= mostDaily;
}

/**
 * The fitted tide at given instants: all fitted lines, undetected ones too, without mean and slope.
 *
 * @param fit                  see `fitTides`
 * @param at                   instants · epoch ms · [n], or start and seconds
 * @param options.averagedOver s over which the tide is averaged about each instant, default 0
 * @returns                    unit of the fit · [n] · NaN where an instant is NaN
 * @example tideAt(fit, [Date.UTC(2024, 5, 1, 3)])[0] // 1.32 hPa
 */
export function tideAt(fit: TideFit, at: ArrayLike<number> | Instants, options: { readonly averagedOver?: number } = {}): Float64Array {
  const { averagedOver = 0 } = options;
  const given = "seconds" in at ? at : null;
  const n = given === null ? (at as ArrayLike<number>).length : given.seconds.length;
  const out: Float64Array = new Float64Array(n);
  const lines = fit.coefficients.map((c) => {
    const x = (Math.PI * c.cyclesPerDay * averagedOver) / 86_400;
    const damping = x === 0 ? 1 : Math.sin(x) / x;
    return { cyclesPerDay: c.cyclesPerDay, turn: 2 * Math.PI * c.cyclesPerDay, a: damping * c.cosine, b: damping * c.sine };
  });
  // Lines that return daily share one cosine and sine: the others of the day follow by the sums of angles, S1 to S6.
  const harmonics = lines.filter((l) => isDaily(l.cyclesPerDay));
  const others = lines.filter((l) => !isDaily(l.cyclesPerDay));
  const highest = Math.max(0, ...harmonics.map((l) => l.cyclesPerDay));
  const cosines: Float64Array = new Float64Array(mostDaily + 1);
  const sines: Float64Array = new Float64Array(mostDaily + 1);
  for (let i = 0; i < n; i++) {
    const days = given === null ? ((at as ArrayLike<number>)[i] - fit.epoch) / 86_400_000 : (given.start - fit.epoch) / 86_400_000 + given.seconds[i] / 86_400;
    let sum = 0;
    if (harmonics.length > 0) {
      const angle = 2 * Math.PI * (days - Math.floor(days));
      cosines[1] = Math.cos(angle);
      sines[1] = Math.sin(angle);
      for (let k = 2; k <= highest; k++) {
        cosines[k] = cosines[k - 1] * cosines[1] - sines[k - 1] * sines[1];
        sines[k] = sines[k - 1] * cosines[1] + cosines[k - 1] * sines[1];
      }
      for (const { cyclesPerDay, a, b } of harmonics) sum += a * cosines[cyclesPerDay] + b * sines[cyclesPerDay];
    }
    for (const { turn, a, b } of others) sum += a * Math.cos(turn * days) + b * Math.sin(turn * days);
    out[i] = sum;
  }
  return out;
}

/**
 * A series with the fitted tide taken out: what the weather did. Mean, slope and flags stay.
 *
 * @param series  of the fit's unit; not changed
 * @param fit     see `fitTides`
 * @returns       a frozen Series with the same instants and flags
 * @throws RangeError when the units differ
 * @example withoutTide(pressure, fit).values[0] // 860.53 hPa
 */
export function withoutTide(series: Series, fit: TideFit): Series {
  const same = series.unit === fit.unit || (series.unit === "degC" && fit.unit === "K");
  if (!same) throw new RangeError(mustSentence("withoutTide", "series", `be in the fit's unit, ${fit.unit}`, shown(series.unit)));
  const tide = tideAt(fit, series, { averagedOver: fit.averagedOver });
  return Object.freeze({ ...series, values: series.values.map((v, i) => v - tide[i]) });
}
