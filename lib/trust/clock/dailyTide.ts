import { type GridColumn, regularGrid } from "../../grid/regularGrid.js";
import type { Series } from "../../record/series.js";

/** The twice-daily tide of each solar day by itself. */
export interface DailyTide {
  /** How far the sun's day is ahead of UTC's · ms. */
  readonly ahead: number;
  /** Number of the first solar day. */
  readonly first: number;
  /** Complex amplitude of two cycles a day: [cosine, sine], NaN where an hour is missing · one entry a day. */
  readonly days: readonly (readonly [number, number])[];
}

const dayMs = 86400000;

/**
 * The daily complex amplitudes of two cycles a day, each day's mean and slope taken off by a running mean of 24 hours. An hour stands at
 * the mean instant of its readings: stamps that move within the hour, as a clock correction moves them, must not look like a moving tide.
 *
 * @param pressure  hPa · with at least one reading
 * @param longitude degrees east
 * @returns         see DailyTide
 */
export function dailyTide(pressure: Series, longitude: number): DailyTide {
  const ahead = (longitude / 360) * dayMs;
  const grid = regularGrid(pressure, { step: 3600, fillUpTo: 3 * 3600, alignTo: -Math.round(ahead / 3600000) * 3600000 });
  return { ahead, first: Math.floor((grid.start + ahead) / dayMs), days: roundsOf(grid.columns[0], Math.round((grid.start + ahead) / 3600000), 2) };
}

/**
 * Complex amplitude of some cycles a day of each whole solar day, the day's mean and slope taken off by a running mean of 24 hours.
 *
 * @param column    an hourly grid
 * @param firstHour its first hour, of any solar day
 * @param cycles    a day
 * @returns         [cosine, sine], NaN where an hour is missing · one entry a day
 */
export function roundsOf({ values: x, instants }: Pick<GridColumn, "values" | "instants">, firstHour: number, cycles: number): (readonly [number, number])[] {
  const offset = ((firstHour % 24) + 24) % 24;
  const days: (readonly [number, number])[] = [];
  for (let at = -offset; at < x.length; at += 24) {
    let [c, s] = [0, 0];
    for (let h = 0; h < 24; h++) {
      const i = at + h;
      // Less the 25-point running mean, which holds mean and slope and no whole cycle of the day.
      let background = 0;
      for (let k = -12; k <= 12; k++) background += ((Math.abs(k) === 12 ? 0.5 : 1) * (x[i + k] ?? Number.NaN)) / 24;
      const angle = (2 * Math.PI * cycles * (h + (instants[i] ?? Number.NaN) / 3600 - i)) / 24;
      c += ((x[i] ?? Number.NaN) - background) * Math.cos(angle);
      s -= ((x[i] ?? Number.NaN) - background) * Math.sin(angle);
    }
    days.push([c / 12, s / 12]);
  }
  return days;
}
