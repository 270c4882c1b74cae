const dayMs = 86400000;

/** A Sunday of a month: the n-th (1…), or the last (0) · epoch ms, 00 UTC. */
function sunday(year: number, month: number, which: number): number {
  if (which === 0) {
    const last = Date.UTC(year, month + 1, 0);
    return last - new Date(last).getUTCDay() * dayMs;
  }
  const first = Date.UTC(year, month, 1);
  return first + (((7 - new Date(first).getUTCDay()) % 7) + 7 * (which - 1)) * dayMs;
}

/** A date at which civil clocks change, and by how many seconds: positive forward. */
export interface SummerDate {
  readonly at: number;
  readonly seconds: number;
}

/** Europe's rule, North America's, and that of south-east Australia: months 0…11 and Sundays forward, and back. */
const rules = {
  europe: [[2, 0], [9, 0]],
  america: [[2, 2], [10, 1]],
  australia: [[9, 1], [3, 1]],
} as const;

function datesOf(rule: keyof typeof rules, from: number, to: number): SummerDate[] {
  const found: SummerDate[] = [];
  if (!(to >= from)) return found;
  const [[forward, first], [back, second]] = rules[rule];
  for (let year = new Date(from).getUTCFullYear(); year <= new Date(to).getUTCFullYear(); year++) {
    found.push({ at: sunday(year, forward, first), seconds: 3600 }, { at: sunday(year, back, second), seconds: -3600 });
  }
  return found.filter(({ at }) => at > from && at < to).sort((p, q) => p.at - q.at);
}

/**
 * The dates at which civil clocks are most often changed, for a record whose description knows none.
 *
 * North of 23.5°: last Sunday of March and of October, second Sunday of March and first of November; south: first Sunday of
 * April and of October. In the tropics none. Candidates for a doubt, never a reason to move a time.
 *
 * @param from, to span · epoch ms
 * @param latitude degrees, north positive
 * @returns        instants inside the span with the change of the civil clock
 * @source common practice, no source (rules of the European Union, North America, south-east Australia in 2007–2024)
 */
export function summerTimeDates(from: number, to: number, latitude: number): readonly SummerDate[] {
  if (!(Math.abs(latitude) > 23.5)) return [];
  const all = latitude > 0 ? [...datesOf("europe", from, to), ...datesOf("america", from, to)] : datesOf("australia", from, to);
  return Object.freeze(all.sort((p, q) => p.at - q.at));
}

/**
 * The dates of the one rule that is usual at a place: North America's west of 30° W, Europe's east of it, Australia's in the south.
 *
 * @param from, to            span · epoch ms
 * @param latitude, longitude degrees, north and east positive
 * @returns                   as summerTimeDates; none in the tropics
 * @source common practice, no source
 */
export function usualSummer(from: number, to: number, latitude: number, longitude: number): readonly SummerDate[] {
  if (!(Math.abs(latitude) > 23.5)) return [];
  return Object.freeze(datesOf(latitude < 0 ? "australia" : longitude < -30 ? "america" : "europe", from, to));
}
