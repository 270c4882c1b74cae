import { mustSentence, requireWithin } from "../../ground/complaint.js";
import { type DensityLimits, densityLimits } from "./densityLimits.js";
import { binFrequencies, requireEven, withoutLevel } from "./evenSamples.js";
import { type EvenSpectrumOptions, oneSidedSquares } from "./periodogramDensity.js";
import { densityUnit } from "./spectralUnit.js";

/** A density averaged over sine tapers of the whole record. */
export interface MultitaperDensity extends DensityLimits {
  readonly cyclesPerDay: Float64Array;
  readonly density: Float64Array;
  readonly unit: string;
  /** Full width over which a frequency is smeared, (tapers + 1)/(record length) · cycles per day. */
  readonly bandwidth: number;
  readonly tapers: number;
  readonly steps: number;
}

/**
 * One of the sine tapers, √(2/(n+1)) sin(πkj/(n+1)), j = 1…n: orthogonal to the others, squares summing to 1.
 *
 * @param order  k · whole number from 1
 * @param length n · samples
 * @example sineTaper(1, 3) // 0.5, 0.7071, 0.5
 * @source K. S. Riedel, A. Sidorenko, "Minimum bias multiple taper spectral estimation", IEEE Trans. Signal Process. 43 (1995) (from memory)
 */
export function sineTaper(order: number, length: number): Float64Array {
  const scale = Math.sqrt(2 / (length + 1));
  const around = 2 * (length + 1);
  return Float64Array.from({ length }, (_, j) => scale * Math.sin((Math.PI * ((order * (j + 1)) % around)) / (length + 1)));
}

/**
 * The one-sided spectral density of a whole even record, averaged over sine tapers, with confidence limits.
 *
 * For the shape of a spectrum when the record is short for its slowest features: all of it is used at full length, so
 * low frequencies keep their place where Welch's segments lose them. More tapers narrow the limits (two degrees of
 * freedom each) and widen the smear. Three for peaks, five for a background.
 *
 * @param values        any unit · even steps · [n] · NaN is refused
 * @param tapers        how many · whole number, 1…20, and at most n/2 · commonly 3 or 5
 * @param options.level confidence level of the limits, default 0.95
 * @param options       see EvenSpectrumOptions (the tapers stand in the window's place)
 * @returns cyclesPerDay, density, low, high  cycles per day; unit² d · [⌊n/2⌋ + 1]
 * @returns degreesOfFreedom  2·tapers; half of it at bin 0 and the last even bin
 * @throws RangeError when a value is missing or not finite, or tapers is out of range
 * @throws TypeError  when removed is unknown
 * @example multitaperDensity(tenDaysHourly, 3, { stepSeconds: 3600, unit: "hPa" }).degreesOfFreedom // 6
 * @source Riedel and Sidorenko 1995 (from memory); equal weights
 */
export function multitaperDensity(
  values: ArrayLike<number>,
  tapers: number,
  options: Omit<EvenSpectrumOptions, "window"> & { readonly level?: number },
): MultitaperDensity {
  const { stepSeconds, removed = "mean", unit = "1", level = 0.95 } = options;
  requireEven("multitaperDensity", values, stepSeconds, 2);
  const n = values.length;
  requireWithin("multitaperDensity", "tapers", tapers, 1, Math.min(20, Math.floor(n / 2)));
  if (!Number.isInteger(tapers)) throw new RangeError(mustSentence("multitaperDensity", "tapers", "be a whole number", String(tapers)));
  const level0 = withoutLevel(values, removed, "multitaperDensity");
  const work: Float64Array = new Float64Array(2 * n);
  const density: Float64Array = new Float64Array(Math.floor(n / 2) + 1);
  const days = stepSeconds / 86400;
  for (let k = 1; k <= tapers; k++) {
    oneSidedSquares(level0, sineTaper(k, n), work).forEach((s, i) => {
      density[i] += (s * days) / tapers;
    });
  }
  return Object.freeze({
    cyclesPerDay: binFrequencies(n, stepSeconds),
    density,
    ...densityLimits(density, n, 2 * tapers, level),
    unit: densityUnit(unit),
    bandwidth: (tapers + 1) / ((n + 1) * days),
    tapers,
    steps: n,
  });
}
