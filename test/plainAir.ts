import { random } from "../lib/ground/random.js";
import { type Series, series } from "../lib/record/series.js";

/** Pressure of the weather about 0 at an instant · seconds from a start; hPa. */
export type Air = (seconds: number) => number;

/**
 * Air as people invent it for a trial: a first-order process by the minute (`rough`), by the hour with lines between (`lined`), a process
 * twice as smooth (`smooth`), and eight slow waves of 2 to 14 days with nothing faster at all (`waves`).
 */
export const airKinds = ["rough", "lined", "smooth", "waves"] as const;
export type AirKind = (typeof airKinds)[number];

const day = 86_400;

/** @param days how long it lasts · d */
export function plainAir(kind: AirKind, seed: number, days: number): Air {
  const chance = random(seed);
  if (kind === "waves") {
    const waves = Array.from({ length: 8 }, () => ({ rate: (2 * Math.PI) / ((2 + 12 * chance.uniform()) * day), phase: 2 * Math.PI * chance.uniform(), size: 2 * chance.normal() }));
    return (t) => waves.reduce((sum, { rate, phase, size }) => sum + size * Math.cos(rate * t + phase), 0);
  }
  const step = kind === "lined" ? 3600 : 60;
  const before = 100;
  const values: Float64Array = new Float64Array(Math.ceil((days * day) / step) + 2 * before);
  const memory = (d: number): number => Math.exp(-step / (d * day));
  const [slow, quick] = kind === "smooth" ? [memory(2), memory(0.5)] : [memory(2.5), 0];
  const size = kind === "smooth" ? (4 * step * Math.sqrt(1 - quick * quick)) / day : 4 * Math.sqrt(1 - slow * slow);
  for (let i = 1, rate = 0; i < values.length; i++) {
    rate = quick * rate + chance.normal();
    values[i] = slow * values[i - 1] + size * rate;
  }
  return (t) => {
    const at = t / step + before;
    const i = Math.floor(at);
    return values[i] + (at - i) * (values[i + 1] - values[i]);
  };
}

/** A tide of the tropics · hPa. */
export function plainTide(t: number): number {
  return 0.6 * Math.cos(2 * Math.PI * (t / day - 0.25)) + Math.cos(4 * Math.PI * (t / day - 0.4));
}

/** Written values: a barometer's noise and its rounding · hPa. */
export function written(value: number, noise: number, rounding: number, normal: () => number): number {
  const read = value + noise * normal();
  return rounding > 0 ? Math.round(read / rounding) * rounding : read;
}

/** How some loggers write: days, seconds from reading to reading, noise and rounding · hPa. */
export interface Logging {
  readonly days: number;
  readonly step: number;
  readonly noise: number;
  readonly rounding: number;
}

/** Two barometers in the same air, the first one's clock ahead by up to five minutes either way. @returns the seconds it is ahead, and both */
export function twoClocks(kind: AirKind, seed: number, { days, step, noise, rounding }: Logging): { readonly truth: number; readonly a: Series; readonly b: Series } {
  const air = plainAir(kind, seed, days);
  const chance = random(seed + 500_000);
  const truth = Math.round((chance.uniform() - 0.5) * 600);
  const seconds = Array.from({ length: Math.floor((days * day) / step) }, (_, i) => step * i);
  const times = seconds.map((t) => Date.UTC(2024, 3, 1) + 1000 * t);
  const logged = (place: string, ahead: number, level: number): Series =>
    series({ place, quantity: "surface_air_pressure", times, values: seconds.map((t) => written(level + air(t - ahead) + plainTide(t - ahead), noise, rounding, chance.normal)) });
  return { truth, a: logged("a", truth, 860), b: logged("b", 0, 860.7) };
}
