import { type Displayable, displayable } from "../ground/display.js";
import type { Estimate } from "../ground/estimate.js";
import type { HousePair } from "../indoors/housePair.js";
import { housePairs } from "../indoors/housePairs.js";
import { changesByEvent } from "../indoors/pairChanges.js";
import type { PairNumbers } from "../indoors/pairNumbers.js";
import type { AirRecord } from "../record/airRecord.js";
import type { ClockOffset } from "../trust/clock/clockOffset.js";
import { clocksBetween } from "../trust/clock/clocksBetween.js";
import { flagRecord } from "../trust/faults/flagRecord.js";
import { resetWarnings } from "../trust/findings/resetFindings.js";
import { indoorsText } from "./indoorsText.js";
import { type RecordHead, recordHead } from "./recordHead.js";
import { recordView } from "./recordView.js";
import { spanInWords } from "./words.js";

interface IndoorsFields {
  readonly record: RecordHead;
  /** Every inside place against every outside place. */
  readonly pairs: readonly HousePair[];
}

/** What the house does to the weather. */
export type IndoorsAnswer = Displayable<IndoorsFields>;

/** Beyond this half width of the clocks' offset a lag deserves a warning of its own · s. */
const looseClock = 300;
const dayMs = 86_400_000;

/**
 * What the house does to the weather: every place inside against every place outside, and what changed at each dated event.
 *
 * Faulty readings are found first and left out. The offset between two loggers' clocks is taken from their barometers where they tell
 * one, and said, and its error is part of every lag's interval; what the sensors themselves may add stands beside each interval
 * (`sensorOffset`).
 *
 * @param record         from a reader, or from plain arrays
 * @param options.factor temperature factor f_Rsi of the surface judged for condensation and mould · 0…1 · default 0.70
 * @param options.clockOffsetSeconds how far each place's clock is ahead of the true time · s · default: told by the barometers
 * @returns              see HousePair
 * @throws RecordError   kind data when no place is marked indoor or none outdoor, or no pair shares 6 days of temperature
 * @throws RangeError    when the factor is not within 0…1
 * @example indoorsOf(record).pairs[0].decrementFactor?.value // 0.310
 * @source README of lib/indoors
 */
export function indoorsOf(record: AirRecord, options: { readonly factor?: number; readonly clockOffsetSeconds?: Readonly<Record<string, number>> } = {}): IndoorsAnswer {
  const { factor = 0.7, clockOffsetSeconds } = options;
  const flagged = flagRecord(record);
  const view = recordView(flagged);
  const clocks = clockOffsetSeconds === undefined ? clocksBetween(flagged) : [];
  const told = clockOffsetSeconds ?? ((inside: string, outside: string): number | null => offsetOf(clocks, inside, outside)?.offset.value ?? null);
  const found = housePairs(flagged, { factor, offsetHours: view.offsetHours, clockOffsetSeconds: told });
  const pairs = found.map((pair) => {
    const clock = offsetOf(clocks, pair.inside, pair.outside);
    const more = [...resetWarnings(flagged, [pair.inside, pair.outside]).map((w) => `${w}.`), ...(clock === null ? [] : clockSentences(clock, view.titles))];
    const known = clock === null ? pair : withClock(pair, clock);
    return more.length === 0 ? known : Object.freeze({ ...known, warnings: Object.freeze([...known.warnings, ...more]) });
  });
  const answer = { record: recordHead(flagged), pairs: Object.freeze(pairs) } as IndoorsFields;
  return displayable(answer, (columns) => indoorsText(answer, { ...view, factor }, columns));
}

/**
 * The offset between two places' clocks: as their own barometers tell it, else by way of a third place whose barometer both were compared
 * with; null where a place has no barometer that tells. Other places' offsets say nothing of its clock.
 */
function offsetOf(clocks: readonly ClockOffset[], inside: string, outside: string): ClockOffset | null {
  const between = (a: string, b: string): ClockOffset | null => {
    const found = clocks.find((c) => (c.a === a && c.b === b) || (c.a === b && c.b === a));
    return found === undefined || found.a === a ? (found ?? null) : { ...found, a, b, offset: turned(found.offset), drift: found.drift === null ? null : turned(found.drift) };
  };
  const direct = between(inside, outside);
  if (direct !== null) return direct;
  const others = new Set(clocks.flatMap(({ a, b }) => [a, b]));
  const chains = [...others].flatMap((by) => {
    const [to, from] = [between(inside, by), between(by, outside)];
    return to === null || from === null ? [] : [{ ...to, a: inside, b: outside, offset: added(to.offset, from.offset), drift: null }];
  });
  return chains.reduce<ClockOffset | null>((best, c) => (best === null || c.offset.standardError < best.offset.standardError ? c : best), null);
}

