import { quantile } from "../../ground/summary.js";
import { medianStep } from "../../grid/step.js";
import { flagBit } from "../../record/flag.js";
import type { Series } from "../../record/series.js";
import { readingStep } from "./readingStep.js";
import { soundReadings } from "./soundReadings.js";

/** A run of one repeated value among the sound readings: first and last index, and how long it held. */
interface Run {
  readonly first: number;
  readonly last: number;
  readonly seconds: number;
}

const leastReadings = 8;
const fewestRuns = 20;
const leastSeconds = 2.5 * 3600;
/** A stuck run lasts at least so many times what 98 % of the series' runs keep to. */
const apart = 3;
/** A twin barometer whose middle half spreads by so much (hPa, rounding taken off) while this one stood still shows that it was stuck. */
const leastSwing = 0.5;
/** A barometer written in steps from here on stands still honestly in calm air · hPa. */
const coarse = 0.2;
/** Share of equally long windows elsewhere that may stay within one reading step before a run counts as honest. */
const mostFlat = 0.005;
/** A wet hygrometer honestly reads the top of its scale for hours. */
const wetFrom = 97;

/**
 * Marks stuck readings: one value repeated far longer than this series ever repeats itself honestly.
 *
 * Those runs of exactly one value are stuck that last at least 8 readings and 2½ hours, three
 * times as long as 98 % of the series' runs, and whose length no more than 0.5 % of the windows elsewhere in the series
 * can match while staying within one reading step. So a thermostat's room, a hygrometer at saturation or a barometer
 * written to 1 hPa are judged by their own habits; what such a series repeats for hours cannot be told from a stuck sensor.
 * Only a barometer with a twin has a witness, who can convict (the twin moved meanwhile) and acquit (it stood still as well).
 * Readings flagged range or spike are treated as absent; a gap of more than three steps and an hour ends a run.
 *
 * @param series any quantity
 * @param twin   the other place's barometer, for a barometer; null (default) otherwise
 * @returns      bits of `flagBit`, 0 or stuck · [n]
 * @source own method; hits and false alarms measured by simulation, see README of this room
 */
export function flagStuck(series: Series, twin: Series | null = null): Uint16Array {
  const bits: Uint16Array = new Uint16Array(series.values.length);
  const { at, x, t } = soundReadings(series, flagBit.range | flagBit.spike);
  const step = medianStep(t);
  if (step === 0) return bits;
  const wettest = series.quantity === "relative_humidity" ? wetFrom : Infinity;
  const reach = Math.max(3 * step, 3600);
  const long: Run[] = [];
  eachRun(x, t, reach, wettest, (first, last) => {
    const seconds = t[last] - t[first];
    if (last - first + 1 >= leastReadings && seconds >= leastSeconds) long.push({ first, last, seconds });
  });
  if (long.length === 0) return bits;
  const lengths: number[] = [];
  eachRun(x, t, reach, wettest, (first, last) => lengths.push(t[last] - t[first]));
  const usual = usualSeconds(lengths, step, t[t.length - 1] - t[0]);
  const odd = long.filter(({ seconds }) => seconds >= apart * usual);
  const isOdd = new Set(odd);
  const swing = twin === null ? () => null : witness(twin);
  const resolution = readingStep(x) * 1.01;
  for (const run of long) {
    const seen = swing(series.start + 1000 * t[run.first], series.start + 1000 * t[run.last]);
    // A twin that stood still as well shows calm air; one that moved shows a stuck sensor.
    if (seen === "still") continue;
    if (seen !== "moved" && !(isOdd.has(run) && flatShare(x, t, run.seconds, resolution, odd, wettest) <= mostFlat)) continue;
    for (let i = run.first; i <= run.last; i++) bits[at?.[i] ?? i] = flagBit.stuck;
  }
  return bits;
}

