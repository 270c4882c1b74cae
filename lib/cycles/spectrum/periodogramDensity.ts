import { fourierPlan } from "./fourier.js";
import { binFrequencies, type Removed, requireEven, withoutLevel } from "./evenSamples.js";
import { densityUnit, powerUnit } from "./spectralUnit.js";
import { type WindowName, windowWeights } from "./taperWindow.js";

/** What every spectrum of even steps can be told. */
export interface EvenSpectrumOptions {
  /** Step of the record · s. */
  readonly stepSeconds: number;
  /** Default Hann. */
  readonly window?: WindowName;
  /** What is taken out first, default the mean. */
  readonly removed?: Removed;
  /** Unit of the values, UDUNITS spelling, default "1". */
  readonly unit?: string;
}

/** Mean square per cycle a day; its sum times the bin width is the variance. */
export interface DensitySpectrum {
  readonly cyclesPerDay: Float64Array;
  readonly density: Float64Array;
  readonly unit: string;
  /** Equivalent noise bandwidth · cycles per day: features narrower than this are smeared to it. */
  readonly bandwidth: number;
  readonly window: WindowName;
  readonly steps: number;
}

/** Mean square in each bin; a line of amplitude A on a bin peaks at A²/2. */
export interface PowerSpectrum {
  readonly cyclesPerDay: Float64Array;
  readonly power: Float64Array;
  readonly unit: string;
  readonly window: WindowName;
  readonly steps: number;
}

/** |X_k|² of the windowed values, doubled wherever a bin stands for both signs of its frequency. */
export function oneSidedSquares(values: Float64Array, weights: Float64Array, work?: Float64Array): Float64Array {
  const n = values.length;
  const weighted: Float64Array = new Float64Array(n);
  for (let j = 0; j < n; j++) weighted[j] = values[j] * weights[j];
  const pairs = fourierPlan(n).forward(weighted, work);
  const squares: Float64Array = new Float64Array(pairs.length / 2);
  for (let k = 0; k < squares.length; k++) {
    const both = k === 0 || 2 * k === n ? 1 : 2;
    squares[k] = both * (pairs[2 * k] ** 2 + pairs[2 * k + 1] ** 2);
  }
  return squares;
}

interface Weighed {
  readonly squares: Float64Array;
  readonly cyclesPerDay: Float64Array;
  readonly sum: number;
  readonly sumOfSquares: number;
}

function weigh(at: string, values: ArrayLike<number>, options: EvenSpectrumOptions): Weighed {
  const { stepSeconds, window: name = "Hann", removed = "mean" } = options;
  requireEven(at, values, stepSeconds, 2);
  const weights = windowWeights(name, values.length);
  const squares = oneSidedSquares(withoutLevel(values, removed, at), weights);
  let sum = 0;
  let sumOfSquares = 0;
  for (const w of weights) {
    sum += w;
    sumOfSquares += w * w;
  }
  return { squares, cyclesPerDay: binFrequencies(values.length, stepSeconds), sum, sumOfSquares };
}

/**
 * The one-sided spectral density of a whole even record: how the variance is spread over frequency, unsmoothed.
 *
 * For noise and continuous spectra. Each bin scatters as much as its own size (two degrees of freedom) however long the
 * record is: use welchDensity or multitaperDensity to see a shape, powerSpectrum to read a line. Density is
 * |X_k|²·Δt / Σw², doubled except at bin 0 and, for even length, at the last bin; white noise of standard deviation σ
 * has 2σ²Δt. The sum over bins times their spacing is the variance (exactly so for the rectangular window).
 *
 * @param values  any unit · even steps · [n], n ≥ 2 · NaN is refused
 * @param options see EvenSpectrumOptions
 * @returns cyclesPerDay  bins 0…⌊n/2⌋ · cycles per day
 * @returns density       unit² d (per cycle a day)
 * @returns bandwidth     cycles per day
 * @throws RangeError when a value is missing or not finite, the step is not positive, or there are fewer than 2 steps
 * @throws TypeError  when window or removed is unknown
 * @example periodogramDensity(tenDaysHourly, { stepSeconds: 3600, unit: "hPa" }).unit // "hPa2 d"
 * @source definition, as scipy.signal.periodogram(scaling="density"), against which it is tested
 */
export function periodogramDensity(values: ArrayLike<number>, options: EvenSpectrumOptions): DensitySpectrum {
  const { squares, cyclesPerDay, sum, sumOfSquares } = weigh("periodogramDensity", values, options);
  const days = options.stepSeconds / 86400;
  const density = squares.map((s) => (s * days) / sumOfSquares);
  return Object.freeze({
    cyclesPerDay,
    density,
    unit: densityUnit(options.unit ?? "1"),
    bandwidth: sumOfSquares / (sum * sum * days),
    window: options.window ?? "Hann",
    steps: values.length,
  });
}

/**
 * The one-sided power spectrum of a whole even record: the mean square of the line in each bin.
 *
 * For lines: one of amplitude A exactly on a bin reads A²/2 there, whatever the window, so A = √(2·power). Noise reads
 * higher the shorter the record: use a density for it. Power is |X_k|² / (Σw)², doubled except at bin 0 and, for even
 * length, at the last bin.
 *
 * @param values  any unit · even steps · [n], n ≥ 2 · NaN is refused
 * @param options see EvenSpectrumOptions
 * @returns cyclesPerDay  bins 0…⌊n/2⌋ · cycles per day
 * @returns power         unit²
 * @throws RangeError when a value is missing or not finite, the step is not positive, or there are fewer than 2 steps
 * @throws TypeError  when window or removed is unknown
 * @example powerSpectrum(tenDaysHourly, { stepSeconds: 3600, unit: "hPa" }).power[20] // 0.6728 (hPa², a line of 1.16 hPa at 2 cpd)
 * @source definition, as scipy.signal.periodogram(scaling="spectrum"), against which it is tested
 */
export function powerSpectrum(values: ArrayLike<number>, options: EvenSpectrumOptions): PowerSpectrum {
  const { squares, cyclesPerDay, sum } = weigh("powerSpectrum", values, options);
  const power = squares.map((s) => s / (sum * sum));
  return Object.freeze({ cyclesPerDay, power, unit: powerUnit(options.unit ?? "1"), window: options.window ?? "Hann", steps: values.length });
}
