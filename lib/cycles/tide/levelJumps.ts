import { median } from "../../ground/summary.js";
import type { TideSteps } from "./tideSteps.js";

/** A place where the level of a record changed at once. */
export interface LevelJump {
  /** Between the two readings · s since the steps' midnight. */
  readonly at: number;
  /** After minus before, medians of six hours · unit of the readings; NaN for an event that was told. */
  readonly size: number;
}

/** A jump must be so many robust standard deviations of the differences at its distance. */
const sigmas = 6;
/** Each part keeps at least this long · s, and so many observed hours. */
const leastPart = 3 * 86_400;
const leastHours = 24;
/** A told event is moved to a sudden change of so many robust standard deviations within so many hours of it. */
const eventSigmas = 4;
const eventHours = 12;
/** Spreads are those of stretches of ten days with 25 days on either side · h. */
const stretchHours = 240;
const aroundHours = 600;
/** Longest gap over which a jump is looked for · h. */
const longestGap = 120;

/** Hourly means of the observed steps, NaN where none. */
function hourly(steps: TideSteps): Float64Array {
  const { values, perHour, hours } = steps;
  return Float64Array.from({ length: hours }, (_, i) => {
    let sum = 0;
    let count = 0;
    for (let k = i * perHour; k < (i + 1) * perHour; k++) {
      if (Number.isNaN(values[k])) continue;
      sum += values[k];
      count++;
    }
    return sum / count;
  });
}

/** Takes the mean day off, made of the median change from each hour of the day to the next: else a tide of 1 hPa hides a jump of 5. */
function withoutMeanDay(y: Float64Array): Float64Array {
  const changes = Array.from({ length: 24 }, (_, hour) => {
    const found: number[] = [];
    for (let i = hour; i < y.length; i += 24) if (!Number.isNaN(y[i] - y[i - 1])) found.push(y[i] - y[i - 1]);
    return found.length < 5 ? 0 : median(found);
  });
  const drift = changes.reduce((sum, c) => sum + c, 0) / 24;
  let level = 0;
  const day = changes.map((c) => (level += c - drift));
  return y.map((v, i) => v - day[i % 24]);
}

/**
 * Robust standard deviation of differences at a lag within a month on either side of a stretch, never below half the plain
 * one; NaN with fewer than 30 pairs. Not that of the whole record: where winters are rough and summers calm, every storm
 * would be a jump.
 */
function spreadAround(y: Float64Array, lag: number, stretch: number): number {
  const found: number[] = [];
  const end = Math.min(y.length, (stretch + 1) * stretchHours + aroundHours);
  for (let i = Math.max(lag, stretch * stretchHours - aroundHours); i < end; i++) {
    const d = y[i] - y[i - lag];
    if (!Number.isNaN(d)) found.push(d);
  }
  if (found.length < 30) return Number.NaN;
  const middle = median(found);
  const plain = Math.sqrt(found.reduce((sum, d) => sum + (d - middle) ** 2, 0) / found.length);
  return Math.max(1.4826 * median(found.map((d) => Math.abs(d - middle))), 0.5 * plain);
}

/** Median of what was observed in six hours on one side. */
function sideLevel(y: Float64Array, from: number, direction: 1 | -1): number {
  const found: number[] = [];
  for (let i = from, seen = 0; i >= 0 && i < y.length && seen < 6; i += direction, seen++) found.push(y[i]);
  return median(found);
}

/**
 * Finds impossible jumps of the level (a station moved, a sensor replaced), where the fit is to be split.
 *
 * A jump is sudden (one step of the readings holds most of the change over two hours), at least six robust standard
 * deviations of the record's own differences over the same time, and lasts: medians of six hours before and after differ
 * by half to twice of it. Across gaps of up to five days the two ends are compared alike.
 *
 * @param steps  see `tideSteps`
 * @param events instants at which a change is known · s since the steps' midnight
 * @returns      in order, at least three days and 24 observed hours from each other and from the ends
 */
