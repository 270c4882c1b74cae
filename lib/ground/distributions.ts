import jStat from "jstat";
import { mustSentence, shown } from "./complaint.js";

// The door to jstat. It answers Infinity, 0 or NaN without a word where a question makes no sense, and its incomplete
// beta function stops after 100 terms, which is wrong by 0.4 at 10⁷ degrees of freedom: both are guarded here.

/** Above this many degrees of freedom t is a series in 1/dof about the normal law (agrees with exact values to 1e-12). */
const seriesFrom = 1000;
/** Above this many degrees of freedom the cube root of chi-square / dof is taken as normal. */
const cubeRootFrom = 1e5;
/** Above this many degrees of freedom in both, F is taken by cube roots too. */
const cubeRootBothFrom = 3e4;
/** Largest degrees of freedom of F. */
const mostF = 1e7;

/**
 * Quantile of Student's t: the value below which a share `p` lies.
 *
 * @param p   share · 0…1, ends excluded
 * @param dof degrees of freedom · above 0, fractions and Infinity (the normal law) allowed
 * @returns   t · within 1e-7 relative of exact values (1e-9 above 1000 degrees of freedom); exactly 0 at p = 0.5
 * @throws RangeError when p or dof is NaN or outside
 * @example tQuantile(0.975, 10) // 2.228139
 * @source jstat; above 1000 the series of Abramowitz & Stegun 26.7.5 (from memory, held by the scipy vectors)
 */
export function tQuantile(p: number, dof: number): number {
  requireShare("tQuantile", p);
  requireDof("tQuantile", "dof", dof, Infinity);
  if (p === 0.5) return 0;
  if (dof <= seriesFrom) return jStat.studentt.inv(p, dof);
  const z = jStat.normal.inv(p, 0, 1);
  const s = z * z;
  const g1 = (z * (s + 1)) / 4;
  const g2 = (z * (3 + s * (16 + 5 * s))) / 96;
  const g3 = (z * (-15 + s * (17 + s * (19 + 3 * s)))) / 384;
  return z + (g1 + (g2 + g3 / dof) / dof) / dof;
}

/**
 * Share of Student's t below `x`.
 *
 * @param x   t · ±Infinity allowed
 * @param dof degrees of freedom · above 0, fractions and Infinity allowed
 * @returns   0…1 · within 3e-8 of exact values (1e-12 above 1000 degrees of freedom)
 * @throws RangeError when x is NaN or dof is outside
 * @example tCdf(2.228139, 10) // 0.975
 * @source jstat; above 1000 the expansion of G. W. Hill, Comm. ACM 13 (1970), Algorithm 395 (from memory, held by the scipy vectors)
 */
export function tCdf(x: number, dof: number): number {
  requireNumber("tCdf", x);
  requireDof("tCdf", "dof", dof, Infinity);
  if (x === 0) return 0.5;
  if (!Number.isFinite(x)) return x < 0 ? 0 : 1;
  if (dof <= seriesFrom) {
    const tail = 0.5 * jStat.ibeta(dof / (dof + x * x), dof / 2, 0.5);
    return x < 0 ? tail : 1 - tail;
  }
  return jStat.normal.cdf(dof === Infinity ? x : normalOfT(x, dof), 0, 1);
}

/** The normal deviate with the same share below it as t has. */
function normalOfT(t: number, dof: number): number {
  const a = dof - 0.5;
  const b = 48 * a * a;
  const s = a * Math.log1p((t * t) / dof);
  const z = Math.sqrt(s);
  const second = (855 + s * (240 + s * (33 + 4 * s))) / (10 * b * (b + 0.8 * s * s + 100));
  return Math.sign(t) * z * (1 + (s + 3) / b - second);
}

/**
 * Quantile of chi-square.
 *
 * @param p   share · 0…1, ends excluded
 * @param dof degrees of freedom · above 0, fractions allowed
 * @returns   chi-square · within 1e-9 relative (2e-7 above 1e5 degrees of freedom)
 * @throws RangeError when p or dof is NaN or outside
 * @example chiSquareQuantile(0.95, 2) // 5.991465
 * @source jstat; above 1e5 degrees of freedom Wilson and Hilferty's cube root
 */
export function chiSquareQuantile(p: number, dof: number): number {
  requireShare("chiSquareQuantile", p);
  requireDof("chiSquareQuantile", "dof", dof, Number.MAX_VALUE);
  if (dof <= cubeRootFrom) return jStat.chisquare.inv(p, dof);
  const v = 2 / (9 * dof);
  return dof * (1 - v + jStat.normal.inv(p, 0, 1) * Math.sqrt(v)) ** 3;
}

/**
 * Share of chi-square below `x`.
 *
 * @param x   chi-square · negative gives 0, Infinity 1
 * @param dof degrees of freedom · above 0, fractions allowed
 * @returns   0…1 · within 1e-9 (2e-7 above 1e5 degrees of freedom)
 * @throws RangeError when x is NaN or dof is outside
 * @example chiSquareCdf(5.991465, 2) // 0.95
 * @source jstat; above 1e5 degrees of freedom Wilson and Hilferty's cube root
 */
