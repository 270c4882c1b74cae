import { tQuantile } from "../ground/distributions.js";
import { type Estimate, estimate } from "../ground/estimate.js";
import { moreDays } from "../ground/moreDays.js";
import { bridgeGaps } from "../grid/gapRule.js";
import { type CrossSpectrum, crossSpectrum } from "./crossSpectrum.js";
import { countOf, hoursADay, pairedHours } from "./pairedHours.js";
import { withoutCycles } from "./withoutCycles.js";

/** How the house answers one band of frequencies. */
export interface BandResponse {
  /** Ends of the band · cycles per day, the first included. */
  readonly from: number;
  readonly to: number;
  /** The frequency the numbers stand for: mean period of the outside's power in the band · cycles per day. */
  readonly cyclesPerDay: number;
  /** Inside over outside · 1 · null when there are too few segments. */
  readonly gain: Estimate | null;
  /** How much later inside is · h · null when there is no response above the noise. */
  readonly lagHours: Estimate | null;
  /** Squared coherence with its bias removed, 0…1 · null when there are too few segments. */
  readonly coherence: number | null;
  /** What unrelated places stay below in 95 of 100 cases, on the same scale. */
  readonly coherenceLimit: number | null;
  readonly segments: number;
  readonly degreesOfFreedom: number;
  /** Why something is null, or nothing. */
  readonly says: string | null;
}

const slowBands: readonly (readonly [number, number])[] = [[0.08, 0.16], [0.16, 0.32], [0.32, 0.64], [0.75, 1.25]];
/** Cycles a day up to the end of the fastest band. */
const fastCycles = 6;
const fastBands: readonly (readonly [number, number])[] = [[1.4, 2.6], [3, 6]];
/** From this length on slow bands use segments of 25 d, and the outdoor sensor's own slow noise shows. */
const longRecord = 120;
const sensorNoise = 0.03;
/** A gap hides how the house answered what came before it: so much of the missing share is allowed as bias of gain and phase. */
const gapBias = 0.3;
/** The slowest band of short segments averages over frequencies that a slow house answers unlike: so much is allowed as bias. */
const blurBias = 0.05;
const whitening = 0.97;
/** Where the floor is looked for · cycles per day; and powers of frequency by which air's density falls. */
const floorBands: readonly (readonly [number, number])[] = [[3, 6], [6, 9], [9, 12]];
const airFalls: readonly number[] = [2, 2.5, 3, 4, 5];
/** Clouds make the day's cycle larger and smaller but not later: what lies above its frequencies mirrors what lies below (0.5 were it all so). */
const foldedShare = 0.6;
/** More than that is no floor but a band without air. */
const mostFloor = 0.8;
/** Squared correlations of Hann segments that share three, two and one quarter; and of those that share half. */
const quarterShares: readonly number[] = [0.659, 0.167, 0.0075];
const halfShares: readonly number[] = [0.167];
const leastFreedom = 6;

/**
 * Gain, lag and coherence of the house by bands of frequency, without the daily line itself (that is dailyResponse).
 *
 * Cycles are taken out of both, both are whitened by the same filter (which leaves their ratio as it is), and segments under a
 * Hann window are averaged: slow bands in segments of 12.5 d (25 d from 120 d on), fast ones in segments of 5 d.
 *
 * @param inside, outside hourly · °C · [n], hour 0 a midnight · NaN is missing
 * @returns               one entry a band, slowest first; see BandResponse, frozen
 * @throws RangeError     when lengths differ, under 48 common hours, or the common hours are too few of the day's to tell its cycles apart
 * @example bandResponse(inside, outside)[2].gain?.value // 0.555
 * @source Welch's averaging, equivalent degrees of freedom of overlapping segments; coverage in indoors README
 */
