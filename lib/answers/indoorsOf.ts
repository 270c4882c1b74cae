import { type Displayable, displayable } from "../ground/display.js";
import type { HousePair } from "../indoors/housePair.js";
import { housePairs } from "../indoors/housePairs.js";
import type { AirRecord } from "../record/airRecord.js";
import type { ClockOffset } from "../trust/clock/clockOffset.js";
import { clocksBetween } from "../trust/clock/clocksBetween.js";
import { flagRecord } from "../trust/faults/flagRecord.js";
import { resetWarnings } from "../trust/findings/resetFindings.js";
import { indoorsText } from "./indoorsText.js";
import { offsetBetween } from "./offsetBetween.js";
import { type RecordHead, recordHead } from "./recordHead.js";
import { recordView } from "./recordView.js";
import { withClock } from "./withClock.js";
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
  const told = clockOffsetSeconds ?? ((inside: string, outside: string): number | null => offsetBetween(clocks, inside, outside)?.offset.value ?? null);
  const found = housePairs(flagged, { factor, offsetHours: view.offsetHours, clockOffsetSeconds: told });
  const pairs = found.map((pair) => {
    const clock = offsetBetween(clocks, pair.inside, pair.outside);
    const more = [...resetWarnings(flagged, [pair.inside, pair.outside]).map((w) => `${w}.`), ...(clock === null ? [] : clockSentences(clock, view.titles))];
    const known = clock === null ? pair : withClock(pair, clock);
    return more.length === 0 ? known : Object.freeze({ ...known, warnings: Object.freeze([...known.warnings, ...more]) });
  });
  const answer = { record: recordHead(flagged), pairs: Object.freeze(pairs) } as IndoorsFields;
  return displayable(answer, (columns) => indoorsText(answer, { ...view, factor }, columns));
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
