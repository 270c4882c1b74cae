import { describe } from "vitest";
import { autoregressiveDensity } from "../../lib/cycles/spectrum/autoregressiveDensity.js";
import { limitFactors } from "../../lib/cycles/spectrum/densityLimits.js";
import { lombScargle, type LombScargleNormalization } from "../../lib/cycles/spectrum/lombScargle.js";
import { periodogramDensity, powerSpectrum } from "../../lib/cycles/spectrum/periodogramDensity.js";
import { inverseRealTransform, realTransform } from "../../lib/cycles/spectrum/realTransform.js";
import { spectrumLine } from "../../lib/cycles/spectrum/spectrumLine.js";
import { type WindowName, windowWeights } from "../../lib/cycles/spectrum/taperWindow.js";
import { welchDegreesOfFreedom, welchDensity } from "../../lib/cycles/spectrum/welchDensity.js";
import { overlapCorrelation, windowFigures } from "../../lib/cycles/spectrum/windowFigures.js";
import { checkRows, type PublishedRow } from "./publishedRow.js";

const scipy = "computed with numpy 1.24.2 and scipy 1.10.1";
const digits = (places: number): { tolerance: { absolute: number }; why: string } => ({ tolerance: { absolute: 0.51 * 10 ** -places }, why: "half of the last digit written" });

const row = (given: string, got: () => number, expected: number, places: number, source = scipy): PublishedRow => ({ given, got, expected, ...digits(places), source });

// name, coherent gain, noise bandwidth in bins, scalloping in dB, overlap correlation at 50 and 75 %
const windows: readonly (readonly [WindowName, number, number, number, number, number])[] = [
  ["rectangular", 1, 1, -3.922, 0.5, 0.75],
  ["Hann", 0.5, 1.5, -1.424, 0.1667, 0.6592],
  ["Hamming", 0.54, 1.3628, -1.751, 0.2338, 0.7069],
  ["triangle", 0.5, 1.3333, -1.824, 0.25, 0.7187],
  ["Blackman", 0.42, 1.7268, -1.099, 0.0896, 0.5667],
  ["Blackman-Harris", 0.3587, 2.0044, -0.826, 0.0376, 0.46],
];
// name, noise bandwidth in bins, scalloping loss in dB
const harris: readonly (readonly [WindowName, number, number])[] = [
  ["rectangular", 1, 3.92], ["Hann", 1.5, 1.42], ["Hamming", 1.36, 1.78], ["triangle", 1.33, 1.82], ["Blackman", 1.73, 1.1], ["Blackman-Harris", 2, 0.83],
];
const harrisSource = "from memory: F. J. Harris, Proc. IEEE 66 (1978), table 1";

describe("windows", () => {
  checkRows(
    windows.flatMap(([name, gain, bandwidth, scalloping, half, threeQuarters]) => [
      row(`${name}, coherent gain`, () => windowFigures(name).coherentGain, gain, 4),
      row(`${name}, noise bandwidth in bins`, () => windowFigures(name).equivalentNoiseBandwidth, bandwidth, 4),
      row(`${name}, scalloping in dB`, () => windowFigures(name).scalloping, scalloping, 3),
      row(`${name}, overlap correlation at 50 %`, () => overlapCorrelation(windowWeights(name, 4096), 2048), half, 4),
      row(`${name}, overlap correlation at 75 %`, () => overlapCorrelation(windowWeights(name, 4096), 1024), threeQuarters, 4),
    ]),
  );
  checkRows(
    harris.flatMap(([name, bandwidth, loss]): PublishedRow[] => [
      { given: `${name}, noise bandwidth in the table`, got: () => windowFigures(name).equivalentNoiseBandwidth, expected: bandwidth, tolerance: { absolute: 0.01 }, why: "two decimals printed", source: harrisSource },
      { given: `${name}, scalloping loss in the table`, got: () => -windowFigures(name).scalloping, expected: loss, tolerance: { absolute: 0.03 }, why: "the Hamming row of the table is 0.03 off the computed one", source: harrisSource },
    ]),
  );
});

const hours = (n: number, of: (days: number) => number): Float64Array => Float64Array.from({ length: n }, (_, j) => of(j / 24));
const tide = hours(240, (t) => 1.16 * Math.sin(2 * Math.PI * 2 * t + (158 * Math.PI) / 180));
const between = hours(240, (t) => 1.16 * Math.cos(2 * Math.PI * 2.05 * t));
const hourly = { stepSeconds: 3600, unit: "hPa" } as const;
const total = (a: Float64Array): number => a.reduce((sum, v) => sum + v, 0);

