import { random } from "../../lib/ground/random.js";
import { type Series, series } from "../../lib/record/series.js";
import { redNoise } from "./inventedHouse.js";

/** Air pressure of an invented station and what loggers with their own clocks make of it. Hours of maximum are local mean solar time. */
export interface PressurePlan {
  readonly days: number;
  readonly step: number;
  readonly longitude?: number;
  readonly level?: number;
  readonly tide?: readonly (readonly [timesPerDay: number, amplitude: number, maximumAt: number])[];
  /** Slow weather, sd hPa and memory h; fast pressure that weighs in on the clocks, sd hPa with 0.6 h. */
  readonly weather?: readonly [number, number];
  readonly fast?: number;
  readonly noise?: number;
}

export const recordStart: number = Date.UTC(2024, 0, 20);

/**
 * Loggers of one air: each with seconds by which its clock is ahead as a function of true time.
 *
 * @returns one pressure series a logger, stamped by its own clock
 */
export function pressureRecord(seed: number, plan: PressurePlan, ahead: readonly ((ms: number) => number)[]): Series[] {
  const { days, step, longitude = 0, level = 1010, tide = [[1, 0.5, 5.5], [2, 1.1, 10]], weather = [2, 40], fast = 0.1, noise = 0.04 } = plan;
  const dice = random(seed);
  const minutes = Math.round(days * 1440) + 2880;
  const slow = redNoise(dice, minutes, 1 / 60, weather[1], weather[0]);
  const quick = redNoise(dice, minutes, 1 / 60, 0.6, fast);
  const air = (ms: number): number => {
    const position = (ms - recordStart) / 60000 + 1440;
    const i = Math.max(0, Math.min(minutes - 2, Math.floor(position)));
    const share = position - i;
    const solar = ms / 3600000 + longitude / 15;
    let p = level + (1 - share) * (slow[i] + quick[i]) + share * (slow[i + 1] + quick[i + 1]);
    for (const [n, amplitude, at] of tide) p += amplitude * Math.cos((2 * Math.PI * n * (solar - at)) / 24);
    return p;
  };
  const n = Math.floor((days * 86400) / step);
  return ahead.map((clock, k) => {
    const times: number[] = [];
    const values: number[] = [];
    for (let i = 0; i < n; i++) {
      // The logger reads when its own clock shows a whole step.
      const shown = recordStart + 1000 * step * i;
      const truth = shown - 1000 * clock(shown);
      times.push(shown);
      values.push(air(truth) + noise * dice.normal());
    }
    return series({ times, values, quantity: "surface_air_pressure", place: ["a", "b", "c"][k] });
  });
}
