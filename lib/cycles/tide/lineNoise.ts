import type { NoiseRatioAt } from "./besideLines.js";

/** Noise that stands beside a line: sum of the ratios R, how many there were, and the degrees of freedom they give. */
export interface LineNoise {
  /** Mean ratio over the side frequencies: φ. */
  readonly ratio: number;
  /** Side frequencies it rests on (two degrees of freedom each); a stand-in where there are none. */
  readonly count: number;
}

/** Farthest side frequency from its line · cpd. */
const farthest = 0.4;

/** Distances j/T of the side frequencies that are clear of every other line, on both sides. */
function distances(f: number, days: number, all: readonly number[], from: number, to: number): number[] {
  const found: number[] = [];
  for (let j = from; j <= to && j / days <= farthest + 1e-9; j++) {
    const near = (side: number): boolean => all.some((other) => Math.abs(side - other) < 1.5 / days);
    if (!near(f + j / days) && !near(f - j / days)) found.push(j / days);
  }
  return found;
}

/**
 * Measures the noise beside each line: at f ± j/T, j = 2…20, not farther than 0.4 cpd, always on both sides.
 *
 * Fewer than four distances (records under 12 days): one ratio for all lines. None (under 5 days): ratio 1 with 4 T degrees
 * of freedom. A pair of side frequencies within 1.5/T of another fitted line is left out.
 *
 * @param ratioAt see `besideLines`
 * @param lines   frequencies for which it is wanted · cpd
 * @param all     frequencies of all fitted lines · cpd
 * @param days    T
 * @param from    first j, 2 or more: clear of the line itself · default 2
 * @param to      last j, default 20
 */
export function lineNoise(ratioAt: NoiseRatioAt, lines: readonly number[], all: readonly number[], days: number, from = 2, to = 20): LineNoise[] {
  const sums = lines.map((f) => {
    const sides = distances(f, days, all, from, to);
    return { sum: sides.reduce((total, d) => total + ratioAt(f + d) + ratioAt(f - d), 0), count: 2 * sides.length };
  });
  const pooled = sums.reduce((total, s) => ({ sum: total.sum + s.sum, count: total.count + s.count }), { sum: 0, count: 0 });
  return sums.map((own) => {
    const { sum, count } = own.count >= 8 ? own : pooled;
    return count === 0 ? { ratio: 1, count: 2 * days } : { ratio: sum / count, count };
  });
}