export function levelJumps(steps: TideSteps, events: readonly number[] = []): LevelJump[] {
  const y = withoutMeanDay(hourly(steps));
  const spreads = new Map<string, number>();
  const spread = (lag: number, at: number): number => {
    const stretch = Math.floor(at / stretchHours);
    const key = `${lag} ${stretch}`;
    const known = spreads.get(key) ?? spreadAround(y, lag, stretch);
    spreads.set(key, known);
    return known;
  };
  const candidates: LevelJump[] = events.map((at) => ({ at: changeNear(steps, y, at, spread), size: Number.NaN }));
  const hour = (i: number): number => (steps.firstHour + i) * 3600;
  const consider = (before: number, after: number, change: number, at: number): void => {
    const size = sideLevel(y, after, 1) - sideLevel(y, before, -1);
    const lasting = size / change; // far above 1 a storm goes on falling
    if (Math.abs(change) >= sigmas * spread(after - before, before) && lasting >= 0.5 && lasting <= 2) candidates.push({ at, size });
  };
  let last = -1;
  for (let i = 0; i < y.length; i++) {
    if (Number.isNaN(y[i])) continue;
    const lag = i - last;
    // Over a gap no step can be seen: the change must stand out from those just before and after it, or it is a storm passing.
    const beside = Math.max(Math.abs(y[last] - y[last - lag]) || 0, Math.abs(y[i + lag] - y[i]) || 0);
    if (lag > 1 && lag <= longestGap && Math.abs(y[i] - y[last]) > 2 * beside) consider(last, i, y[i] - y[last], (hour(last + 1) + hour(i)) / 2);
    last = i;
    if (!(Math.abs(y[i + 1] - y[i - 1]) >= sigmas * spread(2, i))) continue;
    const change = y[i + 1] - y[i - 1];
    const sudden = largestStep(steps, i - 1, i + 1);
    if (sudden.change * Math.sign(change) >= 0.8 * Math.abs(change)) consider(i - 1, i + 1, change, sudden.at);
  }
  return apart(candidates, steps, y);
}

/**
 * Where the level really changed near an event that was told: people round times, and one hour on the wrong side of the
 * split would stand out like a spike. The told instant when nothing sudden lies near.
 */
function changeNear(steps: TideSteps, y: Float64Array, at: number, spread: (lag: number, at: number) => number): number {
  const i = Math.floor(at / 3600) - steps.firstHour;
  let most = 0;
  for (let k = Math.max(1, i - eventHours); k <= Math.min(y.length - 1, i + eventHours); k++) {
    if (Math.abs(y[k] - y[k - 1]) > Math.abs(y[most] - y[most - 1]) || (most === 0 && !Number.isNaN(y[k] - y[k - 1]))) most = k;
  }
  if (!(Math.abs(y[most] - y[most - 1]) >= eventSigmas * spread(1, most))) return at;
  const step = largestStep(steps, most - 1, most);
  return step.change === 0 ? at : step.at;
}

/** The largest change between neighboring readings from hour `a` to hour `b`, and the instant between the two. */
function largestStep(steps: TideSteps, a: number, b: number): { change: number; at: number } {
  const { values, instants, perHour } = steps;
  let best = { change: 0, at: 0 };
  let last = -1;
  for (let k = a * perHour; k < (b + 1) * perHour; k++) {
    if (Number.isNaN(values[k])) continue;
    if (Math.abs(values[k] - values[last]) > Math.abs(best.change)) {
      best = { change: values[k] - values[last], at: (instants[k] + instants[last]) / 2 };
    }
    last = k;
  }
  return best;
}

/** Known events first, then the largest; each must leave room for a level and a slope on both sides. */
function apart(candidates: LevelJump[], steps: TideSteps, y: Float64Array): LevelJump[] {
  const begin = steps.firstHour * 3600;
  const end = begin + steps.hours * 3600;
  const rank = (j: LevelJump): number => (Number.isNaN(j.size) ? Infinity : Math.abs(j.size));
  const kept: LevelJump[] = [];
  for (const jump of [...candidates].sort((a, b) => rank(b) - rank(a) || a.at - b.at)) {
    const edges = [begin, end, ...kept.map((k) => k.at)];
    if (!(jump.at > begin && jump.at < end)) continue;
    const before = Math.max(...edges.filter((e) => e <= jump.at));
    const after = Math.min(...edges.filter((e) => e > jump.at));
    const observed = (from: number, to: number): boolean => {
      let count = 0;
      for (let i = Math.ceil((from - begin) / 3600); i < Math.floor((to - begin) / 3600); i++) if (!Number.isNaN(y[i])) count++;
      return to - from >= leastPart && count >= leastHours;
    };
    if (observed(before, jump.at) && observed(jump.at, after)) kept.push(jump);
  }
  return kept.sort((a, b) => a.at - b.at);
}