describe("a line in ten days of hours, 1.16 sin(2π·2t + 158°)", () => {
  const power = powerSpectrum(tide, hourly).power;
  const density = periodogramDensity(tide, hourly);
  checkRows([
    row("power at the line, hPa²", () => power[20], 0.6728, 6),
    row("amplitude √(2P), hPa", () => Math.sqrt(2 * power[20]), 1.16, 6),
    row("power in the bin below, hPa²", () => power[19], 0.1682, 6),
    row("power in the bin above, hPa²", () => power[21], 0.1682, 6),
    row("neighbor over peak", () => power[19] / power[20], 0.25, 9, "computed: Hann, exact"),
    row("density at the line, hPa² per cpd", () => density.density[20], 4.485333, 6),
    row("noise bandwidth, cpd", () => density.bandwidth, 0.15, 9),
    row("sum of density times spacing, hPa²", () => total(density.density) * 0.1, 0.6728, 9, "computed: exact, A²/2"),
    row("density at the line, rectangular", () => periodogramDensity(tide, { ...hourly, window: "rectangular" }).density[20], 6.728, 6, "computed: A²/2 times the length in days"),
    row("share read half a bin off, Hann", () => Math.sqrt(2 * Math.max(...powerSpectrum(between, { ...hourly, removed: "nothing" }).power)) / 1.16, 0.84883, 5),
    row("share read half a bin off, rectangular", () => Math.sqrt(2 * Math.max(...powerSpectrum(between, { ...hourly, window: "rectangular", removed: "nothing" }).power)) / 1.16, 0.64356, 5),
    row("share half a bin off, Hann, long record", () => 10 ** (windowFigures("Hann").scalloping / 20), 0.8488, 4),
    row("share half a bin off, rectangular, long record", () => 10 ** (windowFigures("rectangular").scalloping / 20), 2 / Math.PI, 4, "computed: 2/π"),
    row("phase as a cosine, 158° − 90°", () => spectrumLine(tide, 2, hourly).phaseDegrees, 68, 8, "computed: sin(x + 158°) = cos(x + 68°)"),
    row("first crest, h", () => spectrumLine(tide, 2, hourly).crestAfterDays * 24, 9.733, 3, "computed: (90 − 158)/30 = −2.267 h, 12 h later"),
  ]);
});

describe("noise in theory", () => {
  const red = (cpd: number): number => autoregressiveDensity([cpd], { coefficient: 0.9, innovation: 1, stepSeconds: 3600 }).density[0];
  const white = (sigma: number): number => autoregressiveDensity([1], { coefficient: 0, innovation: sigma, stepSeconds: 3600 }).density[0];
  const formula = "computed from 2σ²Δt/(1 − 2φ cos ω + φ²) with numpy 1.24.2";
  checkRows([
    row("white, σ = 0.5, hourly, per cpd", () => white(0.5), 0.0208333, 7, "computed: 2σ²/f_s"),
    row("red 0.9 at 0 cpd", () => red(0), 8.33333, 5, formula),
    row("red 0.9 at 1 cpd", () => red(1), 1.168221, 6, formula),
    row("red 0.9 at 2 cpd", () => red(2), 0.331801, 6, formula),
    row("red 0.9 at 12 cpd", () => red(12), 0.023084, 6, formula),
    row("red 0.9, variance", () => autoregressiveDensity([1], { coefficient: 0.9, innovation: 1, stepSeconds: 3600 }).variance, 5.263158, 6, formula),
    row("standard error of a cosine at 2 cpd over 100 days, √(density/T)", () => Math.sqrt(red(2) / 100), 0.057602, 6, formula),
    row("the same in white noise, N = 2400", () => Math.sqrt(white(1) / 100), 0.0288675, 7, "computed: √(2/N)"),
  ]);
});

