import type { Estimate } from "../ground/estimate.js";
import type { HousePair } from "../indoors/housePair.js";
import { changesByEvent } from "../indoors/pairChanges.js";
import type { PairNumbers } from "../indoors/pairNumbers.js";
import type { ClockOffset } from "../trust/clock/clockOffset.js";

const dayMs = 86_400_000;

/**
 * Every lag of a pair is as unsure as the offset that was taken off besides. That offset is the mean's: where the clocks drift, a period before
 * the middle stands otherwise than one after it, and a change of the lag at an event would be the clocks'; what they drift is taken off both.
 */
export function withClock(pair: HousePair, { offset, drift }: ClockOffset): HousePair {
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
