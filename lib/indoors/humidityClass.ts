import { mustSentence, requireWithin } from "../ground/complaint.js";

/** Mean moisture excess on days of like temperature outside. */
export interface OutdoorClass {
  /** Daily mean outside · °C · the first included · −Infinity and Infinity are told as null. */
  readonly from: number | null;
  readonly to: number | null;
  readonly days: number;
  /** Mean of those days, a description · g m-3 · null without a day. */
  readonly excess: number | null;
}

/** Which class of moisture load a record falls into. */
export interface HumidityClass {
  /** 1 (driest) to 5, by number only · null when the interval crosses a limit, or the air outside is too warm for classes. */
  readonly class: number | null;
  /** Share of the weeks at or below that class (at or below that of the mean where undecided) · 0…1 · null without a week. */
  readonly share: number | null;
  /** Classes that the interval of the mean reaches. */
  readonly lowest: number | null;
  readonly highest: number | null;
  /** Running weeks that were judged. */
  readonly weeks: number;
  /** The excess by the temperature outside: lived-in houses have several g/m³ in frost and under one in summer. */
  readonly byOutdoor: readonly OutdoorClass[];
  readonly says: string;
}

/** Limits of the classes of outdoor temperature · °C. */
const outdoorLimits: readonly number[] = [0, 5, 10, 15];

/** Upper limits of classes 1 to 4 at 0 °C and below · g m-3; they fall on a line to 0 at 20 °C. */
const limits: readonly number[] = [2, 4, 6, 8];
const zeroAt = 20;
/** Below this share of the limits at 0 °C (above 18 °C outside) the classes lie closer together than sensors can tell. */
const leastScale = 0.1;
const daysNeeded = 5;

/**
 * Upper limit of a humidity class at an outdoor temperature.
 *
 * @param number  class · 1…4 (class 5 has none)
 * @param outdoor mean outdoor temperature · °C
 * @returns       moisture excess · g m-3
 * @throws RangeError when the class is not 1 to 4
 * @example humidityClassLimit(2, 10) // 2
 * @source ISO 13788, annex on internal humidity classes (from memory); uses named for each class differ between editions, so classes are told by number only
 */
export function humidityClassLimit(number: number, outdoor: number): number {
  requireWithin("humidityClassLimit", "number", number, 1, limits.length);
  return (limits[Math.round(number) - 1] ?? Number.NaN) * scaleAt(outdoor);
}

function scaleAt(outdoor: number): number {
  return Math.min(1, Math.max(0, 1 - outdoor / zeroAt));
}

/**
 * Humidity class of a house from its moisture excess and the temperature outside.
 *
 * The class is that of the mean excess against the mean limit of the running weeks; it is undecided when the excess plus or minus its
 * total interval (weather and sensors) crosses a limit. Not tested by simulation.
 *
 * @param excess       daily moisture excess · g m-3 · [days] · NaN is missing
 * @param outdoor      daily outdoor temperature · °C · [days]
 * @param halfWidth    half of the total interval of the mean excess · g m-3 · from 0
 * @returns            see HumidityClass, frozen
 * @throws RangeError  when lengths differ or the half width is negative
 * @example humidityClass(new Array(30).fill(3), new Array(30).fill(0), 0.5).class // 2
 * @source limits as humidityClassLimit
 */
export function humidityClass(excess: ArrayLike<number>, outdoor: ArrayLike<number>, halfWidth: number): HumidityClass {
  if (outdoor.length !== excess.length) throw new RangeError(mustSentence("humidityClass", "outdoor", `have the length of excess, ${excess.length} d`, `${outdoor.length} d`));
  requireWithin("humidityClass", "halfWidth", halfWidth, 0, Infinity, "g m-3");
  const byOutdoor = outdoorClasses(excess, outdoor);
  const weeks: { excess: number; scale: number }[] = [];
  for (let k = 6; k < excess.length; k++) {
    const days = Array.from({ length: 7 }, (_, j) => k - j).filter((d) => Number.isFinite(excess[d]) && Number.isFinite(outdoor[d]));
    if (days.length < daysNeeded) continue;
    const meanOf = (values: ArrayLike<number>): number => days.reduce((sum, d) => sum + values[d], 0) / days.length;
    weeks.push({ excess: meanOf(excess), scale: scaleAt(meanOf(outdoor)) });
  }
  const n = weeks.length;
  if (n === 0) return Object.freeze({ class: null, share: null, lowest: null, highest: null, weeks: 0, byOutdoor, says: "No humidity class: less than a week of humidity in both places." });
  const mean = weeks.reduce((sum, w) => sum + w.excess, 0) / n;
  const scale = weeks.reduce((sum, w) => sum + w.scale, 0) / n;
  if (scale < leastScale) {
    const says = "No humidity class: it is too warm outside; the limits fall to 0 at 20 °C and lie closer together than sensors can tell.";
    return Object.freeze({ class: null, share: null, lowest: null, highest: null, weeks: n, byOutdoor, says });
  }
  const classOf = (v: number, at: number): number => 1 + limits.filter((limit) => v >= limit * at).length;
  const lowest = classOf(mean - halfWidth, scale);
  const highest = classOf(mean + halfWidth, scale);
  const middle = classOf(mean, scale);
  const share = weeks.filter((w) => classOf(w.excess, w.scale) <= middle).length / n;
  const says =
    lowest === highest
      ? `Humidity class ${middle} (limits from memory of ISO 13788).`
      : `Humidity class undecided between ${lowest} and ${highest}: the interval of the moisture excess, sensors included, crosses a limit.`;
  return Object.freeze({ class: lowest === highest ? middle : null, share, lowest, highest, weeks: n, byOutdoor, says });
}

function outdoorClasses(excess: ArrayLike<number>, outdoor: ArrayLike<number>): readonly OutdoorClass[] {
  return Object.freeze(
    [-Infinity, ...outdoorLimits].map((from, i) => {
      const to = outdoorLimits[i] ?? Infinity;
      let [sum, days] = [0, 0];
      for (let k = 0; k < excess.length; k++) {
        if (!Number.isFinite(excess[k]) || !(outdoor[k] >= from && outdoor[k] < to)) continue;
        sum += excess[k];
        days++;
      }
      return Object.freeze({ from: from === -Infinity ? null : from, to: to === Infinity ? null : to, days, excess: days === 0 ? null : sum / days });
    }),
  );
}
