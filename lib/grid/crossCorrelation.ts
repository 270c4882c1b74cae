import { mustSentence, requireReadings } from "../ground/complaint.js";
import { normalQuantile, tCdf } from "../ground/distributions.js";
import { type Estimate, estimate } from "../ground/estimate.js";

/** Correlation of two series at one lag, with what it is worth. */
export interface LagCorrelation {
  /** Steps by which b is later than a. */
  readonly lag: number;
  /** r with its 95 % interval; null where fewer than 4 effective pairs are left, or a series does not vary. */
  readonly correlation: Estimate | null;
  /** Pairs that are there. */
  readonly pairs: number;
  /** Independent pairs that they are worth. */
  readonly effectiveCount: number;
  /** Chance that two unrelated series of such memory reach |r| at this one lag; NaN where correlation is null. */
  readonly pValue: number;
}

/**
 * Mean of a_t·b_{t+lag} over the steps where both are present.
 *
 * @param a, b even steps · [n] · NaN is missing
 * @param lag  steps · whole · may be negative
 * @returns    NaN where no pair is there
 * @example meanProduct(Float64Array.of(1, 2), Float64Array.of(3, 4), 1) // 4
 */
export function meanProduct(a: Float64Array, b: Float64Array, lag: number): number {
  let sum = 0;
  let pairs = 0;
  for (let h = Math.max(0, -lag); h < Math.min(a.length, b.length - lag); h++) {
    const v = a[h] * b[h + lag];
    if (Number.isNaN(v)) continue;
    sum += v;
    pairs++;
  }
  // Of no pairs the mean is 0/0, NaN.
  return sum / pairs;
}

/**
 * Correlation of two series by lag, with how many independent pairs each number stands on.
 *
 * Neighboring readings are not independent: the count of pairs is lowered by the memory that both series share,
 * n/(1 + 2 Σ ρ_a(j) ρ_b(j) (1 − j/n)), summed until the product has lost itself. Take season and daily cycle out first
 * (`detrend`, `movingBackground`, `passed`): two series with one cycle agree at some lag whatever they are. With many lags
 * the largest of them is large by chance more often than its own p-value says.
 *
 * @param a, b         even steps · [n] · NaN is missing
 * @param options.from first lag · steps, default −24; positive: b later than a
 * @param options.to   last lag · steps, default 24
 * @returns            one entry a lag, frozen
 * @throws RangeError  when lengths differ, lags are not whole or not in order, reach beyond the series, or a value is infinite or beyond ±1e60
 * @example crossCorrelation(outside, inside, { from: 0, to: 12 })[5].correlation?.value // 0.797
 * @source Bartlett's variance of a sample correlation of two series of memory; interval by Fisher's z with the effective count; false
 *         calls held by test/simulation/crossCorrelation.test.ts
 */
export function crossCorrelation(a: ArrayLike<number>, b: ArrayLike<number>, options: { readonly from?: number; readonly to?: number } = {}): readonly LagCorrelation[] {
  const n = a.length;
  const { from = -24, to = 24 } = options;
  if (b.length !== n) throw new RangeError(mustSentence("crossCorrelation", "b", `have the length of a, ${n}`, String(b.length)));
  if (!(Number.isInteger(from) && Number.isInteger(to) && from <= to)) throw new RangeError(mustSentence("crossCorrelation", "from and to", "be whole steps in order", `${from} and ${to}`));
  if (Math.max(-from, to) >= n) throw new RangeError(mustSentence("crossCorrelation", "from and to", `stay within the ${n} steps`, `${from} and ${to}`));
  requireReadings("crossCorrelation", "a", a);
  requireReadings("crossCorrelation", "b", b);
  const [x, y] = [standardized(a), standardized(b)];
  const memory = sharedMemory(x, y);
  const found: LagCorrelation[] = [];
  for (let lag = from; lag <= to; lag++) found.push(atLag(x, y, lag, memory));
  return Object.freeze(found);
}

/** Departures from the mean in standard deviations; all NaN where nothing varies. */
function standardized(values: ArrayLike<number>): Float64Array {
  const out: Float64Array = Float64Array.from(values);
  let sum = 0;
  let count = 0;
  for (const v of out) {
    if (Number.isNaN(v)) continue;
    sum += v;
    count++;
  }
  const mean = sum / count;
  let squares = 0;
  for (let i = 0; i < out.length; i++) {
    out[i] -= mean;
    if (!Number.isNaN(out[i])) squares += out[i] * out[i];
  }
  const deviation = Math.sqrt(squares / count);
  const isFlat = !(deviation > 1e-12 * Math.max(1, Math.abs(mean)));
  return out.map((v) => (isFlat ? Number.NaN : v / deviation));
}

/** Products of the two autocorrelations, j = 1…; they end where a product is no more than chance makes. */
function sharedMemory(x: Float64Array, y: Float64Array): Float64Array {
  const products: number[] = [];
  const n = x.length;
  const longest = Math.floor(n / 4);
  for (let j = 1; j <= longest; j++) {
    const product = meanProduct(x, x, j) * meanProduct(y, y, j);
    // Two autocorrelations of 2/√n each are what chance makes of nothing.
    if (!(product > 4 / n)) break;
    products.push(product);
  }
  return Float64Array.from(products);
}

/** Below this share of the squares their scatter is rounding. */
const flatShare = 1e-11;

function atLag(x: Float64Array, y: Float64Array, lag: number, memory: Float64Array): LagCorrelation {
  let [pairs, sum, sx, sy, sxx, syy] = [0, 0, 0, 0, 0, 0];
  for (let h = Math.max(0, -lag); h < Math.min(x.length, y.length - lag); h++) {
    const [u, v] = [x[h], y[h + lag]];
    if (Number.isNaN(u) || Number.isNaN(v)) continue;
    pairs++;
    sum += u * v;
    sx += u;
    sy += v;
    sxx += u * u;
    syy += v * v;
  }
  let shared = 0;
  memory.forEach((product, k) => {
    if (k + 1 < pairs) shared += product * (1 - (k + 1) / pairs);
  });
  const effectiveCount = pairs / (1 + 2 * shared);
  const [vx, vy] = [sxx - (sx * sx) / pairs, syy - (sy * sy) / pairs];
  const spread = Math.sqrt(vx * vy);
  // What rounding leaves of pairs that do not vary is no spread: the series may vary outside this lag's pairs alone.
  const isFlat = !(vx > flatShare * sxx && vy > flatShare * syy);
  if (!(effectiveCount > 4) || isFlat) return Object.freeze({ lag, correlation: null, pairs, effectiveCount: Number.isNaN(effectiveCount) ? 0 : effectiveCount, pValue: Number.NaN });
  const r = Math.max(-1, Math.min(1, (sum - (sx * sy) / pairs) / spread));
  const reach = normalQuantile(0.975) / Math.sqrt(effectiveCount - 3);
  const [low, high] = [-reach, reach].map((by) => Math.tanh(Math.atanh(r) + by));
  const score = Math.abs(r) * Math.sqrt((effectiveCount - 2) / Math.max(1e-300, 1 - r * r));
  const correlation = estimate({ value: r, standardError: (1 - r * r) / Math.sqrt(effectiveCount - 3), low: Math.min(low, r), high: Math.max(high, r), unit: "1" });
  return Object.freeze({ lag, correlation, pairs, effectiveCount, pValue: 2 * (1 - tCdf(score, effectiveCount - 2)) });
}
