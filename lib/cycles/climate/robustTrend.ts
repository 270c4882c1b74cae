import { mustSentence, requireReadings } from "../../ground/complaint.js";
import { normalCdf, normalQuantile } from "../../ground/distributions.js";
import { type Estimate, estimate } from "../../ground/estimate.js";

/** Whether later values tend to be higher: a test by ranks. */
export interface MannKendall {
  /** Pairs that rise less pairs that fall. */
  readonly s: number;
  /** Variance of s where there is no trend, ties counted. */
  readonly variance: number;
  /** Normal deviate with the half-step correction. */
  readonly z: number;
  /** Two-sided. */
  readonly pValue: number;
  /** s over the number of pairs that could rise or fall (Kendall's τ_b) · −1…1. */
  readonly tau: number;
}

/** The median slope of all pairs. */
export interface TheilSen {
  /** Unit of the values by unit of x. */
  readonly slope: Estimate;
  readonly pairs: number;
}

/**
 * Mann and Kendall's test for a trend of any shape.
 *
 * Values must not remember each other: on daily or monthly means it calls trends too often. Use it on yearly values, or with `group`
 * on monthly ones (each month of the year compared with itself), as a companion of monthlyTrend, never instead of it.
 *
 * @param values        any unit · [n] in order of time · NaN is left out
 * @param options.group label of each value, such as its month of the year; only pairs within a group count · [n]
 * @returns             see MannKendall, frozen
 * @throws RangeError   when fewer than 3 values are present or lengths differ
 * @example mannKendall([1, 2, 2, 3, 1, 4, 4, 5]).s // 19
 * @source H. B. Mann 1945, M. G. Kendall 1975 (from memory); published rows and scipy in test/
 */
export function mannKendall(values: ArrayLike<number>, options: { group?: ArrayLike<number> } = {}): MannKendall {
  let s = 0;
  let variance = 0;
  let allPairs = 0;
  let untied = 0;
  for (const members of groupsOf("mannKendall", values, options.group)) {
    const n = members.length;
    for (let i = 0; i < n; i++) for (let j = i + 1; j < n; j++) s += Math.sign(values[members[j]] - values[members[i]]);
    variance += spread(n);
    allPairs += (n * (n - 1)) / 2;
    untied += (n * (n - 1)) / 2;
    for (const t of tieSizes(members.map((i) => values[i]))) {
      variance -= spread(t);
      untied -= (t * (t - 1)) / 2;
    }
  }
  const z = s === 0 ? 0 : (s - Math.sign(s)) / Math.sqrt(variance);
  const tau = untied === 0 ? 0 : s / Math.sqrt(allPairs * untied);
  return Object.freeze({ s, variance, z, pValue: 2 * normalCdf(-Math.abs(z)), tau });
}

/**
 * Theil and Sen's slope: the median of the slopes of all pairs, with its interval by ranks.
 *
 * One wild value hardly moves it. The interval assumes values that do not remember each other (see mannKendall).
 *
 * @param x             time · any unit · [n]
 * @param values        any unit · [n] · NaN is left out
 * @param unit          unit of the slope, UDUNITS spelling
 * @param options.group as in mannKendall
 * @returns             see TheilSen, frozen
 * @throws RangeError   when fewer than 3 values are present, lengths differ, no two x differ, an x is not finite, or a value is infinite or beyond ±1e60
 * @example theilSen([0, 1, 2, 3], [0, 1, 2, 9], "1").slope.value // 2
 * @source P. K. Sen, Journal of the American Statistical Association 63 (1968), 1379 (from memory); scipy in test/
 */
export function theilSen(x: ArrayLike<number>, values: ArrayLike<number>, unit: string, options: { group?: ArrayLike<number> } = {}): TheilSen {
  if (x.length !== values.length) throw new RangeError(mustSentence("theilSen", "x", `have the length of values, ${values.length}`, String(x.length)));
  requireReadings("theilSen", "x", x);
  for (let i = 0; i < x.length; i++) if (Number.isNaN(x[i])) throw new RangeError(mustSentence("theilSen", "x", "be finite", `NaN at index ${i}`));
  const slopes: number[] = [];
  let variance = 0;
  for (const members of groupsOf("theilSen", values, options.group)) {
    for (let i = 0; i < members.length; i++) {
      for (let j = i + 1; j < members.length; j++) {
        const span = x[members[j]] - x[members[i]];
        if (span !== 0) slopes.push((values[members[j]] - values[members[i]]) / span);
      }
    }
    variance += spread(members.length);
    for (const t of [...tieSizes(members.map((i) => values[i])), ...tieSizes(members.map((i) => x[i]))]) variance -= spread(t);
  }
  if (slopes.length === 0) throw new RangeError(mustSentence("theilSen", "x", "differ in at least one pair", "none"));
  const sorted = Float64Array.from(slopes).sort();
  const pairs = sorted.length;
  const value = pairs % 2 === 1 ? sorted[pairs >> 1] : (sorted[pairs / 2 - 1] + sorted[pairs / 2]) / 2;
  const reach = normalQuantile(0.975) * Math.sqrt(Math.max(0, variance));
  const low = sorted[Math.max(0, Math.round((pairs - reach) / 2) - 1)];
  const high = sorted[Math.min(pairs - 1, Math.round((pairs + reach) / 2))];
  return Object.freeze({ slope: estimate({ value, standardError: (high - low) / 2 / normalQuantile(0.975), low, high, unit }), pairs });
}

const spread = (n: number): number => (n * (n - 1) * (2 * n + 5)) / 18;

/** Sizes of the sets of equal values; one alone counts for nothing in what is made of them. */
function tieSizes(values: readonly number[]): number[] {
  const counts = new Map<number, number>();
  for (const v of values) counts.set(v, (counts.get(v) ?? 0) + 1);
  return [...counts.values()];
}

function groupsOf(at: string, values: ArrayLike<number>, group: ArrayLike<number> | undefined): number[][] {
  if (group !== undefined && group.length !== values.length) {
    throw new RangeError(mustSentence(at, "group", `have the length of values, ${values.length}`, String(group.length)));
  }
  requireReadings(at, "values", values);
  const groups = new Map<number, number[]>();
  let count = 0;
  for (let i = 0; i < values.length; i++) {
    if (Number.isNaN(values[i])) continue;
    const label = group === undefined ? 0 : group[i];
    groups.set(label, [...(groups.get(label) ?? []), i]);
    count++;
  }
  if (count < 3) throw new RangeError(mustSentence(at, "values", "hold at least 3 present", String(count)));
  return [...groups.values()];
}