export function bandResponse(inside: ArrayLike<number>, outside: ArrayLike<number>): readonly BandResponse[] {
  const both = pairedHours("bandResponse", inside, outside);
  const [x, y] = [outside, inside].map((values) => withoutCycles(values, both));
  const days = (both.lastIndexOf(1) - both.indexOf(1) + 1) / hoursADay;
  const lost = 1 - countOf(both) / (24 * days);
  const isLong = days >= longRecord;
  const segment = isLong ? 600 : 300;
  const [slowX, slowY] = [x, y].map((v) => differenced(bridgeGaps(v, hoursADay).values, whitening));
  const slow = slowX.length < segment ? null : crossSpectrum(slowX, slowY, segment, { stepSeconds: 3600, overlap: 0.75, removed: "line" });
  // The cycles inside the fast bands are the same sun's in every place, and no answer to quick weather.
  const [fastX, fastY] = [outside, inside].map((values) => differenced(withoutCycles(values, both, fastCycles), 1));
  const fast = fastX.length < 120 ? null : crossSpectrum(fastX, fastY, 120, { stepSeconds: 3600, overlap: 0.5, removed: "line", leastPresent: 0.7 });
  return Object.freeze([
    ...slowBands.map((band) => ofBand(slow, band, quarterShares, isLong, segment / 4, lost)),
    ...fastBands.map((band) => withFloor(ofBand(fast, band, halfShares, isLong, 60, lost), floorShare(fast, band))),
  ]);
}

/** Mean density of the outside's air itself, not of its hourly differences, between two frequencies. */
function levelBetween({ cyclesPerDay, densityX }: CrossSpectrum, [from, to]: readonly [number, number]): number {
  let [level, bins] = [0, 0];
  cyclesPerDay.forEach((f, k) => {
    if (f < from - 1e-9 || f > to + 1e-9) return;
    level += densityX[k] / (4 * Math.sin((Math.PI * f) / hoursADay) ** 2);
    bins++;
  });
  return level / bins;
}

/** Mean of f to a negative power between two frequencies. */
function meanFall([from, to]: readonly [number, number], power: number): number {
  return (from ** (1 - power) - to ** (1 - power)) / ((power - 1) * (to - from));
}

/**
 * Share of the outside's power in a band that is no air the house could answer: noise of the sensor, and air faster than the log, which readings
 * an hour apart fold into every band. Both are even over frequency, where air falls with a power of it: the power that tells 6 to 9 cycles
 * per day best by 3 to 6 and 9 to 12.
 */
function floorShare(spectrum: CrossSpectrum | null, band: readonly [number, number]): number {
  if (spectrum === null) return 0;
  const [quick, middle, last] = floorBands.map((b) => levelBetween(spectrum, b));
  const floors = airFalls.map((power) => {
    const [q, m, l] = floorBands.map((b) => meanFall(b, power));
    const floor = Math.max(0, last - ((quick - last) / (q - l)) * l);
    return { floor, miss: Math.abs(floor + ((quick - floor) * m) / q - middle) };
  });
  const { floor } = floors.reduce((best, f) => (f.miss < best.miss ? f : best));
  const own = levelBetween(spectrum, band);
  return own > 0 ? Math.min(mostFloor, floor / own) : 0;
}

/** The gain is too low by that share at most, and by no more than the coherence lacks: its interval reaches as much further up. */
function withFloor(band: BandResponse, floor: number): BandResponse {
  const share = Math.min(floor, 1 - (band.coherence ?? 0));
  if (band.gain === null || share === 0) return band;
  const { value, high } = band.gain;
  return Object.freeze({ ...band, gain: Object.freeze({ ...band.gain, high: high + (value * share) / (1 - share) }) });
}

function differenced(values: Float64Array, share: number): Float64Array {
  return values.subarray(1).map((v, h) => v - share * values[h]);
}

/** Segments as if they shared nothing: S/(1 + 2 Σ c_j² (1 − j/S)). */
function independentSegments(segments: number, shares: readonly number[]): number {
  let shared = 0;
  shares.forEach((c, j) => {
    if (j + 1 < segments) shared += c * c * (1 - (j + 1) / segments);
  });
  return segments / (1 + 2 * shared);
}