describe("transforms by hand", () => {
  const pi = [3, 1, 4, 1, 5, 9, 2, 6];
  const eight = realTransform(pi);
  const seven = realTransform([1, 2, 3, 4, 5, 6, 7]);
  const twoSided = (x: ArrayLike<number>): number => {
    const { length, real, imaginary } = realTransform(x);
    return total(real.map((re, k) => (k === 0 || 2 * k === length ? 1 : 2) * (re ** 2 + imaginary[k] ** 2)));
  };
  checkRows([
    ...[31, -4.12132, 2, 0.12132, -3].map((v, k) => row(`3 1 4 1 5 9 2 6, real part of bin ${k}`, () => eight.real[k], v, 6)),
    ...[0, 7.192388, -3, 11.192388, 0].map((v, k) => row(`3 1 4 1 5 9 2 6, imaginary part of bin ${k}`, () => eight.imaginary[k], v, 6)),
    row("3 1 4 1 5 9 2 6, Σ|X|²/8 = Σx²", () => twoSided(pi) / 8, 173, 9, "computed: Parseval"),
    ...pi.map((v, j) => row(`3 1 4 1 5 9 2 6 there and back, value ${j}`, () => inverseRealTransform(eight)[j], v, 12, "computed: the input")),
    ...[28, -3.5, -3.5, -3.5].map((v, k) => row(`1…7, real part of bin ${k}`, () => seven.real[k], v, 8)),
    ...[0, 7.26782489, 2.79115686, 0.79885216].map((v, k) => row(`1…7, imaginary part of bin ${k}`, () => seven.imaginary[k], v, 8)),
  ]);
});

describe("degrees of freedom and limits", () => {
  const weights = windowWeights("Hann", 256);
  const formula = "computed: 2K/(1 + 2Σ(1 − m/K)ρ²), ρ₁ = 1/6, with scipy 1.10.1";
  checkRows([
    ...([[1, 2, 4], [2, 3.8919, 4], [4, 7.68, 4], [8, 15.2583, 4], [16, 30.4158, 4], [31, 58.8367, 4]] as const).flatMap(([k, dof, places]) => [
      row(`${k} Hann segments, half overlapped`, () => welchDegreesOfFreedom(weights, 128, k), dof, places, formula),
      row(`${k} Hann segments as welchDensity counts them`, () => welchDensity(hours(256 + 128 * (k - 1), (t) => Math.sin(t * t)), 256, hourly).degreesOfFreedom, dof, places, formula),
    ]),
    ...(
      [
        [2, 0.27109, 39.49789], [4, 0.35896, 8.25732], [8, 0.45624, 3.67018], [10, 0.48821, 3.07979],
        [20, 0.58532, 2.08534], [30, 0.63858, 1.7867], [60, 0.72031, 1.48215], [100, 0.77184, 1.34731],
      ] as const
    ).flatMap(([dof, low, high]) => [
      row(`lower 95 % factor, ${dof} degrees of freedom`, () => limitFactors(dof).low, low, 5),
      row(`upper 95 % factor, ${dof} degrees of freedom`, () => limitFactors(dof).high, high, 5),
    ]),
  ]);
});

describe("Lomb–Scargle at sixteen odd times", () => {
  const days = [0, 0.13, 0.31, 0.44, 0.78, 0.95, 1.21, 1.37, 1.62, 1.88, 2.05, 2.41, 2.66, 2.83, 3.17, 3.5];
  const values = days.map((t) => 1.16 * Math.sin(4 * Math.PI * t + (158 * Math.PI) / 180) + 0.3 * Math.cos(2 * Math.PI * t));
  const cpd = [0.5, 1, 1.5, 2, 2.5];
  const astropy = "computed with astropy 5.2.1";
  const fitted: Record<LombScargleNormalization, readonly number[]> = {
    standard: [0.03858272, 0.02155166, 0.02059249, 0.94058686, 0.02757803],
    model: [0.04013108, 0.02202636, 0.02102546, 15.83129378, 0.02836015],
    log: [0.03934675, 0.02178729, 0.02080747, 2.82323988, 0.02796544],
    psd: [0.23923393, 0.13363205, 0.1276847, 5.83215254, 0.17099885],
  };
  const removed = [0.03825102, 0.02155004, 0.02018349, 0.9274395, 0.02352789];
  const plain = [0.23717723, 0.13362201, 0.12514869, 5.75063169, 0.14588575];
  checkRows([
    ...(Object.keys(fitted) as LombScargleNormalization[]).flatMap((normalization) =>
      cpd.map((f, i) => row(`constant fitted, ${normalization}, ${f} cpd`, () => lombScargle(days, values, [f], { normalization }).power[0], fitted[normalization][i], 8, astropy)),
    ),
    ...cpd.map((f, i) => row(`mean removed, standard, ${f} cpd`, () => lombScargle(days, values, [f], { constant: "removed" }).power[0], removed[i], 8, astropy)),
    ...cpd.map((f, i) => row(`mean removed, psd, ${f} cpd`, () => lombScargle(days, values, [f], { constant: "removed", normalization: "psd" }).power[0], plain[i], 8, scipy)),
  ]);
});
