import type { TrueNoise } from "../tideRecord.js";

/** One line of the table: a noise, a length, a step, gaps or not, and how many records in the short and the long run. */
export interface TideScenario {
  readonly name: string;
  readonly noise: TrueNoise;
  readonly days: number;
  readonly stepMinutes: number;
  /** 20 % of readings at random and blocks of 1 and 3 days (10, 5 and 3 from 180 days on), or none. */
  readonly gaps: boolean;
  readonly short: number;
  readonly long: number;
}

/** The four kinds of noise: sensor alone, weather that jumps about, smooth weather, and a mixture. */
export const noises: Readonly<Record<string, TrueNoise>> = {
  white: { name: "white", white: 0.5 },
  ar1: { name: "ar1", white: 0.1, ar1: { sd: 4, efolding: 2 } },
  matern: { name: "matern", white: 0.1, matern: { sd: 4, rate: 1 } },
  mixed: { name: "mixed", white: 0.1, ar1: { sd: 0.4, efolding: 0.25 }, matern: { sd: 5, rate: 1 / 3 } },
};

const each = (days: number, stepMinutes: number, gaps: boolean, short: number, long: number, which = Object.keys(noises)): TideScenario[] =>
  which.map((key) => ({ name: `${key} ${days} d, ${stepMinutes} min${gaps ? ", gaps" : ""}`, noise: noises[key], days, stepMinutes, gaps, short, long }));

/** Long enough for everything that is promised. */
export const scenarios: readonly TideScenario[] = [
  ...each(20, 60, false, 60, 1000),
  ...each(20, 60, true, 60, 1000),
  ...each(20, 5, true, 40, 300),
  ...each(30, 10, true, 40, 300),
  ...each(60, 60, true, 30, 500),
  ...each(180, 60, true, 0, 150),
  ...each(365, 60, false, 4, 100),
  ...each(365, 60, true, 0, 100, ["ar1", "matern"]),
];

/** Shorter than 20 days: answered with a warning, held to wider bars. */
export const shortScenarios: readonly TideScenario[] = [
  ...each(3, 60, false, 80, 600),
  ...each(5, 60, false, 80, 600),
  ...each(8, 60, false, 60, 600),
  ...each(12, 60, false, 60, 600),
  ...each(12, 10, true, 0, 300),
];
