import type { PlaceRecord } from "./airRecord.js";
import type { PlacePlan } from "./description/plan.js";
import { houseUnit, type Quantity } from "./quantity.js";
import type { MergedRows } from "./rows/mergeRows.js";
import type { Series } from "./series.js";

/** A place from its merged rows; all its series share one time axis. A quantity without one value has no series. */
export function placeRecord({ name, title, exposure, elevation }: PlacePlan, rows: MergedRows): PlaceRecord {
  const n = rows.times.length;
  const start = n === 0 ? 0 : rows.times[0];
  // The array of instants is turned into seconds where it stands.
  const seconds: Float64Array = rows.times;
  for (let i = 0; i < n; i++) seconds[i] = (seconds[i] - start) / 1000;
  const series: Partial<Record<Quantity, Series>> = {};
  for (const [c, quantity] of rows.quantities.entries()) {
    const values = rows.columns[c];
    if (values.every(Number.isNaN)) continue;
    series[quantity] = Object.freeze({ place: name, quantity, unit: houseUnit[quantity], start, seconds, values, flags: new Uint16Array(n) });
  }
  const { repeated, conflicting, merged } = rows;
  return Object.freeze({ name, title, exposure, elevation, readings: n, repeated, conflicting, merged, start, seconds, series: Object.freeze(series) });
}

/** First and last instant over all places that have a reading · epoch ms. */
export function spanOf(places: Readonly<Record<string, PlaceRecord>>): { from: number; to: number } {
  let from = Infinity;
  let to = -Infinity;
  for (const p of Object.values(places)) {
    if (p.readings === 0) continue;
    from = Math.min(from, p.start);
    to = Math.max(to, p.start + 1000 * p.seconds[p.readings - 1]);
  }
  return { from, to };
}
