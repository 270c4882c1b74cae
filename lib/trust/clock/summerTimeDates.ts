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

/**
 * The dates at which civil clocks are most often changed, for a record whose description knows none.
 *
 * North of 23.5°: last Sunday of March and of October, second Sunday of March and first of November; south: first Sunday of
 * April and of October. In the tropics none. Candidates for a doubt, never a reason to move a time.
 *
 * @param from, to span · epoch ms
 * @param latitude degrees, north positive
 * @returns        instants inside the span with the change of the civil clock, seconds: positive forward
 * @source common practice, no source (rules of the European Union, North America, south-east Australia in 2007–2024)
 */
export function summerTimeDates(from: number, to: number, latitude: number): readonly { readonly at: number; readonly seconds: number }[] {
  if (!(Math.abs(latitude) > 23.5) || !(to >= from)) return [];
  const found: { at: number; seconds: number }[] = [];
  for (let year = new Date(from).getUTCFullYear(); year <= new Date(to).getUTCFullYear(); year++) {
    if (latitude > 0) {
      found.push({ at: sunday(year, 2, 2), seconds: 3600 }, { at: sunday(year, 2, 0), seconds: 3600 });
      found.push({ at: sunday(year, 9, 0), seconds: -3600 }, { at: sunday(year, 10, 1), seconds: -3600 });
    } else found.push({ at: sunday(year, 3, 1), seconds: -3600 }, { at: sunday(year, 9, 1), seconds: 3600 });
  }
  return Object.freeze(found.filter(({ at }) => at > from && at < to).sort((p, q) => p.at - q.at));
}
