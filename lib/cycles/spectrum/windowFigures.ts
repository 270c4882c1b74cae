import { mustSentence, requireWithin } from "../../ground/complaint.js";
import { type WindowName, windowWeights } from "./taperWindow.js";

/** What a window does to a line and to noise. */
export interface WindowFigures {
  readonly name: WindowName;
  readonly length: number;
  /** Mean weight · 1 · by which a line's amplitude is read too small before correction. */
  readonly coherentGain: number;
  /** Width of the box that passes as much noise · bins. */
  readonly equivalentNoiseBandwidth: number;
  /** A line half a bin off against one on a bin · dB, negative. */
  readonly scalloping: number;
}

/**
 * Share of a line's amplitude that is left when it lies `offset` bins from where it is read; 1 on the spot.
 *
 * @param weights a window · [n]
 * @param offset  bins, either sign
 * @returns       0…1
 * @example shareAt(windowWeights("Hann", 4096), 0.5) // 0.8488
 * @source definition: |Σ w_j e^{−2πij·offset/n}| / Σ w_j
 */
export function shareAt(weights: Float64Array, offset: number): number {
  let re = 0;
  let im = 0;
  let sum = 0;
  weights.forEach((w, j) => {
    const angle = (2 * Math.PI * offset * j) / weights.length;
    re += w * Math.cos(angle);
    im += w * Math.sin(angle);
    sum += w;
  });
  return Math.hypot(re, im) / sum;
}

/**
 * How alike the spectra of two neighboring segments of white noise are when the segments overlap.
 *
 * @param weights a window · [n]
 * @param shift   samples from the start of one segment to that of the other · from 0
 * @returns       correlation of the windowed amplitudes · 0…1; that of the powers is its square
 * @throws RangeError when the shift is negative or not a whole number
 * @example overlapCorrelation(windowWeights("Hann", 4096), 2048) // 0.1667
 * @source Harris 1978: Σ w_j w_(j+shift) / Σ w_j²
 */
export function overlapCorrelation(weights: Float64Array, shift: number): number {
  requireWithin("overlapCorrelation", "shift", shift, 0, Number.MAX_SAFE_INTEGER, "samples");
  if (!Number.isInteger(shift)) throw new RangeError(mustSentence("overlapCorrelation", "shift", "be a whole number", `${shift} samples`));
  let shared = 0;
  let all = 0;
  for (let j = 0; j < weights.length; j++) {
    all += weights[j] ** 2;
    if (j + shift < weights.length) shared += weights[j] * weights[j + shift];
  }
  return shared / all;
}

/**
 * The figures by which windows are compared.
 *
 * @param name   one of windowNames
 * @param length samples, default 4096 (the figures hardly change above 64)
 * @returns      see WindowFigures
 * @throws TypeError  when the name is unknown
 * @throws RangeError when the length is not a whole number from 1
 * @example windowFigures("Hann").equivalentNoiseBandwidth // 1.5 (bins)
 * @source Harris 1978, table 1
 */
export function windowFigures(name: WindowName, length = 4096): WindowFigures {
  const weights = windowWeights(name, length);
  let sum = 0;
  let squares = 0;
  for (const w of weights) {
    sum += w;
    squares += w * w;
  }
  return Object.freeze({
    name,
    length,
    coherentGain: sum / length,
    equivalentNoiseBandwidth: (length * squares) / (sum * sum),
    scalloping: 20 * Math.log10(shareAt(weights, 0.5)),
  });
}
