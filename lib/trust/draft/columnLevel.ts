import { median } from "../../ground/summary.js";

/** Where the values of a column lie and how they move. */
export interface ColumnLevel {
  readonly count: number;
  readonly low: number;
  readonly high: number;
  /** 1 %, 5 %, 50 %, 95 % and 99 % of the values lie below. */
  readonly p01: number;
  readonly p05: number;
  readonly median: number;
  readonly p95: number;
  readonly p99: number;
  /** Share of the values that are the commonest one. */
  readonly commonest: number;
  /** Mean step from one value to the next as a share of p95 − p05; 0 when it stands still. */
  readonly roughness: number;
  /** Share of the steps that rise less the share that fall: 1 for a counter. */
  readonly drift: number;
}

/** The level of a column; NaN is missing. */
export function columnLevel(values: Float64Array): ColumnLevel {
  const known = values.filter((v) => !Number.isNaN(v));
  const sorted = known.slice().sort();
  const at = (p: number): number => (sorted.length === 0 ? Number.NaN : sorted[Math.round(p * (sorted.length - 1))]);
  let commonest = 0;
  for (let i = 0, from = 0; i <= sorted.length; i++) {
    if (i < sorted.length && sorted[i] === sorted[from]) continue;
    commonest = Math.max(commonest, i - from);
    from = i;
  }
  let path = 0;
  let up = 0;
  let down = 0;
  for (let i = 1; i < known.length; i++) {
    const by = known[i] - known[i - 1];
    path += Math.abs(by);
    if (by > 0) up++;
    else if (by < 0) down++;
  }
  const spread = at(0.95) - at(0.05);
  return Object.freeze({
    count: known.length,
    low: at(0),
    high: at(1),
    p01: at(0.01),
    p05: at(0.05),
    median: at(0.5),
    p95: at(0.95),
    p99: at(0.99),
    commonest: known.length === 0 ? 1 : commonest / known.length,
    roughness: spread > 0 ? path / Math.max(1, known.length - 1) / spread : 0,
    drift: up + down === 0 ? 0 : (up - down) / (up + down),
  });
}

/**
 * Correlation of two columns over the rows where both hold a value; 0 where either stands still or fewer than 8 rows do.
 */
export function correlation(a: Float64Array, b: Float64Array): number {
  let n = 0;
  let [sa, sb] = [0, 0];
  for (let i = 0; i < a.length; i++) {
    if (Number.isNaN(a[i] + b[i])) continue;
    n++;
    sa += a[i];
    sb += b[i];
  }
  if (n < 8) return 0;
  let [aa, bb, ab] = [0, 0, 0];
  for (let i = 0; i < a.length; i++) {
    if (Number.isNaN(a[i] + b[i])) continue;
    const [da, db] = [a[i] - sa / n, b[i] - sb / n];
    aa += da * da;
    bb += db * db;
    ab += da * db;
  }
  return aa > 0 && bb > 0 ? ab / Math.sqrt(aa * bb) : 0;
}

/**
 * Median over the days of highest minus lowest, over days with at least six values that span ten hours; NaN without one.
 *
 * @param times civil, epoch ms as if UTC · [n]
 */
export function dailyRange(times: Float64Array, values: Float64Array): number {
  const days = new Map<number, { low: number; high: number; n: number; first: number; last: number }>();
  for (let i = 0; i < values.length; i++) {
    const v = values[i];
    if (Number.isNaN(v)) continue;
    const day = Math.floor(times[i] / 86_400_000);
    const known = days.get(day);
    if (known === undefined) days.set(day, { low: v, high: v, n: 1, first: times[i], last: times[i] });
    else {
      known.low = Math.min(known.low, v);
      known.high = Math.max(known.high, v);
      known.first = Math.min(known.first, times[i]);
      known.last = Math.max(known.last, times[i]);
      known.n++;
    }
  }
  const usual = Math.max(6, 0.5 * Math.max(0, ...[...days.values()].map((d) => d.n)));
  const whole = [...days.values()].filter((d) => d.n >= usual && d.last - d.first >= 10 * 3_600_000);
  return median(whole.map((d) => d.high - d.low));
}

/**
 * Hour of the day at which the daily round of a column is highest; NaN under 24 values or without a round.
 *
 * @param times civil, epoch ms as if UTC · [n]
 */
export function crestHour(times: Float64Array, values: Float64Array): number {
  const dayMs = 86_400_000;
  let [n, sum, c, s] = [0, 0, 0, 0];
  for (const v of values) {
    if (Number.isNaN(v)) continue;
    n++;
    sum += v;
  }
  for (const [i, v] of values.entries()) {
    if (Number.isNaN(v)) continue;
    const turn = (2 * Math.PI * (times[i] % dayMs)) / dayMs;
    c += (v - sum / n) * Math.cos(turn);
    s += (v - sum / n) * Math.sin(turn);
  }
  return n < 24 || (c === 0 && s === 0) ? Number.NaN : ((Math.atan2(s, c) / (2 * Math.PI)) * 24 + 24) % 24;
}