export function chiSquareCdf(x: number, dof: number): number {
  requireNumber("chiSquareCdf", x);
  requireDof("chiSquareCdf", "dof", dof, Number.MAX_VALUE);
  if (x <= 0) return 0;
  if (x === Infinity) return 1;
  if (dof <= cubeRootFrom) return jStat.chisquare.cdf(x, dof);
  const v = 2 / (9 * dof);
  return jStat.normal.cdf((Math.cbrt(x / dof) - 1 + v) / Math.sqrt(v), 0, 1);
}

/**
 * Quantile of Fisher's F.
 *
 * @param p    share · 0…1, ends excluded
 * @param dof1 degrees of freedom of the numerator · above 0 to 1e7
 * @param dof2 degrees of freedom of the denominator · above 0 to 1e7
 * @returns    F · within 3e-7 relative
 * @throws RangeError when p or a dof is NaN or outside
 * @example fQuantile(0.95, 2, 28) // 3.340386
 * @source jstat; above 3e4 degrees of freedom in both, cube roots of both chi-squares as normal
 */
export function fQuantile(p: number, dof1: number, dof2: number): number {
  requireShare("fQuantile", p);
  requireDof("fQuantile", "dof1", dof1, mostF);
  requireDof("fQuantile", "dof2", dof2, mostF);
  if (Math.min(dof1, dof2) > cubeRootBothFrom) {
    const z = jStat.normal.inv(p, 0, 1);
    const v1 = 2 / (9 * dof1);
    const v2 = 2 / (9 * dof2);
    const m1 = 1 - v1;
    const m2 = 1 - v2;
    const spread = v1 * m2 * m2 + v2 * m1 * m1 - z * z * v1 * v2;
    return ((m1 * m2 + z * Math.sqrt(spread)) / (m2 * m2 - z * z * v2)) ** 3;
  }
  // With the larger dof in front the package subtracts two nearly equal numbers (off by 8e-4 at 1e5, 1): turn F over.
  return dof1 > dof2 ? 1 / jStat.centralF.inv(1 - p, dof2, dof1) : jStat.centralF.inv(p, dof1, dof2);
}

/**
 * Share of Fisher's F below `x`.
 *
 * @param x    F · negative gives 0, Infinity 1
 * @param dof1 degrees of freedom of the numerator · above 0 to 1e7
 * @param dof2 degrees of freedom of the denominator · above 0 to 1e7
 * @returns    0…1 · within 2e-7
 * @throws RangeError when x is NaN or a dof is outside
 * @example fCdf(3.340386, 2, 28) // 0.95
 * @source jstat; above 3e4 degrees of freedom in both, cube roots of both chi-squares as normal
 */
export function fCdf(x: number, dof1: number, dof2: number): number {
  requireNumber("fCdf", x);
  requireDof("fCdf", "dof1", dof1, mostF);
  requireDof("fCdf", "dof2", dof2, mostF);
  if (x <= 0) return 0;
  if (x === Infinity) return 1;
  if (Math.min(dof1, dof2) > cubeRootBothFrom) {
    const v1 = 2 / (9 * dof1);
    const v2 = 2 / (9 * dof2);
    const r = Math.cbrt(x);
    return jStat.normal.cdf(((1 - v2) * r - (1 - v1)) / Math.sqrt(v2 * r * r + v1), 0, 1);
  }
  return jStat.centralF.cdf(x, dof1, dof2);
}

/**
 * Quantile of the standard normal law.
 *
 * @param p share · 0…1, ends excluded
 * @returns standard deviations from the mean · within 5e-9 relative for p from 1e-9; exactly 0 at p = 0.5
 * @throws RangeError when p is NaN or outside
 * @example normalQuantile(0.975) // 1.959964
 * @source jstat
 */
export function normalQuantile(p: number): number {
  requireShare("normalQuantile", p);
  return p === 0.5 ? 0 : jStat.normal.inv(p, 0, 1);
}

/**
 * Share of the standard normal law below `x`.
 *
 * @param x standard deviations from the mean · ±Infinity allowed
 * @returns 0…1 · within 1e-15 absolute (a lower tail under 1e-12 keeps few digits)
 * @throws RangeError when x is NaN
 * @example normalCdf(1.959964) // 0.975
 * @source jstat
 */
export function normalCdf(x: number): number {
  requireNumber("normalCdf", x);
  return Number.isFinite(x) ? jStat.normal.cdf(x, 0, 1) : x < 0 ? 0 : 1;
}

function requireShare(at: string, p: number): void {
  if (!(p > 0 && p < 1)) throw new RangeError(mustSentence(at, "p", "be above 0 and below 1", shown(p)));
}

function requireDof(at: string, name: string, dof: number, most: number): void {
  if (dof > 0 && dof <= most) return;
  const limits = most === mostF ? `be above 0 and at most ${most}` : most === Infinity ? "be above 0" : "be above 0 and finite";
  throw new RangeError(mustSentence(at, name, limits, shown(dof)));
}

function requireNumber(at: string, x: number): void {
  if (typeof x !== "number" || Number.isNaN(x)) throw new RangeError(mustSentence(at, "x", "be a number", shown(x)));
}
