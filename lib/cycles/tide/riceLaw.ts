import { normalQuantile } from "../../ground/distributions.js";

/** The 5 % threshold of a Rayleigh amplitude: √(−2 ln 0.05). */
export const rayleighThreshold: number = Math.sqrt(-2 * Math.log(0.05));

/**
 * Share of amplitudes below `x` when the true amplitude is `mu`, both in standard errors of one coefficient (Rice's law).
 *
 * @param x  amplitude · standard errors · ≥ 0
 * @param mu true amplitude · standard errors · ≥ 0, up to about 30
 * @returns  0…1, within 1e-12
 * @example riceCdf(0.25, 0) // 0.0307667655
 * @source Rice's law as a Poisson mixture of chi-squares: Σ_j Poisson(j; μ²/2)·[1 − e^(−y) Σ_{i≤j} yⁱ/i!], y = x²/2
 */
export function riceCdf(x: number, mu: number): number {
  const y = (x * x) / 2;
  const m = (mu * mu) / 2;
  let poisson = Math.exp(-m);
  let term = Math.exp(-y);
  let below = term;
  let sum = poisson * (1 - below);
  let mass = poisson;
  for (let j = 1; j < 2000; j++) {
    poisson *= m / j;
    term *= y / j;
    below += term;
    sum += poisson * Math.max(0, 1 - below);
    mass += poisson;
    if (j > m && (1 - mass < 1e-15 || poisson < 1e-18)) break;
  }
  return sum;
}

/** Bisection of a function that falls through zero between a and b, to the last digits. */
function fallsThroughZero(f: (mu: number) => number, a: number, b: number): number {
  let low = a;
  let high = b;
  for (let i = 0; i < 60 && high - low > 1e-13 * (1 + high); i++) {
    const middle = (low + high) / 2;
    if (f(middle) > 0) low = middle;
    else high = middle;
  }
  return (low + high) / 2;
}

const upperMiss = (mu: number): number => 0.025 + 0.025 * Math.exp((-mu * mu) / 4);

/**
 * The true amplitudes that accept an observed one, by inverting Rice's law with tails that go over from one-sided at 0
 * to two-sided far from it; never empty, and reaching 0 exactly when the amplitude is below the 5 % threshold.
 *
 * @param r observed amplitude · standard errors · 0…about 12
 * @returns low, high · standard errors
 * @example riceInterval(2) // low 0, high 3.7888
 * @source Rice's law; the tails are this project's own, held by the vectors and the simulation
 */
export function riceInterval(r: number): { readonly low: number; readonly high: number } {
  if (r <= 0) return { low: 0, high: 0 };
  const top = r + 8;
  const high = fallsThroughZero((mu) => riceCdf(r, mu) - (0.05 - upperMiss(mu)), 0, top);
  const low = r <= rayleighThreshold ? 0 : fallsThroughZero((mu) => riceCdf(r, mu) - (1 - upperMiss(mu)), 0, top);
  return { low, high };
}

/** Room above and below a true amplitude · standard errors. */
export interface Reach {
  readonly above: number;
  readonly below: number;
}
/** Where the law's expansion takes over, and the spacing of the table below it. */
const tableEnd = 10;
const tableStep = 0.05;
/** Made at the first call: an inversion costs some hundred evaluations, and one interval asks for a hundred. */
let table: readonly Reach[] | null = null;

function reachAt(mu: number): Reach {
  const quantile = (share: number): number => fallsThroughZero((x) => share - riceCdf(x, mu), 0, mu + 9);
  return { above: quantile(1 - upperMiss(mu)) - mu, below: mu - quantile(0.05 - upperMiss(mu)) };
}

/**
 * How far above and below a true amplitude the observed one may lie, with the tails of `riceInterval`.
 *
 * @param mu true amplitude · standard errors · ≥ 0
 * @returns  standard errors, within 0.0005 below 10 (from a table) and within 0.007 above (the law's expansion)
 * @example riceReach(0).above // 2.4477, the threshold of detection
 */
export function riceReach(mu: number): Reach {
  if (mu >= tableEnd) return { above: normalTwoSided() + 0.5 / mu, below: normalTwoSided() - 0.5 / mu };
  table ??= Array.from({ length: Math.round(tableEnd / tableStep) + 1 }, (_, i) => reachAt(i * tableStep));
  const at = mu / tableStep;
  const i = Math.min(table.length - 2, Math.floor(at));
  const between = (key: "above" | "below"): number => (table as readonly Reach[])[i][key] * (i + 1 - at) + (table as readonly Reach[])[i + 1][key] * (at - i);
  return { above: between("above"), below: between("below") };
}

/**
 * The true amplitude found with 95 % chance by the 5 % test: 3.93 standard errors.
 *
 * @source solves riceCdf(2.448, μ) = 0.05
 */
export function detectionAmplitude(): number {
  return fallsThroughZero((mu) => riceCdf(rayleighThreshold, mu) - 0.05, 0, 8);
}

/** Normal quantile at 0.975, by which a t quantile is measured. */
export function normalTwoSided(): number {
  return normalQuantile(0.975);
}
