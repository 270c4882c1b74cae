import { isoUtc } from "../invent/stamp.mjs";

const hourMs = 3600000;

/** Instant (epoch ms) of 01:00 UTC on the last Sunday of a month (1 … 12). */
function lastSunday(year, month) {
  const last = new Date(Date.UTC(year, month, 0, 1));
  return last.getTime() - last.getUTCDay() * 24 * hourMs;
}

/**
 * Offset of the civil clock of Europe/London from UTC, hours: 1 from the last Sunday of March to the last Sunday of
 * October, both at 01:00 UTC, else 0. Written here so that the log does not hang on a machine's zone tables;
 * a test compares it with them.
 */
export function offsetHours(ms) {
  const year = new Date(ms).getUTCFullYear();
  return ms >= lastSunday(year, 3) && ms < lastSunday(year, 10) ? 1 : 0;
}

/** Changes of the clock between two instants: { skipped: [UTC instant], repeated: [UTC instant] }. */
export function changes(from, to) {
  const within = (ms) => ms >= from && ms < to;
  const skipped = [];
  const repeated = [];
  for (let year = new Date(from).getUTCFullYear(); year <= new Date(to).getUTCFullYear(); year++) {
    const [spring, autumn] = [lastSunday(year, 3), lastSunday(year, 10)];
    if (within(spring)) skipped.push(isoUtc(spring));
    if (within(autumn)) repeated.push(isoUtc(autumn));
  }
  return { skipped, repeated };
}
