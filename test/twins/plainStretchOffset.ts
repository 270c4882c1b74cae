import { longRunVariance } from "../../lib/ground/longRunVariance.js";
import type { StretchOffset } from "../../lib/trust/clock/stretchOffset.js";
import { mean } from "../../lib/ground/summary.js";
import type { PressureStretch } from "../../lib/trust/clock/pressureStretches.js";

const fewest = 6;
const firstFrequency = 1.2;
/** Bins over which coherence is averaged on either side. */
const beside = 7;
const gridSeconds = 120;
/** Search for the coarse maximum: near first; a zone's error lies far and must stand out. */
const near = 3 * 3600;
const far = 14 * 3600;
const standsOut = 1.3;

/** The delay between two traces by the plain text of `stretchOffset`: a sine and a cosine for every frequency and delay. */
export function plainStretchOffset(stretches: readonly (PressureStretch | null)[]): StretchOffset | null {
  const present = stretches.filter((s) => s !== null);
  if (present.length < fewest) return null;
  const { length } = present[0];
  const perBin = 1 / 2;
  const first = Math.ceil(firstFrequency / perBin);
  const count = Math.floor(length / 2) + 1 - first;
  const total = crossOf(present, first, count);
  const { weights, kept } = weightsOf(total, present.length);
  if (kept === 0) return null;
  const omega = Float64Array.from({ length: kept }, (_, k) => (2 * Math.PI * (k + first) * perBin) / 86400);
  const turned = (re: Float64Array, im: Float64Array, delay: number, of: (real: number, imaginary: number, k: number) => number): number => {
    let sum = 0;
    for (let k = 0; k < kept; k++) {
      const c = Math.cos(omega[k] * delay);
      const s = Math.sin(omega[k] * delay);
      sum += of(re[k] * c + im[k] * s, im[k] * c - re[k] * s, k);
    }
    return sum;
  };
  const agreement = (delay: number): number => turned(total.real, total.imaginary, delay, (re, _, k) => weights[k] * re);
  let delay = coarse(agreement);
  for (let round = 0; round < 6; round++) {
    const slope = turned(total.real, total.imaginary, delay, (_, im, k) => weights[k] * omega[k] * im);
    delay += slope / turned(total.real, total.imaginary, delay, (re, _, k) => weights[k] * omega[k] ** 2 * Math.max(0, re));
  }
  const bend = turned(total.real, total.imaginary, delay, (re, _, k) => weights[k] * omega[k] ** 2 * re);
  if (!Number.isFinite(delay) || !(bend > 0)) return null;
  const influence = stretches.map((s) => {
    if (s === null) return Number.NaN;
    const own = crossOf([s], first, kept);
    return turned(own.real, own.imaginary, delay, (_, im, k) => weights[k] * omega[k] * im) / bend;
  });
  if (!influence.some((z, k) => k > 0 && !Number.isNaN(z + influence[k - 1]))) return null;
  const { varianceOfSum, terms } = longRunVariance(influence);
  const independent = Math.max(2, 0.53 * present.length + 0.5);
  const bound = 1.5 / (2 * independent * bend);
  const isChance = varianceOfSum < 0.36 * bound;
  delay -= mean(present.map(({ phase }) => phase));
  return { delay, standardError: Math.sqrt(isChance ? bound : varianceOfSum), terms: isChance ? Math.max(terms, independent) : terms, used: present.length, lastFrequency: (kept - 1 + first) * perBin, free: null };
}

interface Cross {
  readonly real: Float64Array;
  readonly imaginary: Float64Array;
  readonly powerX: Float64Array;
  readonly powerY: Float64Array;
}

/** Sums of X*Y, |X|² and |Y|² over stretches, `count` bins from `first` on. */
function crossOf(stretches: readonly PressureStretch[], first: number, count: number): Cross {
  const [real, imaginary, powerX, powerY] = [0, 1, 2, 3].map(() => new Float64Array(count));
  for (const { x, y } of stretches) {
    for (let k = 0; k < count; k++) {
      const at = 2 * (k + first);
      const [a, b, c, d] = [x[at], x[at + 1], y[at], y[at + 1]];
      real[k] += a * c + b * d;
      imaginary[k] += a * d - b * c;
      powerX[k] += a * a + b * b;
      powerY[k] += c * c + d * d;
    }
  }
  return { real, imaginary, powerX, powerY };
}

/** Weight of each frequency, and how many from the first on are kept before coherence is lost. */
function weightsOf({ real, imaginary, powerX, powerY }: Cross, stretches: number): { weights: Float64Array; kept: number } {
  const n = real.length;
  const raw = real.map((re, k) => (re * re + imaginary[k] ** 2) / (powerX[k] * powerY[k]));
  const mirrored = (k: number): number => (k < 0 ? -k - 1 : k >= n ? 2 * n - 1 - k : k);
  const independent = Math.max(2, 0.53 * stretches + 0.5);
  const least = Math.max(0.1, 0.8 / independent);
  const weights: Float64Array = new Float64Array(n);
  if (n < beside + 1) return { weights, kept: 0 };
  for (let k = 0; k < n; k++) {
    let sum = 0;
    for (let j = -beside; j <= beside; j++) sum += raw[mirrored(k + j)];
    const coherence = Math.min(0.9999, (sum / (2 * beside + 1) - 1 / independent) / (1 - 1 / independent));
    if (!(coherence >= least)) return { weights, kept: k };
    weights[k] = coherence / ((1 - coherence) * Math.hypot(real[k], imaginary[k]));
  }
  return { weights, kept: n };
}

/** The best delay of a grid near zero, or a far one where it stands out. */
function coarse(agreement: (delay: number) => number): number {
  let [nearest, nearestAt, farthest, farthestAt] = [-Infinity, 0, -Infinity, 0];
  for (let delay = -far; delay <= far; delay += gridSeconds) {
    const value = agreement(delay);
    if (value > farthest) [farthest, farthestAt] = [value, delay];
    if (Math.abs(delay) <= near && value > nearest) [nearest, nearestAt] = [value, delay];
  }
  return farthest > standsOut * Math.max(0, nearest) ? farthestAt : nearestAt;
}
