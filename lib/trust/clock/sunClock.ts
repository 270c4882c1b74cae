import { tQuantile } from "../../ground/distributions.js";
import { type Estimate, estimate } from "../../ground/estimate.js";
import type { PlaceRecord } from "../../record/airRecord.js";
import { foldAtZero } from "../faults/foldAtZero.js";
import { sunDays, type SunDays } from "./sunDays.js";
import { sunTerm } from "./sunTerm.js";

/** What the sun says of a term of a place's clock. */
export interface SunClock {
  readonly place: string;
  /** Who was asked: the twice-daily tide, the warmth of the day, or both. */
  readonly by: "tide" | "warmth" | "both";
  /** Unit of the term's hours, 99 % interval. */
  readonly estimate: Estimate;
  /** First and last day that was asked, as instants · epoch ms. */
  readonly from: number;
  readonly to: number;
}

const dayMs = 86_400_000;
const level = 0.99;
/**
 * How far the season turns each of them by the true sun · h: in thirty-year means of Seattle–Tacoma under 0.15 h, both; the warmth of a coast,
 * where the wind from the sea ends a summer's morning, is given more.
 */
const seasonTurns: Readonly<Record<"tide" | "warmth", readonly [number, number]>> = { tide: [0.15, 0.1], warmth: [0.35, 0.15] };
/** A step needs so many days on either side. */
const fewestBeside = 15;

/** The rounds of a place that the sun drives: the tide of its barometer, the warmth of the day where it stands outdoors. */
function witnesses({ exposure, series }: PlaceRecord, longitude: number): { readonly kind: "tide" | "warmth"; readonly sun: SunDays }[] {
  const pressure = series.surface_air_pressure;
  const air = exposure === "outdoor" ? series.air_temperature : undefined;
  const warmth = air === undefined || foldAtZero(air, longitude / 15) !== null ? undefined : air;
  const [tide, day] = [pressure === undefined ? null : sunDays(pressure, longitude, 2), warmth === undefined ? null : sunDays(warmth, longitude, 1)];
  return [...(tide === null ? [] : [{ kind: "tide" as const, sun: tide }]), ...(day === null ? [] : [{ kind: "warmth" as const, sun: day }])];
}

/** A term by all witnesses of a place, each by what it is worth. */
function termOf(place: PlaceRecord, longitude: number, term: (day: number) => number, scale: number, unit: string, isFit: (sun: SunDays) => boolean): SunClock | null {
  const told = witnesses(place, longitude).flatMap(({ kind, sun }) => {
    const found = isFit(sun) ? sunTerm(sun, term, seasonTurns[kind]) : null;
    return found === null ? [] : [{ kind, sun, ...found }];
  });
  if (told.length === 0) return null;
  const weights = told.map((t) => 1 / t.standardError ** 2);
  const all = weights.reduce((a, b) => a + b, 0);
  const value = (scale * told.reduce((sum, t, k) => sum + weights[k] * t.value, 0)) / all;
  // Witnesses that contradict each other are both less sure than they say.
  const apart = told.length === 2 ? Math.abs(told[0].value - told[1].value) / Math.hypot(told[0].standardError, told[1].standardError) : 0;
  const standardError = (scale * Math.max(1, apart)) / Math.sqrt(all);
  const half = tQuantile(1 - (1 - level) / 2, Math.min(...told.map((t) => t.degreesOfFreedom))) * standardError;
  const ahead = (longitude / 360) * dayMs;
  return {
    place: place.name,
    by: told.length === 2 ? "both" : told[0].kind,
    estimate: estimate({ value, standardError, low: value - half, high: value + half, level, unit }),
    from: Math.min(...told.map((t) => t.sun.days[0])) * dayMs - ahead,
    to: (Math.max(...told.map((t) => t.sun.days[t.sun.days.length - 1])) + 1) * dayMs - ahead,
  };
}

/**
 * By how many hours a place's clock is later while a civil clock would be on summer time, by the sun.
 *
 * @param place   outdoors for the warmth of the day; any for the tide
 * @param site    longitude · degrees east
 * @param changes instants and signs of the changes, in order · epoch ms, s
 * @returns       h: 1 for a clock that keeps that summer time, 0 for one that does not; null under 15 days on either side
 */
export function summerBySun(place: PlaceRecord, longitude: number, changes: readonly { readonly at: number; readonly seconds: number }[]): SunClock | null {
  const ahead = (longitude / 360) * dayMs;
  if (changes.length === 0) return null;
  const isSummer = (day: number): number => {
    const at = (day + 0.5) * dayMs - ahead;
    const last = changes.findLast((c) => c.at <= at);
    return last === undefined ? (changes[0].seconds > 0 ? 0 : 1) : last.seconds > 0 ? 1 : 0;
  };
  const isFit = ({ days }: SunDays): boolean => {
    const summer = days.reduce((n, d) => n + isSummer(d), 0);
    return summer >= fewestBeside && days.length - summer >= fewestBeside;
  };
  return termOf(place, longitude, isSummer, 1, "h", isFit);
}

/**
 * By how much a place's clock gains a day, by the sun.
 *
 * @param place, longitude as for summerBySun
 * @returns       s d-1, positive when the clock gains, 99 % interval; null under 15 whole days or where no round is seen
 */
export function driftBySun(place: PlaceRecord, longitude: number): SunClock | null {
  return termOf(place, longitude, (day) => day, 3600, "s d-1", () => true);
}
