import { mustSentence } from "../ground/complaint.js";
import type { Estimate } from "../ground/estimate.js";
import { mean } from "../ground/summary.js";
import { dailyMeans, hoursADay } from "./pairedHours.js";
import { shareOfHours } from "./shareOfHours.js";

/** Hours of a room against one adaptive comfort band. */
export interface ComfortBand {
  /** Standard and category. */
  readonly band: string;
  /** Hours that could be judged: the outdoor running mean lies in the band's range. */
  readonly hours: number;
  /** Hours too cold and too warm. */
  readonly below: number;
  readonly above: number;
  /** Share of the judged hours inside the band · null under 6 days. */
  readonly within: Estimate | null;
}

/** How a room that is not cooled by machines stands against what people adapt to. */
export interface AdaptiveComfort {
  /** Running mean of the air outside · °C · mean over the record, NaN when never known. */
  readonly outdoorRunningMean: number;
  readonly bands: readonly ComfortBand[];
  readonly says: readonly string[];
}

interface BandRule {
  readonly band: string;
  readonly slope: number;
  readonly level: number;
  readonly under: number;
  readonly over: number;
  readonly from: number;
  readonly to: number;
  readonly weighted: boolean;
}

/** From memory, not looked up. */
const rules: readonly BandRule[] = [
  { band: "EN 16798-1 category I", slope: 0.33, level: 18.8, under: 3, over: 2, from: 10, to: 30, weighted: true },
  { band: "EN 16798-1 category II", slope: 0.33, level: 18.8, under: 4, over: 3, from: 10, to: 30, weighted: true },
  { band: "EN 16798-1 category III", slope: 0.33, level: 18.8, under: 5, over: 4, from: 10, to: 30, weighted: true },
  { band: "ASHRAE 55, 90 %", slope: 0.31, level: 17.8, under: 2.5, over: 2.5, from: 10, to: 33.5, weighted: false },
  { band: "ASHRAE 55, 80 %", slope: 0.31, level: 17.8, under: 3.5, over: 3.5, from: 10, to: 33.5, weighted: false },
];

const weights: readonly number[] = [1, 0.8, 0.6, 0.5, 0.4, 0.3, 0.2];
const hoursNeeded = 18;
/** From here on the standards' slope is doubtful for people of hot and humid climates · °C. */
const hotFrom = 22;

/**
 * Running mean of daily outdoor temperatures, yesterday first: (Θ₁ + 0.8 Θ₂ + 0.6 Θ₃ + 0.5 Θ₄ + 0.4 Θ₅ + 0.3 Θ₆ + 0.2 Θ₇)/3.8.
 *
 * @param daily daily means · °C · yesterday first · up to 7 are used · NaN is missing
 * @param options.weighted false takes the plain mean of the days
 * @returns     °C · NaN without yesterday, or with fewer than 5 of the 7 days (the others' weights are then shared out)
 * @example outdoorRunningMean([20, 18, 16, 15, 14, 13, 12]) // 16.684
 * @source EN 16798-1 (from memory)
 */
export function outdoorRunningMean(daily: ArrayLike<number>, { weighted = true }: { weighted?: boolean } = {}): number {
  let [sum, weight, days] = [0, 0, 0];
  for (let k = 0; k < Math.min(daily.length, weights.length); k++) {
    if (Number.isNaN(daily[k])) continue;
    const w = weighted ? weights[k] : 1;
    sum += w * daily[k];
    weight += w;
    days++;
  }
  return days < 5 || Number.isNaN(daily[0]) ? Number.NaN : sum / weight;
}

/**
 * Hours of a room inside two adaptive comfort bands, for rooms without mechanical cooling whose people can open windows.
 *
 * The bands take the temperature that people feel; a thermometer tells that of the air. From memory, and not made for
 * hot and humid climates, where people's answer to the outdoor temperature was found about twice as steep.
 *
 * @param inside  air temperature of the room · °C · hourly · [n], hour 0 a midnight · NaN is missing
 * @param outside air temperature outside · °C · hourly · [n] · NaN is missing
 * @returns       see AdaptiveComfort, frozen
 * @throws RangeError when lengths differ
 * @example adaptiveComfort(inside, outside).bands[1].within?.value // 0.243
 * @source EN 16798-1 and ASHRAE 55 (from memory); hot-humid climates: Toe & Kubota 2013 (abstract read)
 */
export function adaptiveComfort(inside: ArrayLike<number>, outside: ArrayLike<number>): AdaptiveComfort {
  const n = inside.length;
  if (outside.length !== n) throw new RangeError(mustSentence("adaptiveComfort", "outside", `have the length of inside, ${n} h`, `${outside.length} h`));
  const daily = dailyMeans(outside, hoursNeeded);
  const running = [true, false].map((weighted) => daily.map((_, k) => outdoorRunningMean(daily.subarray(Math.max(0, k - weights.length), k).toReversed(), { weighted })));
  const bands = rules.map(({ band, slope, level, under, over, from, to, weighted }): ComfortBand => {
    let [below, above] = [0, 0];
    const isWithin = Float64Array.from({ length: n }, (_, h) => {
      const air = running[weighted ? 0 : 1][Math.floor(h / hoursADay)];
      if (Number.isNaN(inside[h]) || !(air >= from && air <= to)) return Number.NaN;
      const comfortable = slope * air + level;
      if (inside[h] < comfortable - under) below++;
      else if (inside[h] > comfortable + over) above++;
      else return 1;
      return 0;
    });
    const { hoursJudged, share } = shareOfHours(isWithin);
    return Object.freeze({ band, hours: hoursJudged, below, above, within: share });
  });
  const outdoor = mean(running[0]);
  const says = ["Comfort bands from memory of two standards, for rooms without cooling machines; a thermometer tells air, people feel walls and sun too."];
  if (outdoor > hotFrom) says.push("In hot and humid climates these bands mislead: people there were found to follow the outdoor temperature about twice as steeply.");
  return Object.freeze({ outdoorRunningMean: outdoor, bands: Object.freeze(bands), says: Object.freeze(says) });
}
