import { vaporPressure } from "../../air/relativeHumidity.js";
import { median } from "../../ground/summary.js";
import { meanSolarHours } from "../../ground/solarTime.js";
import { type Grid, regularGrid } from "../../grid/regularGrid.js";
import { niceStep } from "../../grid/step.js";
import { flagBit } from "../../record/flag.js";
import type { Series } from "../../record/series.js";
import { type SunBump, sunBumps } from "./sunBumps.js";

/** Longest step in which a sun patch of an hour and a half has a shape · s. */
const longestStep = 1200;
/** Bumps that come within so many minutes of one solar hour, and so many days of each other, are looked at together. */
const withinMinutes = 40;
const withinDays = 22;
const fewestDays = 4;
/** Share of the hours with sun that the window takes: what chance alone would put there. */
const chanceShare = (2 * withinMinutes) / (8 * 60);
const leastChance = 0.005;
const dayMs = 86400000;

/**
 * Marks readings of an outdoor sensor that the sun heats: short rises that come back at the same solar hour on several days.
 *
 * What can be seen: direct sun that reaches the sensor for half an hour to three and a half hours, on at least 4 days within 44,
 * within 40 minutes of one hour of local mean solar time, more often there than chance would put 5-times-unusual bumps, with no
 * dips of that size at that hour, and with the vapor in the air unchanged (a sea breeze changes it). What cannot: a
 * shelter that is warm all day, the logger's own electronics, sun on a single day, readings rarer than every 20 minutes. Those
 * need a second sensor beside it.
 *
 * @param temperature outdoor air temperature · °C
 * @param humidity    relative humidity of the same sensor, or null
 * @param longitude   degrees east, or null: then hours are UTC's, which serves as well within a season
 * @returns           bits of `flagBit`, 0 or warmed · [n]
 * @source own method; hits and false alarms measured by simulation, see README of this room
 */
export function flagWarmed(temperature: Series, humidity: Series | null, longitude: number | null): Uint16Array {
  const bits: Uint16Array = new Uint16Array(temperature.values.length);
  const step = Math.max(300, niceStep(temperature.seconds));
  if (temperature.quantity !== "air_temperature" || step > longestStep) return bits;
  if (temperature.values.every(Number.isNaN)) return bits;
  const grid = regularGrid(humidity === null ? [temperature] : [temperature, humidity], { step, fillUpTo: 1800 });
  const values = grid.columns[0].values;
  const hourOf = (k: number): number => meanSolarHours(grid.start + 1000 * grid.stepSeconds * (k + 0.5), longitude ?? 0);
  const isDay = (k: number): boolean => longitude === null || (hourOf(k) > 5 && hourOf(k) < 19);
  const all = sunBumps(values, step / 60).filter(({ at }) => isDay(at));
  for (const bump of recurring(all, hourOf, step)) {
    if (!vaporStays(grid, bump)) continue;
    const [from, to] = extent(values, bump);
    const first = grid.start + 1000 * step * from;
    const end = grid.start + 1000 * step * to;
    markBetween(bits, temperature, first, end);
  }
  return bits;
}

/** Sets the bit of every present reading in [from, to), epoch ms. */
function markBetween(bits: Uint16Array, { start, seconds, values }: Series, from: number, to: number): void {
  let [low, high] = [0, seconds.length];
  while (low < high) {
    const middle = (low + high) >> 1;
    if (start + 1000 * seconds[middle] < from) low = middle + 1;
    else high = middle;
  }
  for (let i = low; i < seconds.length && start + 1000 * seconds[i] < to; i++) if (!Number.isNaN(values[i])) bits[i] = flagBit.warmed;
}

/** The bumps that belong to a crowd at one solar hour. */
function recurring(all: readonly SunBump[], hourOf: (k: number) => number, step: number): SunBump[] {
  const days = all.map(({ at }) => (at * step * 1000) / dayMs);
  const hours = all.map(({ at }) => hourOf(at));
  const kept: SunBump[] = [];
  // The season of a bump, [first, end): bumps are in time order.
  let [first, end] = [0, 0];
  for (let i = 0; i < all.length; i++) {
    while (days[i] - days[first] > withinDays) first++;
    while (end < all.length && days[end] - days[i] <= withinDays) end++;
    if (all[i].size < 0) continue;
    let [rises, here, dips] = [0, 0, 0];
    const seen = new Set<number>();
    for (let k = first; k < end; k++) {
      const isRise = all[k].size > 0;
      if (isRise) rises++;
      const off = Math.abs(hours[k] - hours[i]);
      if (60 * Math.min(off, 24 - off) > withinMinutes) continue;
      if (!isRise) {
        if (all[k].size < 0) dips++;
        continue;
      }
      here++;
      seen.add(Math.floor(days[k] - hours[k] / 24 + 0.5));
    }
    if (seen.size >= fewestDays && here >= 3 * dips && rises * chanceOf(rises, here) <= leastChance) kept.push(all[i]);
  }
  return kept;
}

/** Chance that at least `hits` of `n` bumps fall into the window. */
function chanceOf(n: number, hits: number): number {
  let term = (1 - chanceShare) ** n;
  let below = 0;
  for (let k = 0; k < hits; k++) {
    below += term;
    term *= ((n - k) / (k + 1)) * (chanceShare / (1 - chanceShare));
  }
  return Math.max(0, 1 - below);
}

/** Whether vapor pressure in the middle is that of the flanks within 15 %; true where humidity is not known. */
function vaporStays(grid: Grid, { at, reach }: SunBump): boolean {
  if (grid.columns.length < 2) return true;
  const [t, rh] = grid.columns.map((c) => c.values);
  const vapor = (from: number, to: number): number => {
    const found: number[] = [];
    for (let k = from; k <= to; k++) if (rh[k] >= 0 && rh[k] <= 105 && t[k] > -60 && t[k] < 60) found.push(vaporPressure(t[k], rh[k]));
    return median(found);
  };
  const ratio = (2 * vapor(at - 1, at + 1)) / (vapor(at - reach - 2, at - reach) + vapor(at + reach, at + reach + 2));
  return Number.isNaN(ratio) || (ratio > 0.85 && ratio < 1.15);
}

/** Steps [from, to) around a peak that stand above the line between the flanks by more than an eighth of the bump. */
function extent(values: Float64Array, { at, reach, size }: SunBump): [number, number] {
  const before = values[at - reach];
  const after = values[at + reach];
  const isAbove = (k: number): boolean => values[k] - (before + ((after - before) * (k - at + reach)) / (2 * reach)) > size / 8;
  let from = at;
  while (from - 1 > at - reach && isAbove(from - 1)) from--;
  let to = at + 1;
  while (to < at + reach && isAbove(to)) to++;
  return [from, to];
}
