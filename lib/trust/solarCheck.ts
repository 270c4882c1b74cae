import type { TideFit } from "../cycles/tide/tideFit.js";
import { requireWithin } from "../ground/complaint.js";
import { clockTime } from "../ground/clockTime.js";
import type { Estimate } from "../ground/estimate.js";
import { spanInWords } from "../ground/spanInWords.js";
import { meanSolarHours } from "../ground/solarTime.js";
import { leftOut } from "../record/flag.js";
import type { Series } from "../record/series.js";

/** What the twice-daily tide says about the logger's clock and barometer. */
export interface SolarCheck {
  /** Hour of S2's first crest · h of local mean solar time; null when S2 is not seen. */
  readonly maximumAt: Estimate | null;
  readonly amplitude: Estimate;
  /** Amplitudes found at sound stations of this latitude and pressure · hPa. */
  readonly expected: { readonly low: number; readonly high: number };
  readonly plausible: boolean;
  /** What seems to be wrong: the clock, the barometer, or only the size of its tide, which a special place may have; absent when plausible. */
  readonly suspect?: "clock" | "barometer" | "size";
  readonly says: string;
}

/**
 * Hours of S2's first crest at sound stations nearly everywhere.
 *
 * @source measured on 350 sound real stations at latitudes 3° to 40°: 10.08 h with a spread of 0.16 h; the band is wider
 */
export const soundHours: { readonly low: number; readonly high: number } = Object.freeze({ low: 9.3, high: 10.7 });

/** S1 above this is a barometer that feels temperature, or pressure reduced to sea level at altitude · hPa; sound stations: up to 2. */
const mostS1 = 2;
/** Usual hour of the crest, and of the warmest moment of the mean day's first harmonic, by the sun. */
const usualCrest = 10.08;
const usualWarmest = 14.5;

/** A crest known to no better than this could be that of a clock an hour wrong either way, and says nothing for it · h. */
const mostHalfWidth = 1;
/** Beyond this, half the width of the band, a crest is told with its interval, and one outside the band is more than at its edge · h. */
const fineHalfWidth = (soundHours.high - soundHours.low) / 2;

/** Share of the usual formula that sound stations' amplitudes lie between; same source, band widened for middle latitudes. */
const soundShare = { low: 0.7, high: 1.6 };

/**
 * Judges the clock and the barometer by the tide: its crest stands at about ten by the sun, and its size follows the latitude.
 *
 * A clock wrong by hours moves the crest; twelve hours do not, so the warmest hour of the day picks the half. A crest whose whole
 * interval lies outside the usual hours is a wrong clock's; one known to no better than an hour, or outside with an interval that
 * reaches them, cannot tell, and nothing is held against the clock. Where S1 is larger than any sound barometer shows, the barometer is
 * told first: what makes a false S1 makes a false S2, whose hour says nothing. The formula for the size, 1.16 cos³(latitude) hPa at 1013 hPa, is context and not truth: real places differ by −20 to +60 %.
 *
 * @param fit         tide of an outdoor barometer, or of the only one
 * @param latitude    degrees north
 * @param temperature outdoor air temperature, or null
 * @returns           see SolarCheck, frozen · null when the fit has no line S2
 * @throws RangeError when latitude is outside ±90 degrees
 * @source 1.16 cos³φ: Haurwitz 1956, Chapman & Lindzen 1970, from memory; bands as above
 * @example solarCheck(fit, -7.1, temperature)?.plausible // true
 */
