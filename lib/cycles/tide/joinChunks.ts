import type { NoiseTheta } from "./bandedNoise.js";
import { constituentOf, lineCoefficients, noiseDensity } from "./constituentOf.js";
import type { LineOfTide } from "./lineTable.js";
import { factorInPlace, inverseOf, solveInPlace } from "./smallCholesky.js";
import type { TideChunk } from "./tideChunk.js";
import type { Constituent, LineCoefficients } from "./tideFit.js";

/** The tide of several stretches together. */
export interface JoinedTide {
  readonly coefficients: readonly LineCoefficients[];
  readonly constituents: readonly Constituent[];
  /** Mean of the stretches' σ². */
  readonly sigma2: number;
}

/**
 * Adds the sums of stretches that do not overlap and solves for their common tide.
 *
 * β = (ΣB)⁻¹Σh; its covariance is (ΣB)⁻¹ times the mean σ² times the noise measured beside each line in every stretch.
 *
 * @param chunks    at least one
 * @param lines     in the order of the sums
 * @param theta     noise of the sums, for the noise density
 * @param longitude degrees east
 * @param unit      of the amplitude
 */
export function joinChunks(chunks: readonly TideChunk[], lines: readonly LineOfTide[], theta: NoiseTheta, longitude: number, unit: string): JoinedTide {
  const n = 2 * lines.length;
  const normal: Float64Array = new Float64Array(n * n);
  const beta: Float64Array = new Float64Array(n);
  for (const chunk of chunks) {
    for (let i = 0; i < n * n; i++) normal[i] += chunk.normal[i];
    for (let i = 0; i < n; i++) beta[i] += chunk.right[i];
  }
  factorInPlace(normal, n);
  solveInPlace(normal, n, beta);
  const inverse = inverseOf(normal, n);
  const sigma2 = chunks.reduce((sum, c) => sum + c.sigma2, 0) / chunks.length;
  const coefficients = lines.map((line, k) => {
    const sum = chunks.reduce((total, c) => total + c.beside[k].sum, 0);
    const count = chunks.reduce((total, c) => total + c.beside[k].count, 0);
    const a = 2 * k;
    const block: [number, number, number] = [inverse[a * n + a], inverse[(a + 1) * n + a + 1], inverse[a * n + a + 1]];
    return lineCoefficients(line, beta[a], beta[a + 1], block, sigma2, { ratio: sum / count / sigma2, count });
  });
  const constituents = lines.map((line, k) => constituentOf(line, coefficients[k], noiseDensity(line, theta, coefficients[k].noiseRatio * sigma2), longitude, unit));
  return { coefficients, constituents, sigma2 };
}
