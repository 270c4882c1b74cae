import { rayleighThreshold, riceReach } from "./riceLaw.js";

/** A line's coefficients with an error that is not alike in all directions, as a readings' clock with a nightly gap gives. */
export interface UnevenLine {
  readonly cosine: number;
  readonly sine: number;
  readonly varianceOfCosine: number;
  readonly varianceOfSine: number;
  readonly covariance: number;
}

/** Interval of amplitude and phase of such a line. */
export interface UnevenInterval {
  /** Low is 0 when the point (0, 0) is accepted. */
  readonly low: number;
  readonly high: number;
  /** Distance of (0, 0) from the estimate, in standard errors of its direction. */
  readonly distance: number;
  /** Standard error in the worst direction. */
  readonly worst: number;
  /** From the crest's phase back and on to the ends of its interval · radians · π when any phase is possible. */
  readonly before: number;
  readonly after: number;
}

/** The largest ratio of the error's axes that is still treated as round: a 5 % test is one of 5.1 % there. */
const roundEnough = 1.2;

/** Axes of the error ellipse: standard errors and the direction of the longer · radians. */
function axesOf({ varianceOfCosine: a, varianceOfSine: b, covariance: c }: UnevenLine): { long: number; short: number; turn: number } {
  const middle = (a + b) / 2;
  const away = Math.hypot((a - b) / 2, c);
  return { long: Math.sqrt(middle + away), short: Math.sqrt(Math.max(0, middle - away)), turn: Math.atan2(2 * c, a - b) / 2 };
}

/** Whether the error ellipse is too long for the law of a round one. */
export function isUneven(line: UnevenLine): boolean {
  const { long, short } = axesOf(line);
  return long > roundEnough * short;
}

/**
 * The nearest point to w of the circle of true amplitudes R as the noise sees it, an ellipse of half-axes e: its distance
 * and the ellipse's radius of curvature there. All in standard errors; w in the first quarter.
 */
function nearest(w: readonly [number, number], e: readonly [number, number]): { distance: number; radius: number } {
  const away = (t: number): number => Math.hypot(w[0] - e[0] * Math.cos(t), w[1] - e[1] * Math.sin(t));
  let best = 0;
  for (let i = 1; i <= 16; i++) if (away((i * Math.PI) / 32) < away((best * Math.PI) / 32)) best = i;
  let from = (Math.max(0, best - 1) * Math.PI) / 32;
  let to = (Math.min(16, best + 1) * Math.PI) / 32;
  for (let i = 0; i < 24; i++) {
    const [a, b] = [from + 0.382 * (to - from), from + 0.618 * (to - from)];
    if (away(a) < away(b)) to = b;
    else from = a;
  }
  const t = (from + to) / 2;
  return { distance: away(t), radius: Math.hypot(e[0] * Math.sin(t), e[1] * Math.cos(t)) ** 3 / (e[0] * e[1]) };
}

/**
 * Interval of amplitude and phase when the error differs by direction.
 *
 * Amplitude: a true amplitude is a circle; measured in standard errors it is an ellipse, and the estimate's distance from it
 * is judged by Rice's law for a circle of the same curvature at the nearest point. Exact at 0 and far from 0; between, in
 * Gaussian draws with axes of 1 to 10, it held 94.5 to 97.8 %, most where the error is longest along the truth.
 * Phase: the directions in which a ray from (0, 0) meets the ellipse of q standard errors about the estimate; exact.
 *
 * @param line see UnevenLine
 * @param q    t quantile at 0.975
 * @param c    q over the normal quantile
 * @source this project's own; for round errors both are the formulas of `lineInterval`
 */
export function unevenInterval(line: UnevenLine, q: number, c: number): UnevenInterval {
  const { long, short, turn } = axesOf(line);
  const amplitude = Math.hypot(line.cosine, line.sine);
  const along = line.cosine * Math.cos(turn) + line.sine * Math.sin(turn);
  const across = line.sine * Math.cos(turn) - line.cosine * Math.sin(turn);
  const w: [number, number] = [along / long, across / short];
  const distance = Math.hypot(...w);
  const seen: [number, number] = [Math.abs(w[0]) / c, Math.abs(w[1]) / c];
  // How far beyond what it may be the estimate lies from a circle: falls on the way in (side 1), grows on the way out (side −1).
  const excess = (radius: number, side: 1 | -1): number => {
    if (radius === 0) return distance / c - rayleighThreshold;
    const at = nearest(seen, [radius / (c * long), radius / (c * short)]);
    const reach = riceReach(at.radius);
    return at.distance - (side === 1 ? reach.above : reach.below);
  };
  const solve = (inside: number, outside: number, side: 1 | -1): number => {
    let [a, b] = [inside, outside];
    for (let i = 0; i < 32; i++) {
      const middle = (a + b) / 2;
      if (excess(middle, side) > 0) b = middle;
      else a = middle;
    }
    return (a + b) / 2;
  };
  const low = excess(0, 1) <= 0 ? 0 : solve(amplitude, 0, 1);
  const high = solve(amplitude, amplitude + 8 * c * long, -1);
  if (!(q < distance)) return { low, high, distance, worst: long, before: Math.PI, after: Math.PI };
  const half = Math.asin(q / distance);
  const phase = (angle: number): number => Math.atan2(short * (w[1] * Math.cos(angle) + w[0] * Math.sin(angle)), long * (w[0] * Math.cos(angle) - w[1] * Math.sin(angle)));
  const turned = (angle: number): number => {
    const d = phase(angle) - phase(0);
    return Math.abs(d - 2 * Math.PI * Math.round(d / (2 * Math.PI)));
  };
  return { low, high, distance, worst: long, before: turned(-half), after: turned(half) };
}
