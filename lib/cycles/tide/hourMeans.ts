import { bridgeGaps } from "../../grid/gapRule.js";

/** Which means an hour is made of: gaps of up to an hour bridged by a line, or the observed steps alone. */
export type MeansKind = "bridged" | "plain";

/**
 * Hourly means of one column of even steps; every column of a fit goes through the same means.
 *
 * @param steps   even steps · [hours·perHour] · NaN is missing
 * @param perHour steps in an hour
 * @param kind    `bridged`: inner gaps of at most an hour are filled by a straight line, an hour that is still not whole is NaN ·
 *                `plain`: mean of the observed steps
 * @returns       [hours] · NaN where there is no mean
 * @example hourMeans(Float64Array.of(1, NaN, 3, 5), 2, "bridged") // 1.5, 4
 */
export function hourMeans(steps: Float64Array, perHour: number, kind: MeansKind): Float64Array {
  if (perHour === 1) return steps;
  const filled = kind === "bridged" ? bridgeGaps(steps, perHour).values : steps;
  const hours = steps.length / perHour;
  const means: Float64Array = new Float64Array(hours);
  for (let i = 0; i < hours; i++) {
    let sum = 0;
    let count = 0;
    for (let k = i * perHour; k < (i + 1) * perHour; k++) {
      const v = filled[k];
      if (Number.isNaN(v)) continue;
      sum += v;
      count++;
    }
    means[i] = count === perHour || kind === "plain" ? sum / count : Number.NaN;
  }
  return means;
}

/**
 * Share of each hour that was really observed, 0 where the hour has no mean.
 *
 * @param steps as for `hourMeans`, before any bridging
 * @param means the hourly means of the same column
 * @returns     0…1 · [hours]
 */
export function hourWeights(steps: Float64Array, means: Float64Array): Float64Array {
  const hours = means.length;
  const perHour = steps.length / hours;
  const weights: Float64Array = new Float64Array(hours);
  for (let i = 0; i < hours; i++) {
    if (Number.isNaN(means[i])) continue;
    let count = 0;
    for (let k = i * perHour; k < (i + 1) * perHour; k++) if (!Number.isNaN(steps[k])) count++;
    weights[i] = count / perHour;
  }
  return weights;
}
