const two = (n) => String(n).padStart(2, "0");

/** Parts of a clock that shows `ms` as if it were UTC, as texts: year, month, day, hour, minute, second. */
export function clockParts(ms) {
  const d = new Date(ms);
  return {
    year: String(d.getUTCFullYear()), month: two(d.getUTCMonth() + 1), day: two(d.getUTCDate()),
    hour: two(d.getUTCHours()), minute: two(d.getUTCMinutes()), second: two(d.getUTCSeconds()),
  };
}

/** ISO 8601 in UTC to the second: 2024-05-03T02:05:00Z. */
export function isoUtc(ms) {
  return new Date(Math.round(ms / 1000) * 1000).toISOString().replace(".000Z", "Z");
}

/** Epoch ms of a text like 2024-05-03T02:05 read as UTC. */
export function utc(text) {
  return Date.parse(`${text}Z`);
}

/** Rounds to a number of decimals, for numbers in truth.json. */
export function rounded(value, decimals) {
  return Number(value.toFixed(decimals));
}
