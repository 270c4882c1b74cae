import { random } from "../lib/ground/random.js";
import { series, type Series } from "../lib/record/series.js";

/** A noise of the air, in the form of its exact discrete process: independent parts that add up. */
export interface TrueNoise {
  readonly name: string;
  /** White noise of one reading · standard deviation. */
  readonly white: number;
  /** AR(1) parts: standard deviation and e-folding time · d. */
  readonly ar1?: { readonly sd: number; readonly efolding: number };
  /** Matérn 3/2 part: standard deviation and rate · 1/d. */
  readonly matern?: { readonly sd: number; readonly rate: number };
}

/** Transition [2 × 2] of a Matérn 3/2 process over h days, and the lower Cholesky factor of what it adds. */
export function maternStep(sd: number, rate: number, h: number): { turn: readonly number[]; noise: readonly number[] } {
  const e = Math.exp(-rate * h);
  const turn = [e * (1 + rate * h), e * h, -e * rate * rate * h, e * (1 - rate * h)];
  const v = sd * sd;
  const w = v * rate * rate;
  const [a, b, c, d] = turn;
  const q = [v - (a * a * v + b * b * w), -(a * c * v + b * d * w), w - (c * c * v + d * d * w)];
  const l = Math.sqrt(Math.max(0, q[0]));
  const m = l > 0 ? q[1] / l : 0;
  return { turn, noise: [l, m, Math.sqrt(Math.max(0, q[2] - m * m))] };
}

/** Draws a noise at even steps · h in days. */
export function drawNoise(noise: TrueNoise, n: number, h: number, normal: () => number): Float64Array {
  const out: Float64Array = new Float64Array(n);
  for (let i = 0; i < n; i++) out[i] = noise.white * normal();
  if (noise.ar1 !== undefined) {
    const { sd, efolding } = noise.ar1;
    const a = Math.exp(-h / efolding);
    let x = sd * normal();
    for (let i = 0; i < n; i++, x = a * x + sd * Math.sqrt(1 - a * a) * normal()) out[i] += x;
  }
  if (noise.matern !== undefined) {
    const { sd, rate } = noise.matern;
    const { turn, noise: l } = maternStep(sd, rate, h);
    let x = sd * normal();
    let v = sd * rate * normal();
    for (let i = 0; i < n; i++) {
      out[i] += x;
      const u = normal();
      const w = normal();
      [x, v] = [turn[0] * x + turn[1] * v + l[0] * u, turn[2] * x + turn[3] * v + l[1] * u + l[2] * w];
    }
  }
  return out;
}

/** A planted line: amplitude and hours of its crest in UTC. */
export interface PlantedLine {
  readonly cyclesPerDay: number;
  readonly amplitude: number;
  readonly crest: number;
}

/** Value of planted lines at an instant · epoch ms. */
export function planted(lines: readonly PlantedLine[], at: number): number {
  return lines.reduce((sum, l) => sum + l.amplitude * Math.cos(2 * Math.PI * l.cyclesPerDay * (at / 86_400_000 - l.crest / 24)), 0);
}

/** A seeded pressure record with a known tide. */
export function tideRecord(parts: {
  days: number;
  stepMinutes: number;
  noise: TrueNoise;
  lines: readonly PlantedLine[];
  seed: number;
  start?: number;
  missing?: number;
}): Series {
  const { days, stepMinutes, noise, lines, seed, start = Date.UTC(2024, 2, 1), missing = 0 } = parts;
  const { normal, uniform } = random(seed);
  const n = Math.round((days * 1440) / stepMinutes);
  const drawn = drawNoise(noise, n, stepMinutes / 1440, normal);
  const times = Array.from({ length: n }, (_, i) => start + i * stepMinutes * 60_000);
  const values = times.map((at, i) => (i > 0 && i < n - 1 && uniform() < missing ? Number.NaN : 1000 + drawn[i] + planted(lines, at)));
  return series({ times, values, quantity: "surface_air_pressure" });
}

/** A series with the same readings and some of its parts changed. */
export function changed(s: Series, change: { times?: (ms: number, i: number) => number; values?: (v: number, i: number) => number }): Series {
  const { times = (t) => t, values = (v) => v } = change;
  return series({
    times: Array.from(s.seconds, (t, i) => times(s.start + 1000 * t, i)),
    values: Array.from(s.values, (v, i) => values(v, i)),
    quantity: s.quantity,
    place: s.place,
    flags: s.flags,
  });
}
