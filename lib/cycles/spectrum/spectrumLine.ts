import { mustSentence, shown } from "../../ground/complaint.js";
import { type Removed, requireEven, withoutLevel } from "./evenSamples.js";
import { amplitudeUnit } from "./spectralUnit.js";
import { type WindowName, windowWeights } from "./taperWindow.js";
import { shareAt } from "./windowFigures.js";

/** Slowest line told, in bins: slower ones have no crest within any record. */
const leastBin = 1e-9;

/** One line as a windowed spectrum shows it: A·cos(2πft + phase), t from the first step. */
export interface SpectrumLine {
  /** Where it was read. */
  readonly cyclesPerDay: number;
  /** From mean to crest, as read. */
  readonly amplitude: number;
  readonly unit: string;
  /** Degrees, above −180 to 180; 0 is a crest at the first step, positive a crest before it. */
  readonly phaseDegrees: number;
  /** First crest at or after the first step · d · 0 to one period. */
  readonly crestAfterDays: number;
  /** Share of a true line's amplitude left at the place of reading: 1 on the line, 0.85 half a bin off with Hann. */
  readonly share: number;
}

/**
 * Amplitude and phase of one line of an even record, read from its windowed spectrum.
 *
 * A quick look, with no interval: fitTides fits lines with honest errors, through gaps. By default the spectrum is
 * summed at the line's own frequency; `at: "bin"` reads the nearest bin of the transform instead, as one does by eye, and
 * `share` then says what is lost. The window keeps other lines out if they are farther than its width (Hann: two bins).
 *
 * @param values       any unit · even steps · [n], n ≥ 3 · NaN is refused
 * @param cyclesPerDay the line · a billionth of a cycle in the record or more, below half a cycle a step
 * @param options.stepSeconds s
 * @param options.window      default Hann
 * @param options.removed     taken out first, default the mean
 * @param options.at          "frequency" or "bin", default "frequency"
 * @param options.unit        UDUNITS spelling, default "1"
 * @returns                   see SpectrumLine
 * @throws RangeError when a value is missing, or the line is not between 0 and half a cycle a step
 * @throws TypeError  when window, removed or at is unknown
 * @example spectrumLine(tenDaysHourly, 2, { stepSeconds: 3600, unit: "hPa" }).amplitude // 1.16 (hPa)
 * @source 2 Σ w_j x_j e^{−2πift} / Σ w_j = A e^{i·phase} (definition)
 */
export function spectrumLine(
  values: ArrayLike<number>,
  cyclesPerDay: number,
  options: {
    readonly stepSeconds: number;
    readonly window?: WindowName;
    readonly removed?: Removed;
    readonly at?: "frequency" | "bin";
    readonly unit?: string;
  },
): SpectrumLine {
  const { stepSeconds, window: name = "Hann", removed = "mean", at = "frequency", unit = "1" } = options;
  requireEven("spectrumLine", values, stepSeconds, 3);
  if (at !== "frequency" && at !== "bin") throw new TypeError(mustSentence("spectrumLine", "at", "be frequency or bin", shown(at)));
  const n = values.length;
  const days = (n * stepSeconds) / 86400;
  // Position of the reading and of the line, in bins.
  const wanted = cyclesPerDay * days;
  const read = at === "bin" ? Math.round(wanted) : wanted;
  if (!(read >= leastBin && 2 * read < n)) {
    const range = at === "bin" ? "lie nearest to a bin between the first and the last" : "be above 0 and below half a cycle a step";
    throw new RangeError(mustSentence("spectrumLine", "cyclesPerDay", `${range}, 0 to ${n / 2 / days} cpd`, shown(cyclesPerDay, "cpd")));
  }
  const level0 = withoutLevel(values, removed, "spectrumLine");
  const weights = windowWeights(name, n);
  let re = 0;
  let im = 0;
  let sum = 0;
  for (let j = 0; j < n; j++) {
    const angle = 2 * Math.PI * (((read * j) / n) % 1);
    re += weights[j] * level0[j] * Math.cos(angle);
    im -= weights[j] * level0[j] * Math.sin(angle);
    sum += weights[j];
  }
  const phase = Math.atan2(im, re);
  const turns = -phase / (2 * Math.PI);
  return Object.freeze({
    cyclesPerDay: read / days,
    amplitude: (2 * Math.hypot(re, im)) / sum,
    unit: amplitudeUnit(unit),
    phaseDegrees: phase === -Math.PI ? 180 : (phase * 180) / Math.PI,
    crestAfterDays: ((turns - Math.floor(turns)) * days) / read,
    share: shareAt(weights, wanted - read),
  });
}
