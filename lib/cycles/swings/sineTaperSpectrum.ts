import { fourierPlan } from "../spectrum/fourier.js";

/** A way to make many spectra of one length. */
export interface SineTaperSpectrum {
  /** Steps of a record. */
  readonly length: number;
  /**
   * Mean over the tapers of |transform|² at the frequencies i/length cycles a step, i = 0…⌊length/2⌋ · unit². Tapers have unit
   * power, so this is the two-sided density a step: variance in a band is 2/length times the sum over its bins.
   */
  of(values: Float64Array): Float64Array;
}

/**
 * Spectrum by a few sine tapers: several almost independent looks at one record, averaged.
 *
 * Taper k is v_k(j) = √(2/(n + 1)) sin(πkj/(n + 1)). No zero padding: peaks stay as wide as the record makes them.
 *
 * @param length steps · n ≥ 4
 * @param tapers how many
 * @returns      see SineTaperSpectrum
 * @throws RangeError as fourierPlan
 * @example sineTaperSpectrum(360, 3).of(values)[0]
 * @source K. S. Riedel, A. Sidorenko, IEEE Transactions on Signal Processing 43 (1995), 188 (from memory)
 */
export function sineTaperSpectrum(length: number, tapers: number): SineTaperSpectrum {
  const plan = fourierPlan(length);
  const windows = Array.from({ length: tapers }, (_, k) =>
    Float64Array.from({ length }, (__, j) => Math.sqrt(2 / (length + 1)) * Math.sin((Math.PI * (k + 1) * (j + 1)) / (length + 1))),
  );
  const work: Float64Array = new Float64Array(length);
  const room: Float64Array = new Float64Array(2 * length);
  const of = (values: Float64Array): Float64Array => {
    const power: Float64Array = new Float64Array(Math.floor(length / 2) + 1);
    for (const window of windows) {
      for (let j = 0; j < length; j++) work[j] = window[j] * values[j];
      const bins = plan.forward(work, room);
      for (let i = 0; i < power.length; i++) power[i] += (bins[2 * i] ** 2 + bins[2 * i + 1] ** 2) / tapers;
    }
    return power;
  };
  return Object.freeze({ length, of });
}
