import { saturationVaporPressure } from "../air/saturationVaporPressure.js";
import { absoluteHumidity, absoluteHumidityFromVaporPressure } from "../air/absoluteHumidity.js";
import { mustSentence, requireReadings } from "../ground/complaint.js";
import { type Estimate, estimate } from "../ground/estimate.js";
import { longRunMean } from "../ground/longRunVariance.js";

/** What the two sensors differ by themselves, inside minus outside: beside the weather's interval, never inside it. */
export interface SensorOffset {
  /** K. */
  readonly temperature: Estimate | null;
  /** %. */
  readonly humidity: Estimate | null;
  /** g m-3. */
  readonly moisture: Estimate | null;
  /** `co-location`: measured side by side and taken off · `class`: what uncorrected sensors of the usual class differ by. */
  readonly basis: "co-location" | "class";
}

/** Bias of two sensors side by side. */
export interface SideBySide {
  /** Inside's sensor minus outside's · null under 6 common hours. */
  readonly bias: Estimate | null;
  readonly hours: number;
}

/** How two uncorrected sensors of the usual class differ: about these much, and seldom more than the second. */
const classTemperature: readonly [number, number] = [0.3, 0.6];
const classHumidity: readonly [number, number] = [2, 3];
const leastHours = 6;

/**
 * Bias of two sensors that stood side by side, from their hourly means.
 *
 * It holds for the conditions of those days: sun, wind and damp differ later. Under 24 hours it is a first look.
 *
 * @param inside, outside hourly means of one quantity while side by side · [n] · NaN is missing
 * @param options.unit    unit of the difference
 * @returns               see SideBySide, frozen
 * @throws RangeError     when lengths differ, or a value is infinite or beyond ±1e60
 * @example sideBySide([20.3, 20.4, 20.2, 20.3, 20.4, 20.3], [20, 20, 20, 20, 20, 20], { unit: "K" }).bias?.value // 0.317
 * @source mean of hourly differences with a long-run variance over hours; coverage in indoors README
 */
export function sideBySide(inside: ArrayLike<number>, outside: ArrayLike<number>, { unit }: { unit: string }): SideBySide {
  if (outside.length !== inside.length) throw new RangeError(mustSentence("sideBySide", "outside", `have the length of inside, ${inside.length} h`, `${outside.length} h`));
  requireReadings("sideBySide", "inside", inside);
  requireReadings("sideBySide", "outside", outside);
  const differences = Array.from(inside, (v, h) => v - outside[h]);
  const first = differences.findIndex((v) => !Number.isNaN(v));
  const last = differences.findLastIndex((v) => !Number.isNaN(v));
  const kept = first < 0 ? [] : differences.slice(first, last + 1);
  const hours = kept.filter((v) => !Number.isNaN(v)).length;
  const hasNeighbors = kept.some((v, h) => h > 0 && !Number.isNaN(v) && !Number.isNaN(kept[h - 1]));
  if (hours < leastHours || !hasNeighbors) return Object.freeze({ bias: null, hours });
  const { mean: value, standardError, low, high } = longRunMean(kept);
  return Object.freeze({ bias: estimate({ value, standardError, low, high, unit }), hours });
}

/**
 * What two uncorrected sensors of the usual hobby class may differ by: 0.3 to 0.6 K, 2 to 3 % of humidity, and the moisture that makes.
 *
 * The value is 0 (nobody knows the sign), the standard error the usual difference, the ends the large one.
 *
 * @param inside, outside mean air of the two places · °C and % · humidity NaN where it was not logged
 * @returns               see SensorOffset, basis "class"; humidity and moisture null without humidity
 * @example sensorClass({ temperature: 20, humidity: 50 }, { temperature: 20, humidity: 50 }).moisture?.standardError // 0.763
 * @source steady differences of such sensors: a two-week test (upontheheath.de) and makers' classes; moisture by error propagation
 */
export function sensorClass(inside: { temperature: number; humidity: number }, outside: { temperature: number; humidity: number }): SensorOffset {
  const around = ([usual, large]: readonly [number, number], unit: string): Estimate => estimate({ value: 0, standardError: usual, low: -large, high: large, unit });
  const temperature = around(classTemperature, "K");
  const places = [inside, outside];
  if (places.some((p) => !Number.isFinite(p.temperature) || !(p.humidity >= 0 && p.humidity <= 105))) {
    return Object.freeze({ temperature, humidity: null, moisture: null, basis: "class" });
  }
  // Each sensor's part: 3 % of humidity and 0.3 K, taken as unrelated.
  const part = places.reduce((sum, { temperature: t, humidity: rh }) => {
    const byHumidity = (classHumidity[1] / 100) * absoluteHumidityFromVaporPressure(saturationVaporPressure(t), t);
    const byTemperature = absoluteHumidity(t + classTemperature[0], rh) - absoluteHumidity(t, rh);
    return sum + byHumidity ** 2 + byTemperature ** 2;
  }, 0);
  return Object.freeze({ temperature, humidity: around(classHumidity, "%"), moisture: around([Math.sqrt(part), Math.sqrt(part)], "g m-3"), basis: "class" });
}
