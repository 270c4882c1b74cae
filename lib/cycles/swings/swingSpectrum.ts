import { mustSentence, shown } from "../../ground/complaint.js";
import { moreDays } from "../../ground/moreDays.js";
import { bridgedHours } from "../../grid/bridgedHours.js";
import { drawnRecords } from "./drawnRecords.js";
import { withoutLine } from "./leastSquaresLine.js";
import { redBackground } from "./redBackground.js";
import { seasonalStrength } from "./seasonalStrength.js";
import { sineTaperSpectrum } from "./sineTaperSpectrum.js";

/** Days of record under which a beat cannot be told from chance. */
export const beatNeedsDays: number = 40;
/** From so many days on a very smooth background is called too often at 0.05: ask for more there. */
const strictFromDays = 180;
/** From so many days on the drawn records follow the season's strength. */
const seasonFromDays = 270;
const stepDays = 0.25;
const shortestPeriod = 2;
const longestPeriod = 12;
const mostPeaks = 3;

/** A height above the background and how often chance reaches it. */
export interface SpectrumPeak {
  readonly periodDays: number;
  /** Ends of ± 2/T in frequency · d. */
  readonly periodLow: number;
  readonly periodHigh: number;
  /** Height over the background. */
  readonly ratio: number;
  /** Share of records of irregular weather whose highest peak is at least as high, over all periods looked at. */
  readonly pValue: number;
  readonly significant: boolean;
}

/** The swings' spectrum, its background, and whether a beat stands out of it. */
export interface SwingSpectrum {
  readonly days: number;
  /** a, b, c (from 300 d on also d, e) of ln B = a + b L + c L² + …, L = ln(f/0.2 cpd), B in the units of the statistic; null when nothing could be fitted. */
  readonly background: { readonly form: string; readonly coefficients: readonly number[] } | null;
  /** Highest first; none under 40 d. */
  readonly peaks: readonly SpectrumPeak[];
  readonly says: string;
  /** For a figure: cpd, and one-sided densities in hPa² per cpd · bins from 1/T. */
  readonly cyclesPerDay: Float64Array;
  readonly density: Float64Array;
  readonly backgroundDensity: Float64Array;
}

/**
 * Asks whether the swings come at a beat of 2 to 12 days, or at none.
 *
 * Three sine tapers, a smooth background fitted by gamma regression, the highest ratio of the two, and its chance from records
 * drawn with that background, the same gaps and their own fit. A highest ratio exists in every record: below significance it is no
 * cycle and must not be told as one. A very broad hump counts as background: intended.
 *
 * @param sixHourly       tide-free six-hourly means · hPa · [n] · NaN is missing
 * @param normals         standard normal numbers, one a call, seeded by the caller
 * @param options.draws   records drawn · default 499; the smallest p is 1/(draws + 1)
 * @param options.untested why no beat is asked for, to stand in `says`: nothing is drawn then · default a beat is asked for
 * @returns               see SwingSpectrum, frozen
 * @throws RangeError     when draws is no whole number from 99 to 99999
 * @throws RecordError    when no value is present
 * @example swingSpectrum(sixHourly, random(1).normal).says
 * @source chosen and measured by simulation, see README of this room
 */
