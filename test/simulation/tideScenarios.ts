import type { Random } from "../../lib/ground/random.js";
import type { TrueNoise } from "../tideRecord.js";

/**
 * What is missing: nothing, 20 % of the readings at random, blocks of 1 and 3 days (10, 5 and 3 from 180 days on), both, or
 * the same hours of every day, from the first up to the second.
 */
export type Gaps = "none" | "random" | "blocks" | "both" | readonly [off: number, on: number];

/** One line of the table: a noise, a length, a step, gaps, and how many records in the short and the long run. */
export interface TideScenario {
  readonly name: string;
  readonly noise: TrueNoise;
  readonly days: number;
  readonly stepMinutes: number;
  readonly gaps: Gaps;
  readonly short: number;
  readonly long: number;
  /** Changes the noise itself, before readings are lost; the exact bound does not know of it. */
  readonly swell?: (values: Float64Array, days: number, chance: Random) => void;
  /** What is added to the readings alone: steps, a tide that changes. */
  readonly disturb?: (values: Float64Array, perDay: number, chance: Random) => void;
  /** Days at which a change of the level is told to the fit. */
  readonly events?: readonly number[];
}

/** The four kinds of noise: sensor alone, weather that jumps about, smooth weather, and a mixture. */
export const noises: Readonly<Record<string, TrueNoise>> = {
  white: { name: "white", white: 0.5 },
  ar1: { name: "ar1", white: 0.1, ar1: { sd: 4, efolding: 2 } },
  matern: { name: "matern", white: 0.1, matern: { sd: 4, rate: 1 } },
  mixed: { name: "mixed", white: 0.1, ar1: { sd: 0.4, efolding: 0.25 }, matern: { sd: 5, rate: 1 / 3 } },
};
const kinds: readonly string[] = Object.keys(noises);
const gapKinds: readonly Gaps[] = ["none", "random", "blocks"];
const steps: readonly number[] = [60, 10, 5];

const gapsText = (gaps: Gaps): string => (gaps === "none" ? "" : gaps === "both" ? ", random and blocks" : typeof gaps === "string" ? `, ${gaps}` : `, off from ${gaps[0]} to ${gaps[1]} h`);
const named = (key: string, days: number, stepMinutes: number, gaps: Gaps, short: number, long: number): TideScenario => ({
  name: `${key} ${days} d, ${stepMinutes} min${gapsText(gaps)}`,
  noise: noises[key], days, stepMinutes, gaps, short, long,
});

/** Length in days, records in the short and in the long run. */
const lengths: readonly (readonly [days: number, short: number, long: number])[] = [
  [20, 40, 1000], [30, 40, 1000], [60, 24, 1000], [100, 12, 1000], [180, 6, 300], [365, 3, 120],
];
/**
 * Which length goes with which noise (blocks of nine), step (rows of three) and gaps: a balanced thinning of the 216
 * combinations to 36. Every noise meets every step with every kind of gap once and every length; every step and every kind
 * of gap meets every length twice; no pair of step and gap meets a length twice. Found by a search over such tables.
 */
const plan = "014" + "243" + "305" + "401" + "130" + "252" + "322" + "515" + "440" + "553" + "024" + "131";

/** Long enough for everything that is promised. */
export const scenarios: readonly TideScenario[] = [...plan].map((digit, i) => {
  const [days, short, long] = lengths[Number(digit)];
  return named(kinds[Math.floor(i / 9)], days, steps[Math.floor(i / 3) % 3], gapKinds[i % 3], short, long);
});

/** Shorter than 20 days: answered with a warning, held to wider bars. */
export const shortScenarios: readonly TideScenario[] = [
  ...[3, 5, 8, 12, 16].flatMap((days) => kinds.map((key) => named(key, days, 60, "none", days < 8 ? 80 : 50, 1000))),
  ...[5, 8, 12, 16].flatMap((days) => kinds.map((key) => named(key, days, 10, "random", 0, 1000))),
];

/** Weather whose size swings by 60 % over the year, from a season drawn at random. */
function swelling(values: Float64Array, days: number, { uniform }: Random): void {
  const season = 2 * Math.PI * uniform();
  for (let i = 0; i < values.length; i++) values[i] *= 1 + 0.6 * Math.cos(season + (2 * Math.PI * i * days) / values.length / 365.25);
}

/** S1 and S2 that change from day to day by 0.2 hPa, with a memory in days; `about` the mean of these days, or of all days. */
const unsteady = (memory: number, about: "these days" | "all days") => (values: Float64Array, perDay: number, { normal }: Random): void => {
  const days = Math.ceil(values.length / perDay);
  const keep = memory === 0 ? 0 : Math.exp(-1 / memory);
  for (const n of [1, 2]) {
    for (const quarter of [0, 0.25]) {
      const size: Float64Array = new Float64Array(days);
      for (let d = 0, x = normal(); d < days; d++, x = keep * x + Math.sqrt(1 - keep * keep) * normal()) size[d] = 0.2 * x;
      const mean = about === "these days" ? size.reduce((sum, x) => sum + x, 0) / days : 0;
      for (let i = 0; i < values.length; i++) values[i] += (size[Math.floor(i / perDay)] - mean) * Math.cos(2 * Math.PI * ((n * i) / perDay - quarter));
    }
  }
};

/** A level that rises at once and stays. */
const step = (size: number, day: number) => (values: Float64Array, perDay: number): void => {
  for (let i = Math.round(day * perDay); i < values.length; i++) values[i] += size;
};

const with_ = (from: TideScenario, name: string, more: Partial<TideScenario>): TideScenario => ({ ...from, name: `${from.name}: ${name}`, ...more });
const few = 24;

/** What the method was chosen without trying. Held to bars of their own in tideUntried.test.ts. */
export const untried: Readonly<Record<"night" | "swell" | "jumps" | "unsteady", readonly TideScenario[]>> = {
  night: kinds.flatMap((key) => [[20, [8, 20]], [60, [8, 20]], [20, [20, 6]], [60, [20, 6]], [60, [9, 17]]].map(([days, off]) => named(key, days as number, 60, off as [number, number], few, 150))),
  swell: ["ar1", "matern"].flatMap((key) => [180, 365].map((days) => with_(named(key, days, 60, "none", 6, 100), "weather swings by 60 % with the season", { swell: swelling }))),
  jumps: ["ar1", "matern"].flatMap((key) => [20, 60].flatMap((days) => {
    const from = named(key, days, 60, "none", few, 150);
    return [
      with_(from, "15 hPa at once, untold", { disturb: step(15, 7.4) }),
      with_(from, "5 hPa at once, untold", { disturb: step(5, 7.4) }),
      with_(from, "1.5 hPa at once, untold", { disturb: step(1.5, 7.4) }),
      with_(from, "1.5 hPa at once, told three hours late", { disturb: step(1.5, 7.4), events: [7.525] }),
      with_(from, "a move told that changed nothing", { events: [7.525] }),
    ];
  })),
  unsteady: [0, 3, 10].flatMap((memory) => (["these days", "all days"] as const).map((about) =>
    with_(named("ar1", 60, 60, "none", few, 150), `S1, S2 change by 0.2 hPa, memory ${memory} d, mean of ${about}`, { disturb: unsteady(memory, about) }))),
};
