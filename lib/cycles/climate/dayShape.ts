import { civilMonth, monthStart } from "./civilDay.js";

const fewestDays = 5;
const marginDays = 15;

/**
 * The mean daily cycle around each calendar month of a record, as departures from the day's mean.
 *
 * From complete days of the month and 15 days on either side; with fewer than five of them from all complete days.
 *
 * @param hours    whole civil days of hourly values · [24 · days] · NaN is missing
 * @param firstDay civil day of the first · days since 1970-01-01
 * @returns        for a day's index its cycle · [24], mean 0; null where the record has fewer than five complete days
 */
export function dayShape(hours: Float64Array, firstDay: number): (day: number) => Float64Array | null {
  const days = hours.length / 24;
  const isComplete: Uint8Array = new Uint8Array(days);
  for (let d = 0; d < days; d++) isComplete[d] = hours.subarray(24 * d, 24 * d + 24).some(Number.isNaN) ? 0 : 1;
  const overall = shapeOf(hours, isComplete, 0, days);
  const byMonth = new Map<number, Float64Array | null>();
  return (day) => {
    const month = civilMonth(firstDay + day);
    let shape = byMonth.get(month);
    if (shape === undefined) {
      const from = Math.max(0, monthStart(month) - marginDays - firstDay);
      const to = Math.min(days, monthStart(month + 1) + marginDays - firstDay);
      shape = shapeOf(hours, isComplete, from, to) ?? overall;
      byMonth.set(month, shape);
    }
    return shape;
  };
}

function shapeOf(hours: Float64Array, isComplete: Uint8Array, from: number, to: number): Float64Array | null {
  const shape: Float64Array = new Float64Array(24);
  let count = 0;
  for (let d = from; d < to; d++) {
    if (isComplete[d] === 0) continue;
    for (let h = 0; h < 24; h++) shape[h] += hours[24 * d + h];
    count++;
  }
  if (count < fewestDays) return null;
  const mean = shape.reduce((a, b) => a + b, 0) / 24 / count;
  return shape.map((v) => v / count - mean);
}