function ofBand(spectrum: CrossSpectrum | null, [from, to]: readonly [number, number], shares: readonly number[], isLong: boolean, shiftHours: number, lost: number): BandResponse {
  const segments = spectrum === null ? 0 : spectrum.segments;
  let [re, im, xx, yy, bins, periods, xxxx] = [0, 0, 0, 0, 0, 0, 0];
  spectrum?.cyclesPerDay.forEach((f, k) => {
    if (f < from - 1e-9 || f > to + 1e-9) return;
    bins++;
    re += spectrum.real[k];
    im += spectrum.imaginary[k];
    xx += spectrum.densityX[k];
    yy += spectrum.densityY[k];
    periods += spectrum.densityX[k] / f;
    xxxx += spectrum.densityX[k] ** 2;
  });
  // Bins count by their power: a narrow peak inside a band is worth fewer of them (1 + 1/S: what chance alone makes uneven).
  const even = Math.min(bins, ((xx * xx) / xxxx) * (1 + 1 / independentSegments(segments, shares)) || 0);
  const isFolded = from >= slowBands[3][0];
  const freedomOf = (count: number): number => 2 * independentSegments(count, shares) * Math.max(1, (even * (isFolded ? foldedShare : 1)) / 1.5);
  const degreesOfFreedom = segments === 0 ? 0 : freedomOf(segments);
  const hasPower = xx > 1e-20 && yy > 1e-20;
  const cyclesPerDay = hasPower ? xx / periods : Math.sqrt(from * to);
  const head = { from, to, cyclesPerDay };
  const nothing = { gain: null, lagHours: null, coherence: null, coherenceLimit: null, segments, degreesOfFreedom };
  if (degreesOfFreedom < leastFreedom) {
    let needed = segments;
    while (freedomOf(needed) < leastFreedom) needed++;
    const more = Math.ceil(((needed - segments) * shiftHours + (spectrum === null ? 4 * shiftHours : 0)) / hoursADay);
    return Object.freeze({ ...head, ...nothing, says: `Too few whole stretches for ${from} to ${to} cycles per day: log about ${moreDays(more)}.` });
  }
  if (!hasPower) return Object.freeze({ ...head, ...nothing, says: "One of the places does not vary at all here." });

  const nu = degreesOfFreedom;
  const raw = Math.min(1, (re * re + im * im) / (xx * yy));
  const unbiased = (g: number): number => Math.max(0, (g - 2 / nu) / (1 - 2 / nu));
  const rawLimit = 1 - 0.05 ** (1 / (nu / 2 - 1));
  const value = Math.hypot(re, im) / xx;
  const relative = Math.sqrt((1 - raw) / (raw * (nu - 2)));
  const t = tQuantile(0.975, nu - 2);
  const reach = t * relative;
  const isSeen = raw >= rawLimit;
  const allowance = gapBias * lost + (isLong || from > slowBands[0][0] ? 0 : blurBias);
  const half = value * ((isLong ? Math.hypot(reach, sensorNoise) : reach) + allowance);
  const gain = estimate({ value, standardError: value * relative, low: isSeen ? Math.max(0, value - half) : 0, high: value + half, unit: "1" });
  const hoursByRadian = hoursADay / (2 * Math.PI * cyclesPerDay);
  const lag = -Math.atan2(im, re) * hoursByRadian;
  // With the coherence freed of its bias: what was just seen above the noise is seen too well by luck.
  const fair = unbiased(raw);
  const phaseReach = fair > 0 ? Math.asin(Math.min(1, t * Math.sqrt((1 - fair) / (fair * (nu - 2))))) : Math.PI / 2;
  const lagReach = (phaseReach + gapBias * lost) * hoursByRadian;
  const lagHours = isSeen ? estimate({ value: lag, standardError: relative * hoursByRadian, low: lag - lagReach, high: lag + lagReach, unit: "h" }) : null;
  const says = isSeen ? null : `No answer above the noise between ${from} and ${to} cycles per day.`;
  return Object.freeze({ ...head, gain, lagHours, coherence: unbiased(raw), coherenceLimit: unbiased(rawLimit), segments, degreesOfFreedom: nu, says });
}
