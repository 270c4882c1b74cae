import { regularGrid } from "../../grid/regularGrid.js";
import { median } from "../../ground/summary.js";
import { remembered } from "../../ground/remembered.js";
import { sunPosition } from "../../ground/sunPosition.js";
import type { Series } from "../../record/series.js";
import { roundsOf } from "./dailyTide.js";

/** How late a round of the day comes, day by day, by the true sun. */
export interface SunDays {
  /** Number of the solar day since 1970 · whole days · [n] · rising. */
  readonly days: Float64Array;
  /** The day's part across the mean's direction: the round's size times the angle by which it comes later · unit of the series · [n]. */
  readonly across: Float64Array;
  /** What an hour's delay would make of it: angle of an hour times the round's size, a mean of a month · unit per hour · [n]. */
  readonly anHour: Float64Array;
}

const dayMs = 86_400_000;
const fewestDays = 15;
/** The size of the round is that of so many days on either side. */
const besideDays = 15;
/** A day further off than so many robust spreads counts as one there: fronts. */
const farthest = 3;

const once = remembered<Series, SunDays | null>();

/**
 * The daily or twice-daily round of a series, day by day, as far as it tells the time by the sun.
 *
 * Days are told by the true sun and not by the mean one: what the sun drives keeps to it. In thirty-year means of Seattle–Tacoma
 * the warmth of the day then stays within 0.2 h all the year and the tide within 0.15 h, and by the mean sun within 0.25 and 0.25 h.
 *
 * @param series    pressure or outdoor temperature
 * @param longitude degrees east
 * @param cycles    a day: 2 for the tide, 1 for the warmth
 * @returns         see SunDays; null under 15 whole days, or where there is no such round
 * @source own method, see README of this room; NOAA hourly climate normals 1981–2010 (datasets/puget-normals)
 */
export function sunDays(series: Series, longitude: number, cycles: 1 | 2): SunDays | null {
  return once(series, `${longitude} ${cycles}`, () => daysOf(series, longitude, cycles));
}

function daysOf(series: Series, longitude: number, cycles: number): SunDays | null {
  if (series.values.every(Number.isNaN)) return null;
  const ahead = (longitude / 360) * dayMs;
  const grid = regularGrid(series, { step: 3600, fillUpTo: 3 * 3600, alignTo: -Math.round(ahead / 3_600_000) * 3_600_000 });
  const first = Math.floor((grid.start + ahead) / dayMs);
  const rounds = roundsOf(grid.columns[0], Math.round((grid.start + ahead) / 3_600_000), cycles);
  const turnOfHour = (2 * Math.PI * cycles) / 24;
  const whole = rounds.flatMap(([c, s], k) => {
    if (Number.isNaN(c)) return [];
    // A sundial that is ahead of the mean sun reads later: the round turns on by as much.
    const turn = (turnOfHour * sunPosition((first + k + 0.5) * dayMs - ahead).equationOfTime) / 60;
    return [{ day: first + k, c: c * Math.cos(turn) + s * Math.sin(turn), s: s * Math.cos(turn) - c * Math.sin(turn) }];
  });
  if (whole.length < fewestDays) return null;
  const [c, s] = [whole.reduce((sum, d) => sum + d.c, 0), whole.reduce((sum, d) => sum + d.s, 0)];
  const size = Math.hypot(c, s);
  if (!(size > 0)) return null;
  const along = whole.map((d) => (d.c * c + d.s * s) / size);
  const raw = whole.map((d) => (d.c * s - d.s * c) / size);
  const spread = 1.4826 * median(raw.map(Math.abs));
  const usual = size / whole.length;
  return Object.freeze({
    days: Float64Array.from(whole, (d) => d.day),
    across: Float64Array.from(raw, (v) => (spread > 0 ? Math.max(-farthest * spread, Math.min(farthest * spread, v)) : v)),
    anHour: Float64Array.from(sizes(whole.map((d) => d.day), along), (a) => turnOfHour * Math.max(0.2 * usual, a)),
  });
}

/** Mean of what lies within some days of each · both rise with the days. */
function sizes(days: readonly number[], along: readonly number[]): number[] {
  let [from, to, sum] = [0, 0, 0];
  return days.map((day) => {
    while (to < days.length && days[to] <= day + besideDays) sum += along[to++];
    while (days[from] < day - besideDays) sum -= along[from++];
    return sum / (to - from);
  });
}