export function solarCheck(fit: TideFit, latitude: number, temperature: Series | null): SolarCheck | null {
  requireWithin("solarCheck", "latitude", latitude, -90, 90, "degrees");
  const s2 = fit.constituents.find((c) => c.name === "S2");
  if (s2 === undefined) return null;
  const usual = 1.16 * Math.cos((latitude * Math.PI) / 180) ** 3 * (fit.mean / 1013);
  const expected = Object.freeze({ low: soundShare.low * usual, high: soundShare.high * usual });
  const warmest = temperature === null ? Number.NaN : warmestHour(temperature, fit.longitude);
  const { amplitude, maximumAt } = s2;
  const tell = (suspect: SolarCheck["suspect"] | null, says: string): SolarCheck => Object.freeze({ maximumAt, amplitude, expected, plausible: suspect === null, ...(suspect === null ? {} : { suspect }), says });
  const s1 = fit.constituents.find((c) => c.name === "S1");
  if (s1 !== undefined && s1.amplitude.low > mostS1) {
    return tell("barometer", `the once-daily tide is ${s1.amplitude.value.toFixed(1)} hPa, where sound barometers show up to ${mostS1} hPa: the barometer may feel temperature, or its pressure is reduced to sea level with the temperature of the moment; the hour of its twice-daily tide tells nothing then`);
  }
  const size = `${amplitude.value.toFixed(2)} hPa (${expected.low.toFixed(2)} to ${expected.high.toFixed(2)} is usual at this latitude)`;
  if (!s2.detected || maximumAt === null) {
    const missing = amplitude.high < expected.low;
    return tell(
      missing ? "barometer" : null,
      missing
        ? `the twice-daily tide is missing: at most ${amplitude.high.toFixed(2)} hPa where ${expected.low.toFixed(2)} to ${expected.high.toFixed(2)} is usual at this latitude; the barometer may be sealed in or broken`
        : "the twice-daily tide is too weak in this record to check the clock by it",
    );
  }
  // Ends are unwrapped, so a crest near 12 or 0 h may overlap the band from the next half day.
  const clockFits = [-12, 0, 12].some((turn) => maximumAt.high + turn >= soundHours.low && maximumAt.low + turn <= soundHours.high);
  const sizeFits = amplitude.high >= expected.low && amplitude.low <= expected.high;
  const half = (maximumAt.high - maximumAt.low) / 2;
  const crest = `${clockTime(maximumAt.value)} ${half > fineHalfWidth ? `± ${spanInWords(3600 * half)} ` : ""}by the sun`;
  const off = clockError(maximumAt.value, warmest);
  if (!clockFits) {
    const how = Number.isNaN(warmest) ? "or the same and twelve hours, which only the temperature could tell" : `told from twelve hours more or less by the warmest hour, ${clockTime(warmest)}`;
    return tell("clock", `the tide crests at ${crest}, where 09:18 to 10:42 is usual: the clock or the zone seems to be ${Math.abs(off).toFixed(1)} h ${off > 0 ? "ahead" : "behind"} (${how})`);
  }
  const isInside = maximumAt.value >= soundHours.low && maximumAt.value <= soundHours.high;
  const isUnsure = half > mostHalfWidth || (!isInside && half > fineHalfWidth);
  const stands = isUnsure ? "too uncertain to check the clock by it" : isInside ? "as it should" : "at the edge of what is usual, 09:18 to 10:42";
  // Half a day is told by the temperature even where the crest tells no hour.
  if (Math.abs(off) > 6) return tell("clock", `the tide crests at ${crest}, ${stands}, but the warmest hour comes out at ${clockTime(warmest)}: the clock seems to be twelve hours off (am and pm exchanged?)`);
  if (isUnsure) {
    const unsure = `${crest}, where 09:18 to 10:42 is usual: ${stands}`;
    return sizeFits ? tell(null, `the tide crests at ${unsure}`) : tell("size", `the size of the tide is ${size}: a sign of the barometer, or of a special place; its crest stands at ${unsure}`);
  }
  if (!sizeFits) return tell("size", `the tide crests at ${crest}, ${stands}, but its size is ${size}: a sign of the barometer rather than of the clock, or of a special place`);
  return tell(null, `the tide crests at ${crest}, ${stands}, and its size is ${size}: ${isInside ? "clock, zone and barometer fit the sun" : "a clock up to half an hour off, a stamp that means another moment, or the place itself"}`);
}

/**
 * Hours by which the clock is ahead (negative: behind): S2 tells them modulo twelve, the warmest hour picks the half.
 *
 * @param crest   hour of S2's crest by the logger's clock and the sun's
 * @param warmest warmest hour of the mean day; NaN picks the smaller error
 */
function clockError(crest: number, warmest: number): number {
  const near = (hours: number, period: number): number => ((((hours + period / 2) % period) + period) % period) - period / 2;
  const small = near(crest - usualCrest, 12);
  if (Number.isNaN(warmest)) return small;
  const other = small > 0 ? small - 12 : small + 12;
  const miss = (hours: number): number => Math.abs(near(warmest - usualWarmest - hours, 24));
  return miss(other) < miss(small) ? other : small;
}

/** Hour of the mean day's first harmonic of temperature, by the sun; NaN when the day has no clear one. */
function warmestHour(series: Series, longitude: number): number {
  const [sums, counts, hours] = [0, 1, 2].map(() => new Float64Array(24));
  const { start, seconds, values, flags } = series;
  for (let i = 0; i < values.length; i++) {
    const v = values[i];
    if (Number.isNaN(v) || (flags[i] & leftOut) !== 0) continue;
    const at = meanSolarHours(start + 1000 * seconds[i], longitude);
    const h = Math.floor(at) % 24;
    sums[h] += v;
    hours[h] += at;
    counts[h]++;
  }
  let c = 0;
  let s = 0;
  for (let h = 0; h < 24; h++) {
    if (counts[h] === 0) return Number.NaN;
    // Where the hour's readings stand, not its middle: hourly readings on the hour would come out half an hour late.
    const angle = (2 * Math.PI * hours[h]) / counts[h] / 24;
    c += (sums[h] / counts[h]) * Math.cos(angle);
    s += (sums[h] / counts[h]) * Math.sin(angle);
  }
  // Less than half a degree of daily swing says nothing about noon.
  if (Math.hypot(c, s) / 12 < 0.5) return Number.NaN;
  return ((Math.atan2(s, c) * 12) / Math.PI + 24) % 24;
}
