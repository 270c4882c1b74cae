import { leastSquares } from "../../ground/leastSquares.js";

/** A smooth background for spectra of one length. */
export interface RedBackground {
  /** First and last bin it is fitted on. */
  readonly from: number;
  readonly to: number;
  /** Coefficients of ln B = a + b L + c L² (+ d L³ + e L⁴ in long records), L = ln(f / 0.2 cpd). */
  fit(spectrum: Float64Array): Float64Array;
  /** B at a bin, fractions allowed · unit of the spectrum · held flat outside the fitted range. */
  at(coefficients: Float64Array, bin: number): number;
}

const middleFrequency = 0.2;
const iterations = 12;
/** ln of an average of few looks lies below the ln of their mean: where the search begins. */
const startAbove = 0.3;
/** From so many days on a parabola cannot follow weather of two memories: the spectrum is known too well (set by simulation). */
const quarticFromDays = 300;

/**
 * A background of weather that remembers: the spectrum's logarithm as a parabola in the logarithm of frequency, from 300 d on with
 * a cubic and a quartic term.
 *
 * Gamma regression: a peak pulls it up little, whatever its height. Station pressure is smoother than a first-order process with one
 * memory; over such a background the usual test calls 29–100 % of cycle-free records a cycle (measured by simulation).
 *
 * @param length   steps of a record · n
 * @param stepDays d
 * @param fromBin  first bin fitted · default 2
 * @param toCpd    highest frequency fitted · cpd · default 0.9
 * @returns        see RedBackground
 * @throws RangeError when fewer than 6 bins lie in the range
 * @example redBackground(360, 0.25).fit(sineTaperSpectrum(360, 3).of(values))
 * @source generalized linear model with logarithmic link, gamma errors; working values cut at 4, measured by simulation
 */
export function redBackground(length: number, stepDays: number, fromBin = 2, toCpd = 0.9): RedBackground {
  const days = length * stepDays;
  const to = Math.min(Math.floor(length / 2), Math.floor(toCpd * days + 1e-9));
  const bins = to - fromBin + 1;
  if (bins < 6) throw new RangeError(`redBackground: length must leave at least 6 frequencies up to ${toCpd} cpd (got ${Math.max(0, bins)}); log longer`);
  const log = (i: number): number => Math.log(Math.min(to, Math.max(fromBin, i)) / days / middleFrequency);
  const rows = Array.from({ length: bins }, (_, i) => log(fromBin + i));
  const order = days >= quarticFromDays ? 5 : 3;
  const columns = Array.from({ length: order }, (_, power) => Float64Array.from(rows, (l) => l ** power));
  // The weights of this regression are constant: one pseudo-inverse serves every step and every drawn record.
  const { unitCovariance } = leastSquares(columns, columns[1]);
  const inverse = unitCovariance.map((row) => Float64Array.from(rows, (_, i) => columns.reduce((sum, column, k) => sum + row[k] * column[i], 0)));
  const working: Float64Array = new Float64Array(bins);
  const solve = (): Float64Array => {
    const found: Float64Array = new Float64Array(order);
    for (let k = 0; k < order; k++) found[k] = dotProduct(inverse[k], working);
    return found;
  };

  const fit = (spectrum: Float64Array): Float64Array => {
    // A bin of exactly nothing (a constant record) has no logarithm.
    for (let i = 0; i < bins; i++) working[i] = Math.log(Math.max(spectrum[fromBin + i], 1e-300));
    const b = solve();
    b[0] += startAbove;
    for (let turn = 0; turn < iterations; turn++) {
      for (let i = 0; i < bins; i++) {
        const eta = polynomial(b, rows[i]);
        working[i] = eta + Math.min(4, Math.max(-1, spectrum[fromBin + i] / Math.exp(eta) - 1));
      }
      b.set(solve());
    }
    return b;
  };
  const at = (b: Float64Array, bin: number): number => Math.exp(polynomial(b, log(bin)));
  return Object.freeze({ from: fromBin, to, fit, at });
}

function dotProduct(a: Float64Array, b: Float64Array): number {
  let sum = 0;
  for (let i = 0; i < a.length; i++) sum += a[i] * b[i];
  return sum;
}

function polynomial(coefficients: Float64Array, x: number): number {
  let sum = 0;
  for (let k = coefficients.length - 1; k >= 0; k--) sum = sum * x + coefficients[k];
  return sum;
}
