import { mustSentence, requireReadings, shown } from "../../ground/complaint.js";
import { powerUnit } from "./spectralUnit.js";

/** How the power is scaled; P is the share of the squares that the line takes, 0…1. */
export type LombScargleNormalization = "standard" | "model" | "log" | "psd";

/** What is done about the level: fitted anew at each frequency, its mean removed once, or nothing. */
export type LombScargleConstant = "fitted" | "removed" | "none";

/** Power of a line at each asked frequency in readings at any times. */
export interface LombScargle {
  readonly cyclesPerDay: Float64Array;
  readonly power: Float64Array;
  /** "1", and unit² for psd. */
  readonly unit: string;
  readonly normalization: LombScargleNormalization;
  readonly constant: LombScargleConstant;
  /** Readings used, and readings left out because they were missing. */
  readonly used: number;
  readonly missing: number;
}

const scale: Readonly<Record<LombScargleNormalization, (share: number, squares: number) => number>> = Object.freeze({
  standard: (share: number) => share,
  model: (share: number) => share / (1 - share),
  log: (share: number) => -Math.log1p(-share),
  psd: (share: number, squares: number) => (share * squares) / 2,
});

/** Share of the squares Σy² that cosine and sine of one frequency take, by their 2 × 2 normal equations. */
function shareOfSquares(t: Float64Array, y: Float64Array, squares: number, frequency: number, fitted: boolean): number {
  let [c, s, cc, cs, yc, ys] = [0, 0, 0, 0, 0, 0];
  for (let i = 0; i < t.length; i++) {
    const turns = frequency * t[i];
    const angle = 2 * Math.PI * (turns - Math.floor(turns));
    const cosine = Math.cos(angle);
    const sine = Math.sin(angle);
    c += cosine;
    s += sine;
    cc += cosine * cosine;
    cs += cosine * sine;
    yc += y[i] * cosine;
    ys += y[i] * sine;
  }
  const n = t.length;
  let ss = n - cc;
  if (fitted) {
    cc -= (c * c) / n;
    cs -= (c * s) / n;
    ss -= (s * s) / n;
  }
  const trace = cc + ss;
  const determinant = cc * ss - cs * cs;
  if (trace <= 1e-12 * n) return 0; // Nothing but a constant at these times.
  // Even steps at half a cycle a step: only one of the two waves is seen.
  const taken = determinant > 1e-12 * trace * trace ? (ss * yc * yc + cc * ys * ys - 2 * cs * yc * ys) / determinant : (yc * yc + ys * ys) / trace;
  return Math.min(1, Math.max(0, taken / squares));
}

/**
 * The spectrum of readings at any times, gaps and all: how well a line of each frequency fits by least squares.
 *
 * For a record that cannot be put on even steps. It shows where lines may be; it is not a density of noise, gaps make
 * false companions of every line, and a high peak in irregular weather is no proof (compare with red noise). The plain
 * form: readings × frequencies pairs of cosine and sine, about 50 ns each: 10 000 readings at 1 000 frequencies take
 * half a second. Order of the readings does not matter.
 *
 * @param days         times since the record's start · d · [n] · finite
 * @param values       any unit · [n] · NaN is missing and left out
 * @param cyclesPerDay frequencies asked · above 0 · [m]
 * @param options.normalization  standard: share of the squares, 0…1 (default) · model P/(1−P) · log −ln(1−P) · psd P·Σ(y−ȳ)²/2 in unit²
 * @param options.constant       fitted with each line (default) · mean removed once · none
 * @param options.unit           unit of the values, default "1"
 * @returns            see LombScargle
 * @throws RangeError  when lengths differ, a time or frequency is not finite, fewer than 4 readings are present, or they do not vary
 * @throws TypeError   when normalization or constant is unknown
 * @example lombScargle([0, 0.25, 0.5, 1, 1.75], [3, 1, -1, 3, 1], [1]).power // 1 (values are 1 + 2 cos 2πt)
 * @source J. D. Scargle, Astrophys. J. 263 (1982); constant fitted: M. Zechmeister, M. Kürster, Astron. Astrophys. 496 (2009) (both from memory); tested against astropy.timeseries.LombScargle
 */
export function lombScargle(
  days: ArrayLike<number>,
  values: ArrayLike<number>,
  cyclesPerDay: ArrayLike<number>,
  options: { readonly normalization?: LombScargleNormalization; readonly constant?: LombScargleConstant; readonly unit?: string } = {},
): LombScargle {
  const { normalization = "standard", constant = "fitted", unit = "1" } = options;
  if (!(normalization in scale)) throw new TypeError(mustSentence("lombScargle", "normalization", "be one of standard, model, log, psd", shown(normalization)));
  if (!["fitted", "removed", "none"].includes(constant)) throw new TypeError(mustSentence("lombScargle", "constant", "be one of fitted, removed, none", shown(constant)));
  const { t, y } = present(days, values);
  const mean = constant === "none" ? 0 : y.reduce((sum, v) => sum + (v - y[0]), 0) / y.length + y[0];
  const level0 = y.map((v) => v - mean);
  const squares = level0.reduce((sum, v) => sum + v * v, 0);
  if (!(squares > 0)) throw new RangeError(mustSentence("lombScargle", "values", "vary", `${y[0]} throughout`));
  const frequencies: Float64Array = Float64Array.from(cyclesPerDay);
  frequencies.forEach((f, i) => {
    if (!(f > 0 && f < Infinity)) throw new RangeError(mustSentence("lombScargle", "cyclesPerDay", "be above 0 and finite", `${f} cpd at index ${i}`));
  });
  const power = frequencies.map((f) => scale[normalization](shareOfSquares(t, level0, squares, f, constant === "fitted"), squares));
  return Object.freeze({
    cyclesPerDay: frequencies,
    power,
    unit: normalization === "psd" ? powerUnit(unit) : "1",
    normalization,
    constant,
    used: y.length,
    missing: values.length - y.length,
  });
}

/** The readings that are there, times from the first one's. */
function present(days: ArrayLike<number>, values: ArrayLike<number>): { t: Float64Array; y: Float64Array } {
  const n = values.length;
  if (days.length !== n) throw new RangeError(mustSentence("lombScargle", "days", `have the length of values, ${n}`, String(days.length)));
  requireReadings("lombScargle", "values", values);
  const there: number[] = [];
  for (let i = 0; i < n; i++) {
    const v = values[i] as number;
    if (!Number.isFinite(days[i] as number)) throw new RangeError(mustSentence("lombScargle", "days", "be finite", `${days[i]} d at index ${i}`));
    if (!Number.isNaN(v)) there.push(i);
  }
  if (there.length < 4) throw new RangeError(mustSentence("lombScargle", "values", "hold at least 4 readings", String(there.length), "log longer"));
  const zero = days[there[0]] as number;
  return { t: Float64Array.from(there, (i) => (days[i] as number) - zero), y: Float64Array.from(there, (i) => values[i] as number) };
}
