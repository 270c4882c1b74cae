import { fitAtNoise, type FittedNoise } from "./fittedNoise.js";
import { lineNoise } from "./lineNoise.js";
import { factorInPlace, solveInPlace } from "./smallCholesky.js";
import type { Seasonal } from "./tideFit.js";
import type { TidePair } from "./tideRows.js";
import type { TideSteps } from "./tideSteps.js";

/** Shortest record that is tested · d. */
const leastDays = 300;
/** A line is said to change below this chance. */
const level = 0.01;
const tested: readonly string[] = ["S1", "S2", "S3"];

/** Share of F(4, ν) above f, in closed form. */
function fourTail(f: number, nu: number): number {
  const w = nu / (nu + 4 * f);
  return w ** (nu / 2) * (1 + (nu / 2) * (1 - w));
}

/** A p-value as people read it: `0.034`, `< 0.0001`. */
function chanceText(p: number): string {
  return p < 1e-4 ? "< 0.0001" : `= ${p.toFixed(p < 0.01 ? 4 : p < 0.1 ? 3 : 2)}`;
}

/** vᵀM⁻¹v of a small symmetric M. */
function quadratic(matrix: Float64Array, n: number, v: Float64Array): number {
  factorInPlace(matrix, n);
  const x: Float64Array = Float64Array.from(v);
  solveInPlace(matrix, n, x);
  return v.reduce((sum, vk, k) => sum + vk * x[k], 0);
}

/**
 * Tests whether S1, S2 or S3 is modulated by the year: refits at the same noise with cos and sin of the year times each line.
 *
 * @param steps  see `tideSteps`
 * @param pairs  pairs of the fit, in the order of `names`
 * @param names  names of the fitted lines
 * @param breaks see `tideRows`
 * @param fit    the fit whose noise is kept
 * @returns      `changes` null under 300 days; pValue is the smallest of the lines'
 */
export function seasonalTest(steps: TideSteps, pairs: readonly TidePair[], names: readonly string[], breaks: readonly number[], fit: FittedNoise): Seasonal {
  const { days } = fit.rows;
  if (days < leastDays) {
    const says = `The tide may change with the season; ${leastDays} days are needed to test it and there are ${Math.floor(days)}.`;
    return Object.freeze({ changes: null, says, pValue: null, lines: Object.freeze([]) });
  }
  const modulated = names.map((name, k) => ({ name, pair: pairs[k] })).filter((l) => tested.includes(l.name));
  const extra = modulated.flatMap(({ pair }): TidePair[] => [
    { ...pair, yearly: "cos" },
    { ...pair, yearly: "sin" },
  ]);
  const wide = fitAtNoise(steps, [...pairs, ...extra], breaks, fit.kind, fit.theta);
  const p = wide.rows.columns;
  const noise = lineNoise(wide.ratioAt, modulated.map((l) => l.pair.cyclesPerDay), pairs.map((l) => l.cyclesPerDay), days, 3, 22);
  const lines = modulated.map(({ name }, k) => {
    const at = wide.rows.smooth + 2 * pairs.length + 4 * k;
    const block: Float64Array = new Float64Array(16);
    for (let i = 0; i < 4; i++) for (let j = 0; j < 4; j++) block[4 * i + j] = noise[k].ratio * wide.sigma2 * wide.inverse[(at + i) * p + at + j];
    const f = quadratic(block, 4, wide.beta.subarray(at, at + 4)) / 4;
    return Object.freeze({ name, pValue: fourTail(f, 2 * noise[k].count) });
  });
  const changing = lines.filter((l) => l.pValue < level).map((l) => `${l.name}, p ${chanceText(l.pValue)}`);
  const least = Math.min(...lines.map((l) => l.pValue));
  const says =
    changing.length === 0
      ? `No change of the tide with the season stands out in these ${Math.floor(days)} days (smallest p ${chanceText(least)} of S1, S2 and S3, each tested at 1 %).`
      : `The tide changes with the season (${changing.join("; ")}): the numbers are the mean over the record, see the months.`;
  return Object.freeze({ changes: changing.length > 0, says, pValue: least, lines: Object.freeze(lines) });
}