/** What nearly all runs keep to: 98 % of them, or three times what 80 % keep to where that is less (many stuck runs among few). */
function usualSeconds(lengths: readonly number[], step: number, span: number): number {
  const repeated = lengths.reduce((sum, s) => sum + s, 0);
  // Few runs in a series that hardly repeats itself: none of them is a habit.
  if (lengths.length < fewestRuns && repeated < 0.2 * span) return step;
  return Math.min(quantile(lengths, 0.98), 3 * quantile(lengths, 0.8));
}

/**
 * A witness: what a twin's sound readings did between two instants (epoch ms). `moved` when their middle half spreads by half a
 * hectopascal and two reading steps; `still` when nine of ten stay within one coarse reading step (one that writes hundredths and
 * stands still is no witness but stuck itself); null where it cannot tell.
 */
function witness(twin: Series): (from: number, to: number) => "moved" | "still" | null {
  const { x, t } = soundReadings(twin, flagBit.range | flagBit.spike | flagBit.stuck);
  const step = readingStep(twin.values);
  return (from, to) => {
    const first = firstFrom(t, (s) => twin.start + 1000 * s < from);
    let end = first;
    while (end < t.length && twin.start + 1000 * t[end] <= to) end++;
    const inside = x.subarray(first, end);
    if (inside.length < leastReadings) return null;
    // A witness that mostly stood still itself and jumped once (the end of its own stuck run) proves nothing.
    let held = 1;
    let longest = 1;
    for (let k = 1; k < inside.length; k++) {
      held = inside[k] === inside[k - 1] ? held + 1 : 1;
      longest = Math.max(longest, held);
    }
    const spread = (share: number): number => quantile(inside, 1 - share) - quantile(inside, share);
    if (step >= coarse && spread(0.05) <= 1.01 * step) return "still";
    return 2 * longest <= inside.length && spread(0.25) >= leastSwing + 2 * step ? "moved" : null;
  };
}

/** First index whose time is not early any more. */
function firstFrom(t: Float64Array, isEarly: (seconds: number) => boolean): number {
  let [low, high] = [0, t.length];
  while (low < high) {
    const middle = (low + high) >> 1;
    if (isEarly(t[middle])) low = middle + 1;
    else high = middle;
  }
  return low;
}

/** Tells first and last index of each run of one value; a hygrometer's runs at the wet end are left out. */
function eachRun(x: Float64Array, t: Float64Array, reach: number, wettest: number, tell: (first: number, last: number) => void): void {
  for (let i = 0; i < x.length; i++) {
    const first = i;
    while (i + 1 < x.length && x[i + 1] === x[first] && t[i + 1] - t[i] <= reach) i++;
    if (i > first && x[first] < wettest) tell(first, i);
  }
}

/** Share of the windows of one length, clear of the odd runs, whose readings stay within one reading step. */
function flatShare(x: Float64Array, t: Float64Array, seconds: number, resolution: number, odd: readonly Run[], wettest: number): number {
  const spans = odd.map(({ first, last }) => [t[first], t[last]] as const).sort((a, b) => a[0] - b[0]);
  let windows = 0;
  let flat = 0;
  let i = 0;
  let s = 0;
  for (let from = t[0]; from + seconds <= t[t.length - 1]; from += seconds / 4) {
    while (i < x.length && t[i] < from) i++;
    while (s < spans.length && spans[s][1] < from) s++;
    if (s < spans.length && spans[s][0] <= from + seconds) continue;
    let low = Infinity;
    let high = -Infinity;
    let k = i;
    for (; k < x.length && t[k] <= from + seconds && high - low <= resolution; k++) {
      low = Math.min(low, x[k]);
      high = Math.max(high, x[k]);
    }
    const isFlat = high - low <= resolution;
    // A window with few readings (a gap) cannot show that nothing moved; one in saturated air is no habit of the sensor.
    if (isFlat && (k - i < leastReadings / 2 || low >= wettest)) continue;
    windows++;
    if (isFlat) flat++;
  }
  return windows === 0 ? 0 : flat / windows;
}
