import { mustSentence, RecordError } from "../../ground/complaint.js";
import { displayable } from "../../ground/display.js";
import type { Series } from "../../record/series.js";
import { tideEpoch } from "./argumentAtEpoch.js";
import { whiteShare } from "./bandedNoise.js";
import { constituentOf, lineCoefficients, noiseDensity } from "./constituentOf.js";
import { type FittedNoise, fittedNoise } from "./fittedNoise.js";
import { pairsOf } from "./fittedLines.js";
import { levelJumps } from "./levelJumps.js";
import { lineNoise } from "./lineNoise.js";
import { seasonalTest } from "./seasonalTest.js";
import { tideClimatology } from "./tideClimatology.js";
import type { TideFit, TideNoise, TideOptions } from "./tideFit.js";
import { tideFrame } from "./tideFrame.js";
import { tideSteps } from "./tideSteps.js";
import { tideText } from "./tideText.js";
import { tideWarnings } from "./tideWarnings.js";
import { observedDays } from "./usableReadings.js";

/** Hours needed beyond the number of columns. */
const spareHours = 8;
/** Records longer than this are given by calendar month too · d. */
const monthsFrom = 60;

/** θ and σ² in the form in which a fit carries them. */
export function noiseOf(theta: readonly [number, number, number], sigma2: number): TideNoise {
  return Object.freeze({
    whiteRatio: Math.exp(theta[0]),
    slowRate: Math.exp(theta[1]),
    fastRate: Math.exp(theta[2]),
    sigma: Math.sqrt(sigma2),
    whiteShare: whiteShare(theta),
  });
}

/** Mean of the parts' means, by their share of the kept hours. */
function levelOf({ rows, beta }: FittedNoise): number {
  if (rows.smooth === 2) return rows.level + beta[0];
  let sum = 0;
  for (let i = 0; i < rows.hours; i++) {
    if (rows.weights[i] === 0) continue;
    for (let k = 0; k < rows.smooth; k += 2) sum += rows.table[k * rows.hours + i] * beta[k];
  }
  return rows.level + sum / rows.kept;
}

/**
 * The fit behind `fitTides` and `dailyCycle`: any quantity, same method.
 *
 * @param at      name of the calling function, for its complaints
 * @param series  see `fitTides`
 * @param options see `fitTides`
 * @param caution sentences put before the other warnings
 */
export function tideOfSeries(at: string, series: Series, options: TideOptions, caution: readonly string[] = []): TideFit {
  const { readings, fitted, spacing, straight, averagedOver } = tideFrame(at, series, options);
  const { longitude, events = [] } = options;
  const steps = tideSteps(readings);
  const { midnight } = steps;
  const jumps = levelJumps(steps, events.map((e) => (e - midnight) / 1000));
  const breaks = jumps.map((j) => j.at);
  const pairs = pairsOf(fitted.lines, midnight, averagedOver);
  const fit = fittedNoise(steps, pairs, breaks);
  const { rows, theta, sigma2, beta, inverse } = fit;
  if (!(sigma2 > 0) || rows.kept < rows.columns + spareHours) {
    const isFew = rows.kept < rows.columns + spareHours;
    const few = isFew ? `${rows.kept} hours with readings for ${rows.columns} unknowns` : `${rows.kept} hours with readings that cannot tell the lines apart`;
    // Many readings at a few hours of the day never make up for the others.
    const remedy = isFew || sigma2 === 0 ? "log longer" : "log at all hours of the day";
    throw new RecordError(mustSentence(at, "series", "carry the lines asked for", sigma2 === 0 ? "readings that never change" : few, remedy), "data");
  }
  const frequencies = pairs.map((p) => p.cyclesPerDay);
  const noise = lineNoise(fit.ratioAt, frequencies, frequencies, rows.days);
  const p = rows.columns;
  const coefficients = fitted.lines.map((line, k) => {
    const a = rows.smooth + 2 * k;
    return lineCoefficients(line, beta[a], beta[a + 1], [inverse[a * p + a], inverse[(a + 1) * p + a + 1], inverse[a * p + a + 1]], sigma2, noise[k]);
  });
  const constituents = fitted.lines.map((line, k) =>
    constituentOf(line, coefficients[k], noiseDensity(line, theta, noise[k].ratio * sigma2), longitude, series.unit),
  );
  const seasonal = seasonalTest(steps, pairs, fitted.lines.map((l) => l.name), breaks, fit);
  const wantsMonths = options.climatology ?? rows.days > monthsFrom;
  const from = midnight + 3_600_000 * steps.firstHour;
  const result: TideFit = {
    place: series.place,
    quantity: series.quantity,
    unit: series.unit,
    longitude,
    method: "Generalized least squares of tide, mean and slope on hourly means; weather as a second-order process plus white noise by restricted likelihood; variances scaled by the noise beside each line.",
    means: steps.perHour === 1 ? "hourly" : fit.kind,
    from,
    to: from + 3_600_000 * rows.hours,
    days: rows.days,
    hours: rows.kept,
    coverage: Math.min(1, observedDays(readings) / rows.days),
    readings: readings.seconds.length,
    leftOut: readings.leftOut,
    mean: levelOf(fit),
    averagedOver,
    epoch: tideEpoch,
    constituents: Object.freeze(constituents.filter((c) => fitted.reported.includes(c.name))),
    coefficients: Object.freeze(coefficients),
    noise: noiseOf(theta, sigma2),
    climatology: Object.freeze(
      wantsMonths ? tideClimatology(readings, fitted.lines, fitted.reported, averagedOver, fit.kind, theta, longitude, series.unit, breaks) : [],
    ),
    seasonal,
    jumps: Object.freeze(jumps.map((j) => Object.freeze({ at: midnight + 1000 * j.at, size: Number.isNaN(j.size) ? null : j.size }))),
    warnings: Object.freeze([
      ...caution,
      ...tideWarnings({
        quantity: series.quantity,
        unit: series.unit,
        days: rows.days,
        spacing,
        straight,
        jumps,
        midnight,
        steps,
        changes: seasonal.changes,
        seasonSays: seasonal.says,
      }),
    ]),
  };
  return displayable(result, () => tideText(result));
}
