import { mustSentence, requireWithin, shown } from "../../ground/complaint.js";
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
 * @param options.averagedOver s over which the tide is averaged about each instant · 0…21600 · default 0
 * @returns                    unit of the fit · [n] · NaN where an instant is NaN or infinite
 * @throws RangeError          when averagedOver is NaN or outside
 * @example tideAt(fit, [Date.UTC(2024, 5, 1, 3)])[0] // 1.32 hPa
 */
export function tideAt(fit: TideFit, at: ArrayLike<number> | Instants, options: { readonly averagedOver?: number } = {}): Float64Array {
  const { averagedOver = 0 } = options;
  requireWithin("tideAt", "averagedOver", averagedOver, 0, 21_600, "s");
  const given = "seconds" in at ? at : null;
  const n = given === null ? (at as ArrayLike<number>).length : given.seconds.length;
  const out: Float64Array = new Float64Array(n);
  // Lines that return daily share one cosine and sine: the others of the day follow by the sums of angles, S1 to S6.
  const daily: Float64Array = new Float64Array(2 * mostDaily + 2);
  const others: number[] = [];
  let highest = 0;
  for (const { cyclesPerDay, cosine, sine } of fit.coefficients) {
    const x = (Math.PI * cyclesPerDay * averagedOver) / 86_400;
    const damping = x === 0 ? 1 : Math.sin(x) / x;
    if (isDaily(cyclesPerDay)) {
      highest = Math.max(highest, cyclesPerDay);
      daily[2 * cyclesPerDay] += damping * cosine;
      daily[2 * cyclesPerDay + 1] += damping * sine;
    } else others.push(2 * Math.PI * cyclesPerDay, damping * cosine, damping * sine);
  }
  const rest = Float64Array.from(others);
  const first = given === null ? 0 : (given.start - fit.epoch) / 86_400_000;
  for (let i = 0; i < n; i++) {
    const days = given === null ? ((at as ArrayLike<number>)[i] - fit.epoch) / 86_400_000 : first + given.seconds[i] / 86_400;
    let sum = 0;
    if (highest > 0) {
      const angle = 2 * Math.PI * (days - Math.floor(days));
      const cosine = Math.cos(angle);
      const sine = Math.sin(angle);
      let [c, s] = [cosine, sine];
      for (let k = 1; k <= highest; k++) {
        sum += daily[2 * k] * c + daily[2 * k + 1] * s;
        const turned = c * cosine - s * sine;
        s = s * cosine + c * sine;
        c = turned;
      }
    }
    for (let k = 0; k < rest.length; k += 3) sum += rest[k + 1] * Math.cos(rest[k] * days) + rest[k + 2] * Math.sin(rest[k] * days);
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
  const { values } = series;
  for (let i = 0; i < tide.length; i++) tide[i] = values[i] - tide[i];
  return Object.freeze({ ...series, values: tide });
}
