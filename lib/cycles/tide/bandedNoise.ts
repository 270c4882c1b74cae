/** The three noise numbers in the form in which they are searched: ln ρ, ln λ, ln μ (λ, μ in 1/d). */
export type NoiseTheta = readonly [lnRho: number, lnLambda: number, lnMu: number];

/** Spacing of the fitted rows · d. */
export const hourInDays: number = 1 / 24;

/** Angular rate at which the weather's density is scaled to 1: 2 cpd · 1/d. */
const scaleRate = 4 * Math.PI;

/**
 * Inverse of the weather's density before scaling: g(ω) = (λ² + ω²)(1 + ω²/μ²).
 *
 * @param omega  angular rate · 1/d
 * @param lambda rate at which the weather forgets · 1/d
 * @param mu     rate above which it is smooth · 1/d
 */
export function inverseDensity(omega: number, lambda: number, mu: number): number {
  const w = omega * omega;
  return (lambda * lambda + w) * (1 + w / (mu * mu));
}

/**
 * Weights of I, D₁ᵀD₁ and D₂ᵀD₂ in the precision of the weather on hourly rows: the pentadiagonal Q of the method.
 *
 * @returns identity, first, second differences (unit: 1 / variance of the scaled process)
 */
export function precisionWeights(lambda: number, mu: number): readonly [identity: number, first: number, second: number] {
  const g = inverseDensity(scaleRate, lambda, mu);
  const dt2 = hourInDays * hourInDays;
  const l2 = lambda * lambda;
  const m2 = mu * mu;
  return [l2 / g, (1 + l2 / m2) / (dt2 * g), 1 / (m2 * dt2 * dt2 * g)];
}

/** The weather's density at a line as the differences see it, scaled to 1 at 2 cpd; frequency in cpd. */
export function weatherDensity(cyclesPerDay: number, lambda: number, mu: number): number {
  const omega = (2 / hourInDays) * Math.sin(Math.PI * cyclesPerDay * hourInDays);
  return inverseDensity(scaleRate, lambda, mu) / inverseDensity(omega, lambda, mu);
}

/** Share of white noise in the density at 3 cpd: above one half, hours are better made by plain means. */
export function whiteShare([lnRho, lnLambda, lnMu]: NoiseTheta): number {
  const rho = Math.exp(lnRho);
  const lambda = Math.exp(lnLambda);
  const mu = Math.exp(lnMu);
  return rho / (rho + inverseDensity(scaleRate, lambda, mu) / inverseDensity(6 * Math.PI, lambda, mu));
}