function turned(e: Estimate): Estimate {
  return Object.freeze({ ...e, value: -e.value, low: -e.high, high: -e.low });
}

function added(p: Estimate, q: Estimate): Estimate {
  const value = p.value + q.value;
  return Object.freeze({
    ...p, value, standardError: Math.hypot(p.standardError, q.standardError), low: value - Math.hypot(p.value - p.low, q.value - q.low), high: value + Math.hypot(p.high - p.value, q.high - q.value),
  });
}

/**
 * Every lag of a pair is as unsure as the offset that was taken off besides. That offset is the mean's: where the clocks drift, a period before
 * the middle stands otherwise than one after it, and a change of the lag at an event would be the clocks'; what they drift is taken off both.
 */
function withClock(pair: HousePair, { offset, drift }: ClockOffset): HousePair {
  const { periods } = pair;
  const half = (offset.high - offset.low) / 2 / 3600;
  const error = { half, standardError: offset.standardError / 3600 };
  const middle = periods.length === 0 ? 0 : (Date.parse(periods[0].from) + Date.parse(periods[periods.length - 1].to)) / 2;
  const centers = periods.map(({ from, to }) => (Date.parse(from) + Date.parse(to)) / 2);
  const drifted = (days: number): ClockShare => {
    if (drift === null) return { by: 0, half: 0, standardError: 0 };
    const share = Math.abs(days) / 3600;
    return { by: (drift.value * days) / 3600, half: ((drift.high - drift.low) / 2) * share, standardError: drift.standardError * share };
  };
  const lagsOf = ({ timeLag, maxCorrelation, response }: PairNumbers, days: number): Pick<PairNumbers, "timeLag" | "maxCorrelation" | "response"> => {
    const by = drifted(days);
    const all = { by: by.by, half: Math.hypot(by.half, error.half), standardError: Math.hypot(by.standardError, error.standardError) };
    return {
      timeLag: lessClock(timeLag, all),
      maxCorrelation: Object.freeze({ ...maxCorrelation, lag: lessClock(maxCorrelation.lag, all) }),
      response: Object.freeze(response.map((band) => Object.freeze({ ...band, lagHours: lessClock(band.lagHours, all) }))),
    };
  };
  const changes = changesByEvent(pair.changes).flatMap((own, k) =>
    own.map((c) => (c.quantity === "timeLag" ? Object.freeze({ ...c, change: lessClock(c.change, drifted((centers[k + 1] - centers[k]) / dayMs)) }) : c)),
  );
  return Object.freeze({
    ...pair,
    ...lagsOf(pair, 0),
    periods: Object.freeze(periods.map((period, k) => Object.freeze({ ...period, ...lagsOf(period, (centers[k] - middle) / dayMs) }))),
    changes: Object.freeze(changes),
  });
}

/** What a clock adds to a lag, and how unsure that is · h. */
interface ClockShare {
  readonly by: number;
  readonly half: number;
  readonly standardError: number;
}

function lessClock(lag: Estimate | null, { by, half, standardError }: ClockShare): Estimate | null {
  if (lag === null) return lag;
  const value = lag.value - by;
  const [below, above] = [lag.value - lag.low, lag.high - lag.value];
  return Object.freeze({ ...lag, value, standardError: Math.hypot(lag.standardError, standardError), low: value - Math.hypot(below, half), high: value + Math.hypot(above, half) });
}

function clockSentences({ a, b, offset, drift }: ClockOffset, titles: Readonly<Record<string, string>>): string[] {
  const half = (offset.high - offset.low) / 2;
  const size = `${spanInWords(offset.value)} ± ${spanInWords(half)}`;
  const said = offset.low > 0 || offset.high < 0
    ? `By their barometers the clock of ${titles[a] ?? a} is ${size} ${offset.value > 0 ? "ahead of" : "behind"} that of ${titles[b] ?? b}: it was set right before lags were taken.`
    : `By their barometers the two clocks agree within ${spanInWords(Math.max(Math.abs(offset.low), offset.high))}.`;
  const loose = half > looseClock ? [`The clocks are known to ± ${spanInWords(half)} only, and every lag with them: its interval has that in it.`] : [];
  const drifts = drift !== null && (drift.low > 0 || drift.high < 0) ? [`The two clocks drift apart by ${Math.abs(drift.value).toFixed(1)} s a day: the mean was taken off, and from lags before and after an event what they drifted between; a dated clock correction in the description does better.`] : [];
  return [said, ...loose, ...drifts];
}
