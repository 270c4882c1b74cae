import { random } from "../../lib/ground/random.js";
import { sunPosition } from "../../lib/ground/sunPosition.js";
import { type Readings, redNoise } from "./inventedHouse.js";

/** A year of an invented place, with seasons, and a logger with a clock of its own. Nothing imitates a measured place. */
export interface SeasonPlan {
  readonly days: number;
  readonly step: number;
  readonly start: number;
  readonly latitude: number;
  readonly longitude: number;
  /** Reading steps of temperature (K), humidity (%), pressure (hPa); 0 keeps all digits. */
  readonly digits?: readonly [number, number, number];
  /** Mean of the year · °C. */
  readonly mean?: number;
  /** Seconds by which the logger's clock is ahead, as a function of what it shows · epoch ms. */
  readonly clock?: (shown: number) => number;
}

const hourMs = 3_600_000;
const dayMs = 24 * hourMs;
const fine = 1 / 6;

/**
 * Air that the true sun drives: warmth follows the sun's height through clouds with a delay of hours that the season changes; the tide
 * turns with the season beyond the equation of time; weather passes with fronts. Everything is drawn from the seed.
 */
export function seasonHouse(seed: number, { days, step, start, latitude, longitude, digits = [0.1, 1, 0.1], mean, clock = () => 0 }: SeasonPlan): Readings {
  const dice = random(seed);
  const from = start - 2 * dayMs;
  const n = Math.round(((days + 4) * 24) / fine);
  const isTropics = Math.abs(latitude) < 23.5;
  const red = (memory: number, sd: number): Float64Array => redNoise(dice, n, fine, memory, sd);
  const phase = (): number => 2 * Math.PI * dice.uniform();
  const slowP = smoothed(red(30, (isTropics ? 1.2 : 8.5) * Math.SQRT2), 30);
  const fastP = red(0.6, isTropics ? 0.06 : 0.12);
  const slowT = red(70, isTropics ? 1.1 : 3.2);
  const fastT = red(1.5, 0.35);
  const clouds = red(25, 0.35);
  const vapor = red(90, 1.2);
  const memory = 3 + 4 * dice.uniform();
  const [memoryTurn, yearTurn, halfTurn] = [phase(), phase(), phase()];
  const scale = Math.cos((latitude * Math.PI) / 180) ** 3;
  const s2 = 1.16 * scale * (0.85 + 0.3 * dice.uniform());
  const crest = 9.7 + 0.7 * dice.uniform();
  const s1 = 0.25 + 0.4 * dice.uniform();
  const t = new Float64Array(n);
  const p = new Float64Array(n);
  const e = new Float64Array(n);
  const annual = isTropics ? 1.5 : 9;
  const center = mean ?? (isTropics ? 24 : 9);
  const radians = Math.PI / 180;
  let warmth = 0;
  let sun = sunPosition(from);
  for (let i = 0; i < n; i++) {
    const at = from + i * fine * hourMs;
    if (i % 36 === 0) sun = sunPosition(at);
    const year = (2 * Math.PI * at) / (365.2425 * dayMs);
    const solar = (((at / hourMs + longitude / 15 + sun.equationOfTime / 60) % 24) + 24) % 24;
    const height = Math.sin(latitude * radians) * Math.sin(sun.declination * radians) + Math.cos(latitude * radians) * Math.cos(sun.declination * radians) * Math.cos((solar - 12) * 15 * radians);
    const share = Math.min(1, Math.max(0.1, 0.6 + clouds[i]));
    const slack = memory * (1 + 0.25 * Math.sin(year + memoryTurn));
    warmth += fine * (4.2 * share * Math.max(0, height) - 0.55 * share - warmth / slack);
    t[i] = center - annual * Math.sign(latitude) * Math.cos(year - 0.35) + warmth + slowT[i] + fastT[i] * (0.6 + Math.max(0, height));
    const late = 0.1 * Math.cos(year + yearTurn) + 0.07 * Math.cos(2 * year + halfTurn);
    const tide = s1 * Math.cos((2 * Math.PI * (solar - 6)) / 24) + s2 * (1 + 0.15 * Math.cos(2 * year)) * Math.cos((2 * Math.PI * (solar - late - crest)) / 12) + 0.06 * scale * Math.cos((2 * Math.PI * (solar - 1.9)) / 8);
    p[i] = 1009 + slowP[i] + fastP[i] + tide;
    e[i] = Math.max(1.5, (isTropics ? 19 : 8 - 0.3 * annual * Math.sign(latitude) * Math.cos(year - 0.35)) + vapor[i]);
  }
  if (!isTropics) {
    for (let k = 0; k < days / 7; k++) {
      const at = dice.integer(n);
      const [cold, rise] = [3 + 5 * dice.uniform(), 3 + 3 * dice.uniform()];
      for (let i = Math.max(0, at - 72); i < Math.min(n, at + 240); i++) {
        const s = (i - at) * fine;
        p[i] -= rise * Math.exp(s < 0 ? s / 5 : -s / 4);
        if (s >= 0) t[i] -= cold * Math.min(1, s / 0.5) * Math.exp(-s / 15);
      }
    }
  }
  const count = Math.floor((days * 86_400) / step);
  const times = Float64Array.from({ length: count }, (_, k) => start + 1000 * k * step);
  const read = (of: Float64Array, noise: number, digit: number): Float64Array =>
    times.map((shown) => {
      const position = (shown - 1000 * clock(shown) - from) / hourMs / fine;
      const i = Math.max(0, Math.min(n - 2, Math.floor(position)));
      const v = of[i] + (position - i) * (of[i + 1] - of[i]) + noise * dice.normal();
      return digit === 0 ? v : Math.round(v / digit) * digit;
    });
  const humidity = e.map((v, i) => Math.min(100, (100 * v) / (6.112 * Math.exp((17.62 * t[i]) / (243.12 + t[i])))));
  return { times, air_temperature: read(t, 0.05, digits[0]), relative_humidity: read(humidity, 0.5, digits[1]), surface_air_pressure: read(p, 0.04, digits[2]) };
}

function smoothed(x: Float64Array, memory: number): Float64Array {
  const out = Float64Array.from(x);
  const a = 1 - Math.exp(-fine / memory);
  for (let i = 1; i < x.length; i++) out[i] = out[i - 1] + a * (x[i] - out[i - 1]);
  return out;
}
