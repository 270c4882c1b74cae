import { quantile } from "../../lib/ground/summary.js";
import { medianStep } from "../../lib/grid/step.js";
import { flagBit } from "../../lib/record/flag.js";
import type { Series } from "../../lib/record/series.js";
import { plainReadingStep as readingStep, plainSoundIndices as soundIndices } from "./plainReadings.js";

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

/** Stuck readings by the plain text of `flagStuck`: every run kept as an object. */
export function plainStuck(series: Series, twin: Series | null = null): Uint16Array {
  const bits: Uint16Array = new Uint16Array(series.values.length);
  const at = soundIndices(series, flagBit.range | flagBit.spike);
  const x = Float64Array.from(at, (i) => series.values[i]);
  const t = Float64Array.from(at, (i) => series.seconds[i]);
  const step = medianStep(t);
  if (step === 0) return bits;
  const wettest = series.quantity === "relative_humidity" ? wetFrom : Infinity;
  const runs = runsOf(x, t, Math.max(3 * step, 3600), wettest);
  const long = runs.filter(({ first, last, seconds }) => last - first + 1 >= leastReadings && seconds >= leastSeconds);
  const usual = usualSeconds(runs, step, t[t.length - 1] - t[0]);
  const odd = long.filter(({ seconds }) => seconds >= apart * usual);
  const isOdd = new Set(odd);
  const swing = twin === null ? () => null : witness(twin);
  const resolution = readingStep(x) * 1.01;
  for (const run of long) {
    const seen = swing(series.start + 1000 * t[run.first], series.start + 1000 * t[run.last]);
    // A twin that stood still as well shows calm air; one that moved shows a stuck sensor.
    if (seen === "still") continue;
    if (seen !== "moved" && !(isOdd.has(run) && flatShare(x, t, run.seconds, resolution, odd, wettest) <= mostFlat)) continue;
    for (let i = run.first; i <= run.last; i++) bits[at[i]] = flagBit.stuck;
  }
  return bits;
}

/** What nearly all runs keep to: 98 % of them, or three times what 80 % keep to where that is less (many stuck runs among few). */
function usualSeconds(runs: readonly Run[], step: number, span: number): number {
  const lengths = runs.map(({ seconds }) => seconds);
  const repeated = lengths.reduce((sum, s) => sum + s, 0);
  // Few runs in a series that hardly repeats itself: none of them is a habit.
  if (runs.length < fewestRuns && repeated < 0.2 * span) return step;
  return Math.min(quantile(lengths, 0.98), 3 * quantile(lengths, 0.8));
}

/**
 * A witness: what a twin's sound readings did between two instants (epoch ms). `moved` when their middle half spreads by half a
 * hectopascal and two reading steps; `still` when nine of ten stay within one coarse reading step (one that writes hundredths and
 * stands still is no witness but stuck itself); null where it cannot tell.
 */
function witness(twin: Series): (from: number, to: number) => "moved" | "still" | null {
  const at = soundIndices(twin, flagBit.range | flagBit.spike | flagBit.stuck);
  const times = Float64Array.from(at, (i) => twin.start + 1000 * twin.seconds[i]);
  const step = readingStep(twin.values);
  return (from, to) => {
    const inside: number[] = [];
    for (let k = firstFrom(times, from); k < times.length && times[k] <= to; k++) inside.push(twin.values[at[k]]);
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

/** First index whose instant is not before `from`. */
function firstFrom(times: Float64Array, from: number): number {
  let [low, high] = [0, times.length];
  while (low < high) {
    const middle = (low + high) >> 1;
    if (times[middle] < from) low = middle + 1;
    else high = middle;
  }
  return low;
}

/** Runs of one value; a hygrometer's runs at the wet end are left out. */
function runsOf(x: Float64Array, t: Float64Array, reach: number, wettest: number): Run[] {
  const runs: Run[] = [];
  for (let i = 0; i < x.length; i++) {
    const first = i;
    while (i + 1 < x.length && x[i + 1] === x[first] && t[i + 1] - t[i] <= reach) i++;
    if (i > first && x[first] < wettest) runs.push({ first, last: i, seconds: t[i] - t[first] });
  }
  return runs;
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