export function swingSpectrum(sixHourly: ArrayLike<number>, normals: () => number, options: { draws?: number; untested?: string } = {}): SwingSpectrum {
  const { draws = 499 } = options;
  if (!(Number.isInteger(draws) && draws >= 99 && draws <= 99999)) {
    throw new RangeError(mustSentence("swingSpectrum", "draws", "be a whole number from 99 to 99999", shown(draws)));
  }
  const bridged = bridgedHours(sixHourly);
  const n = bridged.values.length;
  const days = n * stepDays;
  const left = withoutLine(bridged.values);
  const level = bridged.values.reduce((most, v) => Math.max(most, Math.abs(v)), 1);
  const isFlat = left.every((v) => Math.abs(v) <= 1e-9 * level);
  if (days < 8 || isFlat) return nothing(days, options.untested ?? (isFlat ? "The pressure did not change: there are no swings to look at." : tooShort(days)));
  const spectrum = sineTaperSpectrum(n, 3);
  const background = redBackground(n, stepDays);
  // From 40 d on a beat of 12 d is in the record three times and more.
  const from = Math.ceil(days / longestPeriod - 1e-9);
  const to = Math.floor(days / shortestPeriod + 1e-9);
  const ratios = (density: Float64Array, b: Float64Array): Float64Array => {
    const found: Float64Array = new Float64Array(Math.max(0, to - from + 1));
    for (let i = 0; i < found.length; i++) found[i] = density[from + i] / background.at(b, from + i);
    return found;
  };
  const density = spectrum.of(left);
  const b = background.fit(density);
  const picture = {
    days,
    background: Object.freeze({ form: `ln B = ${["a", "b L", "c L^2", "d L^3", "e L^4"].slice(0, b.length).join(" + ")}, L = ln(f/0.2), f in cycles per day`, coefficients: Object.freeze([...b]) }),
    cyclesPerDay: Float64Array.from(density, (_, i) => i / days).slice(1),
    density: density.map((s) => 2 * stepDays * s).slice(1),
    backgroundDensity: Float64Array.from(density, (_, i) => 2 * stepDays * background.at(b, i)).slice(1),
  };
  const untested = options.untested ?? (days < beatNeedsDays ? tooShort(days) : undefined);
  if (untested !== undefined) return Object.freeze({ ...picture, peaks: Object.freeze([]), says: untested });
  const gapped = Float64Array.from(bridged.values, (v, i) => (bridged.isReal[i] === 1 ? v : Number.NaN));
  const chance: number[] = [];
  const strength = days >= seasonFromDays ? seasonalStrength(left, stepDays) : null;
  for (const record of drawnRecords(gapped, (cycles) => background.at(b, cycles * n), normals, draws)) {
    if (strength !== null) for (let i = 0; i < n; i++) record[i] *= strength[i];
    const drawn = spectrum.of(withoutLine(record));
    chance.push(Math.max(...ratios(drawn, background.fit(drawn))));
  }
  const limit = days >= strictFromDays ? 0.03 : 0.05;
  const peaks = highest(ratios(density, b)).map(({ index, ratio }) => {
    const frequency = (from + index) / days;
    const pValue = (1 + chance.filter((r) => r >= ratio).length) / (draws + 1);
    return Object.freeze({
      periodDays: 1 / frequency,
      periodLow: 1 / (frequency + 2 / days),
      // From 40 days on the first bin looked at is the fourth: two below it frequency is still above 0.
      periodHigh: 1 / (frequency - 2 / days),
      ratio,
      pValue,
      significant: pValue < limit,
    });
  });
  return Object.freeze({ ...picture, peaks: Object.freeze(peaks), says: verdict(peaks) });
}

/** At most three local maxima, highest first, more than four bins apart (the tapers' full width). */
function highest(ratios: Float64Array): { index: number; ratio: number }[] {
  const order = [...ratios.keys()].sort((i, j) => ratios[j] - ratios[i]);
  const taken: number[] = [];
  for (const i of order) {
    if (taken.length === mostPeaks) break;
    const isTop = !(ratios[i - 1] > ratios[i]) && !(ratios[i + 1] > ratios[i]);
    if (isTop && taken.every((t) => Math.abs(t - i) > 4)) taken.push(i);
  }
  return taken.map((index) => ({ index, ratio: ratios[index] }));
}

function tooShort(days: number): string {
  return `Too short to tell a beat of the swings from chance: log ${moreDays(Math.max(1, Math.ceil(beatNeedsDays - days)))}.`;
}

function verdict(peaks: readonly SpectrumPeak[]): string {
  const first = peaks[0];
  const inHundred = Math.max(1, Math.round(100 * first.pValue));
  if (!first.significant) {
    const often = first.pValue > 0.995 ? "nearly all" : `about ${inHundred} of 100`;
    return `The swings come at no fixed beat: a spectrum like this appears by chance in ${often} records of irregular weather.`;
  }
  const rare = first.pValue < 0.01 ? "fewer than 1 of 100" : `about ${inHundred} of 100`;
  return `The swings tend to return every ${first.periodDays.toFixed(1)} days (${first.periodLow.toFixed(1)} to ${first.periodHigh.toFixed(1)}): chance alone does this in ${rare} records of irregular weather.`;
}

function nothing(days: number, says: string): SwingSpectrum {
  const empty: Float64Array = new Float64Array(0);
  return Object.freeze({ days, background: null, peaks: Object.freeze([]), says, cyclesPerDay: empty, density: empty, backgroundDensity: empty });
}
