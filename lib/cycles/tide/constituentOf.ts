import { estimate } from "../../ground/estimate.js";
import { argumentAtEpoch } from "./argumentAtEpoch.js";
import { type NoiseTheta, hourInDays, weatherDensity } from "./bandedNoise.js";
import { lineInterval } from "./lineInterval.js";
import type { LineNoise } from "./lineNoise.js";
import { cyclesPerDay, type LineOfTide } from "./lineTable.js";
import type { Constituent, LineCoefficients } from "./tideFit.js";

/** Coefficients of one line from its block of the normal matrix's inverse, σ² and the noise beside it. */
export function lineCoefficients(line: LineOfTide, cosine: number, sine: number, block: readonly [number, number, number], sigma2: number, noise: LineNoise): LineCoefficients {
  const scale = noise.ratio * sigma2;
  return Object.freeze({
    name: line.name,
    cyclesPerDay: cyclesPerDay(line),
    species: line.species,
    cosine,
    sine,
    varianceOfCosine: scale * block[0],
    varianceOfSine: scale * block[1],
    covariance: scale * block[2],
    noiseRatio: noise.ratio,
    degreesOfFreedom: 2 * noise.count,
  });
}

/** One-sided density of the noise at a line · unit²/cpd, from the model at θ and what stands beside the line. */
export function noiseDensity(line: LineOfTide, [lnRho, lnLambda, lnMu]: NoiseTheta, scaledSigma2: number): number {
  return 2 * hourInDays * scaledSigma2 * (weatherDensity(cyclesPerDay(line), Math.exp(lnLambda), Math.exp(lnMu)) + Math.exp(lnRho));
}

/**
 * What is reported of a line: amplitude and hour of the first crest with their intervals.
 *
 * @param line         see `lineTable`
 * @param coefficients about `tideEpoch`
 * @param density      see `noiseDensity`
 * @param longitude    degrees east
 * @param unit         of the amplitude
 */
export function constituentOf(line: LineOfTide, coefficients: LineCoefficients, density: number, longitude: number, unit: string): Constituent {
  const interval = lineInterval(coefficients);
  const period = 24 / line.species;
  const hoursOfRadian = period / (2 * Math.PI);
  const hour = interval.phase * hoursOfRadian + argumentAtEpoch(line) / (15 * line.species) + longitude / 15;
  const value = ((hour % period) + period) % period;
  return Object.freeze({
    name: line.name,
    cyclesPerDay: coefficients.cyclesPerDay,
    amplitude: estimate({ value: interval.amplitude, standardError: interval.error, low: interval.low, high: interval.high, unit }),
    maximumAt: interval.detected
      ? estimate({ value, standardError: (interval.errorAcross / interval.amplitude) * hoursOfRadian, low: value - interval.phaseBefore * hoursOfRadian, high: value + interval.phaseAfter * hoursOfRadian, unit: "h" })
      : null,
    detected: interval.detected,
    detectionLimit: interval.detectionLimit,
    noiseDensity: density,
  });
}
