import { countOf, dailyMeans, hoursADay, pairedHours } from "./pairedHours.js";
import { timeConstantFit } from "./timeConstantFit.js";

/** The part of a record on which nothing held the inside. */
export interface LeftAlone {
  /** 1 where both places are present and the inside was left alone · [n]. */
  readonly hours: Uint8Array;
  /** Stretches left alone, in hours of the record, from inclusive, to exclusive. */
  readonly spans: readonly { readonly from: number; readonly to: number }[];
  /** Time that both places were there and the inside was left alone · d. */
  readonly days: number;
}

/** Length of a look, and from one to the next · d. */
const lookDays = 14;
const lookStep = 7;
/** Changes from day to day that a look must hold. */
const leastChanges = 8;
/** Left alone a house must move so many times as much: a heavy one is slow in winter and summer. */
const leastContrast = 2;
/** A room of some time constant explains less than the first of the variance of what is held, and more than the second of the rest. */
const mostOfHeld = 0;
const leastOfRest = 0.5;
/** A share below this is as good as none: a thermometer's own noise. */
const leastShare = 0.02;
/** A heating season is at least this long, and so is the time left alone; a single stretch of it must be worth a look · d. */
const leastHeld = 21;
const leastAlone = 20;
const leastSpan = 14;
/** Taken off a stretch beside a held one: the house still comes from there · d. */
const margin = 7;
/** A day's mean needs so many hours of both. */
const wholeDay = 18;

/**
 * Finds the part of a long record on which a house was left alone, where a heater or a cooler held it for weeks of the rest.
 *
 * A house that is heated in winter and left alone in summer answers the weather in two ways; the numbers of its response belong to the second.
 * Looks of 14 days are told apart by how much the inside's daily means change against the outside's. The record is divided only where one kind
 * moves at least twice as much as the other, and follows as a room of one time constant does, while the other does not: a heavy house is slow, but
 * it follows all the year.
 *
 * @param inside, outside hourly · °C · [n], hour 0 a midnight · NaN is missing
 * @returns               see LeftAlone, frozen; null where the record is not divided
 * @throws RangeError     when lengths differ or a value is infinite
 * @example leftAlone(new Float64Array(240), new Float64Array(240)) // null
 * @source own method; what it finds and what it divides wrongly: indoors README
 */
export function leftAlone(inside: ArrayLike<number>, outside: ArrayLike<number>): LeftAlone | null {
  const both = pairedHours("leftAlone", inside, outside);
  const days = Math.floor(both.length / hoursADay);
  const changes = [inside, outside].map((values) => dailyChanges(values, both, days));
  const starts = Array.from({ length: Math.max(0, Math.floor((days - lookDays) / lookStep) + 1) }, (_, k) => k * lookStep);
  const shares = starts.map((first) => movingShare(changes, first));
  const limit = limitOfTwo(shares);
  const held: Uint8Array = new Uint8Array(days);
  for (const [k, first] of starts.entries()) if (shares[k] < limit) held.fill(1, first, first + lookDays);
  const spans = aloneSpans(held).map(({ from, to }) => ({ from: hoursADay * from, to: to === days ? both.length : hoursADay * to }));
  const hours: Uint8Array = new Uint8Array(both.length);
  for (const { from, to } of spans) for (let h = from; h < to; h++) hours[h] = both[h];
  const alone = countOf(hours) / hoursADay;
  if (countOf(held) < leastHeld || alone < leastAlone) return null;
  if (explainedOn(inside, outside, (d) => held[d] === 1) >= mostOfHeld) return null;
  if (!(explainedOn(inside, outside, (d) => hours[hoursADay * d] === 1) >= leastOfRest)) return null;
  return Object.freeze({ hours, spans: Object.freeze(spans.map((s) => Object.freeze(s))), days: alone });
}

/** Change of the daily mean from the day before · [days] · NaN where either is not whole. */
function dailyChanges(values: ArrayLike<number>, both: Uint8Array, days: number): Float64Array {
  const means = dailyMeans(Float64Array.from(values, (v, h) => (both[h] === 1 ? v : Number.NaN)), wholeDay).subarray(0, days);
  return means.map((mean, d) => mean - means[d - 1]);
}

/** How much the inside's daily means change against the outside's in a look, by mean squares; NaN where it holds too few. */
function movingShare([a, b]: readonly Float64Array[], first: number): number {
  let [count, own, others] = [0, 0, 0];
  for (let d = first + 1; d < first + lookDays; d++) {
    if (Number.isNaN(a[d])) continue;
    count++;
    own += a[d] * a[d];
    others += b[d] * b[d];
  }
  return count >= leastChanges ? Math.sqrt(own / others) : Number.NaN;
}

/** What divides the looks into two kinds, halfway between their means on a scale of logarithms; NaN where these are not far enough apart. */
function limitOfTwo(shares: readonly number[]): number {
  const logs = shares.filter((s) => s < Infinity).map((s) => Math.log(Math.max(s, leastShare))).sort((a, b) => a - b);
  const n = logs.length;
  const total = logs.reduce((sum, v) => sum + v, 0);
  let [best, low, high, below] = [0, 0, 0, 0];
  for (let k = 1; k < n; k++) {
    below += logs[k - 1];
    const [a, b] = [below / k, (total - below) / (n - k)];
    const between = k * (n - k) * (b - a) ** 2;
    if (between > best) [best, low, high] = [between, a, b];
  }
  return high - low >= Math.log(leastContrast) ? Math.exp((low + high) / 2) : Number.NaN;
}

/** Share of the inside's variance on some days that the best room of one constant explains; below 0 where it does not follow at all. */
function explainedOn(inside: ArrayLike<number>, outside: ArrayLike<number>, isOne: (day: number) => boolean): number {
  const days = Array.from({ length: Math.floor(inside.length / hoursADay) }, (_, d) => d).filter(isOne);
  const [from, to] = [hoursADay * days[0], hoursADay * (days[days.length - 1] + 1)];
  const part = (values: ArrayLike<number>, of: (h: number) => boolean): Float64Array => Float64Array.from({ length: to - from }, (_, h) => (of(from + h) ? values[from + h] : Number.NaN));
  return timeConstantFit(part(inside, (h) => isOne(Math.floor(h / hoursADay))), part(outside, () => true), "swings").explained;
}

/** Stretches of days between the held ones, less a margin on their side. */
function aloneSpans(isHeld: Uint8Array): { from: number; to: number }[] {
  const found: { from: number; to: number }[] = [];
  const n = isHeld.length;
  for (let from = 0; from < n; from++) {
    let to = from;
    while (isHeld[to] === 0) to++;
    const span = { from: from === 0 ? 0 : from + margin, to: to === n ? n : to - margin };
    if (span.to - span.from >= leastSpan) found.push(span);
    from = to;
  }
  return found;
}
