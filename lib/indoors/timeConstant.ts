import type { Estimate } from "../ground/estimate.js";
import { moreDays } from "../ground/moreDays.js";
import { type DailyResponse, dailyResponse } from "./dailyResponse.js";
import { countOf, hoursADay, pairedHours } from "./pairedHours.js";
import { type TimeConstantFit, timeConstantFit } from "./timeConstantFit.js";

/** Why one time constant does not describe a house. */
export type TimeConstantReason = "edge" | "unexplained" | "daily line" | "variants" | "short";

/** One time constant, or the reasons why there is none. */
export interface TimeConstant {
  /** From the swings · h · null when a reason stands against it. */
  readonly timeConstant: Estimate | null;
  readonly reasons: readonly TimeConstantReason[];
  /** The reasons in plain sentences; one that another says already has none. */
  readonly says: readonly string[];
  /** With the daily cycle fitted beside it: what is reported. */
  readonly swings: TimeConstantFit;
  /** With the daily cycle in: a check. */
  readonly all: TimeConstantFit;
}

const leastExplained = 0.3;
const leastSpans = 8;
/** With less there is no interval. */
const leastDays = 6;
const lineTolerance = 0.1;

/**
 * One time constant of a house that is left alone, or null and why one constant does not describe it.
 *
 * The constant is given only where three ways agree: the swings of the weather, the swings with the daily cycle, and the daily
 * line, for which a room of one constant has 1/H = 1 + iωτ. For one lived-in house four methods had given 10, 26, 29 and 480 h.
 * Windows that are opened every day at the same hours cannot be told from a smaller constant: call it apparent.
 *
 * @param inside, outside hourly · °C · [n], hour 0 a midnight · NaN is missing
 * @param options.line    answer of dailyResponse, if it is at hand already
 * @returns               see TimeConstant, frozen
 * @throws RangeError     when lengths differ, or fewer than 48 hours are common
 * @example timeConstant(inside, outside).timeConstant?.value // 13.0 h
 * @source see timeConstantFit; the three agreements and their sizes were set by simulation, indoors README
 */
export function timeConstant(inside: ArrayLike<number>, outside: ArrayLike<number>, { line }: { line?: DailyResponse } = {}): TimeConstant {
  const daily = line ?? dailyResponse(inside, outside);
  const swings = timeConstantFit(inside, outside, "swings");
  const all = timeConstantFit(inside, outside, "all");
  const reasons: TimeConstantReason[] = [];
  const says: string[] = [];
  const against = (reason: TimeConstantReason, sentence: string | null): void => {
    reasons.push(reason);
    if (sentence !== null) says.push(sentence);
  };
  if (swings.tau === null || all.tau === null) {
    const isBrief = countOf(pairedHours("timeConstant", inside, outside)) < leastDays * hoursADay;
    against("short", isBrief ? `No time constant: fewer than ${leastDays} days of both places together; log longer.` : "No time constant: the hours logged tell too little of it for an interval with an end; log longer, in weather that changes.");
  }
  if (swings.isAtEdge || all.isAtEdge) against("edge", "No time constant: none between 0.7 h and 300 h fits better than the rest.");
  if (!(swings.explained >= leastExplained)) {
    against("unexplained", "No time constant: inside hardly follows outside (a thermostat, air conditioning or people hold it); log with the heating off, or in summer.");
  }
  if (isOffLine(daily)) {
    against("daily line", "No time constant: a room of one constant would answer the daily cycle otherwise (sun, heating, or heavy walls behind light ones).");
  }
  if (swings.tau !== null && all.tau !== null) {
    const apart = Math.abs(Math.log(all.tau.value / swings.tau.value));
    if (apart > swings.t * Math.hypot(all.standardErrorOfLog, swings.standardErrorOfLog)) {
      against("variants", `No time constant: with the daily cycle it would be ${all.tau.value.toFixed(0)} h, without it ${swings.tau.value.toFixed(0)} h.`);
    }
    if (swings.spanHours < leastSpans * swings.tau.value) {
      const more = Math.ceil((leastSpans * swings.tau.high - swings.spanHours) / hoursADay);
      // Of a room that is held, or whose constant ends at an edge of the search, the value means nothing, and so would a length made of it.
      const hasValue = !swings.isAtEdge && swings.explained >= leastExplained;
      against("short", hasValue ? `No time constant: the record must be ${leastSpans} times as long as it; log about ${moreDays(more)}.` : null);
    }
  }
  return Object.freeze({
    timeConstant: reasons.length === 0 ? swings.tau : null,
    reasons: Object.freeze(reasons),
    says: Object.freeze(says),
    swings,
    all,
  });
}

/** |Re(1/H) − 1| > max(0.1, t s): the daily line is not that of a room of one constant. */
function isOffLine({ real, imaginary, radialError, tangentialError, t }: DailyResponse): boolean {
  const power = real * real + imaginary * imaginary;
  const s = (radialError + tangentialError) / (2 * power);
  return Math.abs(real / power - 1) > Math.max(lineTolerance, t * s);
}
