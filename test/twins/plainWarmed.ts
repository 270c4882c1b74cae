import { vaporPressure } from "../../lib/air/relativeHumidity.js";
import { median } from "../../lib/ground/summary.js";
import { meanSolarHours } from "../../lib/ground/solarTime.js";
import { type Grid, regularGrid } from "../../lib/grid/regularGrid.js";
import { niceStep } from "../../lib/grid/step.js";
import { flagBit } from "../../lib/record/flag.js";
import type { Series } from "../../lib/record/series.js";
import { type SunBump, sunBumps } from "../../lib/trust/faults/sunBumps.js";

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

/** Warm bumps by the plain text of `flagWarmed`: every bump asked about every other. */
export function plainWarmed(temperature: Series, humidity: Series | null, longitude: number | null): Uint16Array {
  const bits: Uint16Array = new Uint16Array(temperature.values.length);
  const step = Math.max(300, niceStep(temperature.seconds));
  if (temperature.quantity !== "air_temperature" || step > longestStep) return bits;
  if (!temperature.values.some((v) => !Number.isNaN(v))) return bits;
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
    for (let i = 0; i < bits.length; i++) {
      const t = temperature.start + 1000 * temperature.seconds[i];
      if (t >= first && t < end && !Number.isNaN(temperature.values[i])) bits[i] = flagBit.warmed;
    }
  }
  return bits;
}

/** The bumps that belong to a crowd at one solar hour. */
function recurring(all: readonly SunBump[], hourOf: (k: number) => number, step: number): SunBump[] {
  const dayOf = (bump: SunBump): number => (bump.at * step * 1000) / dayMs;
  const apart = (p: SunBump, q: SunBump): number => {
    const d = Math.abs(hourOf(p.at) - hourOf(q.at));
    return 60 * Math.min(d, 24 - d);
  };
  return all.filter((bump) => {
    if (bump.size < 0) return false;
    const season = all.filter((other) => Math.abs(dayOf(other) - dayOf(bump)) <= withinDays);
    const rises = season.filter(({ size }) => size > 0);
    const here = rises.filter((other) => apart(other, bump) <= withinMinutes);
    const dips = season.filter((other) => other.size < 0 && apart(other, bump) <= withinMinutes).length;
    const days = new Set(here.map((other) => Math.floor(dayOf(other) - hourOf(other.at) / 24 + 0.5))).size;
    return days >= fewestDays && here.length >= 3 * dips && rises.length * chanceOf(rises.length, here.length) <= leastChance;
  });
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
