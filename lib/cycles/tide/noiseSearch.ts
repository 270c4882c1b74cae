import type { NoiseTheta } from "./bandedNoise.js";

/** Where a noise search ended. */
export interface FoundNoise {
  /** The best point, inside the box. */
  readonly theta: NoiseTheta;
  /** −2 restricted log likelihood plus the ridge there. */
  readonly objective: number;
  readonly evaluations: number;
}

const low: NoiseTheta = [-9, -5, -1.2];
const high: NoiseTheta = [9, 3, 5.5];
const coarse: readonly (readonly number[])[] = [
  [-6, -3, 0, 4],
  [-2.5, -0.7, 0.8],
  [0.3, 2, 4.5],
];
const firstSteps: NoiseTheta = [1.5, 0.9, 1];

/** The nearest point inside the box. */
function inside(theta: readonly number[]): NoiseTheta {
  return [0, 1, 2].map((i) => Math.min(high[i], Math.max(low[i], theta[i]))) as unknown as NoiseTheta;
}

/** Lets flat directions end somewhere. */
function ridge(at: NoiseTheta): number {
  return 0.01 * (at[0] ** 2 / 4 + at[1] ** 2 + (at[2] - 2.5) ** 2);
}

interface Vertex {
  readonly at: readonly number[];
  readonly value: number;
}

/**
 * Finds the three noise numbers: the best of 36 coarse points, then Nelder and Mead's simplex in a box.
 *
 * A weak ridge 0.01·[(ln ρ)²/4 + (ln λ)² + (ln μ − 2.5)²] lets flat directions end somewhere. Outside the box the nearest
 * point inside is taken and the squared sum of the distances added.
 *
 * The last evaluation is at the point returned, so that whatever `evaluate` leaves behind belongs to it.
 *
 * @param evaluate −2 restricted log likelihood at a point inside the box; NaN is taken as very bad
 * @param screen   evaluates the coarse points instead, for instance on a part of a long record
 * @param stop     stop when the simplex differs by less than this · default 0.02 (coefficients then move < 0.002 standard errors)
 * @param most     most evaluations, coarse ones included · default 160
 */
export function noiseSearch(evaluate: (theta: NoiseTheta) => number, screen: (theta: NoiseTheta) => number = evaluate, stop = 0.02, most = 160): FoundNoise {
  let evaluations = 0;
  const vertex = (theta: readonly number[], by = evaluate): Vertex => {
    evaluations++;
    const at = inside(theta);
    let away = 0;
    for (let i = 0; i < 3; i++) away += Math.abs(theta[i] - at[i]);
    const value = by(at) + ridge(at) + away * away;
    return { at: theta, value: Number.isNaN(value) ? 1e300 : value };
  };
  let start: Vertex = { at: [coarse[0][0], coarse[1][0], coarse[2][0]], value: Infinity };
  for (const r of coarse[0]) {
    for (const l of coarse[1]) {
      for (const m of coarse[2]) {
        const point = vertex([r, l, m], screen);
        if (point.value < start.value) start = point;
      }
    }
  }
  if (screen !== evaluate) start = vertex(start.at);
  const simplex = [start, ...[0, 1, 2].map((i) => vertex(start.at.map((x, k) => (k === i ? x + firstSteps[k] : x))))];
  const order = (): void => void simplex.sort((a, b) => a.value - b.value);
  order();
  while (simplex[3].value - simplex[0].value >= stop && evaluations < most) {
    const middle = [0, 1, 2].map((k) => (simplex[0].at[k] + simplex[1].at[k] + simplex[2].at[k]) / 3);
    const along = (factor: number): Vertex => vertex(middle.map((m, k) => m + factor * (simplex[3].at[k] - m)));
    const reflected = along(-1);
    if (reflected.value < simplex[0].value) {
      const expanded = along(-2);
      simplex[3] = expanded.value < reflected.value ? expanded : reflected;
    } else if (reflected.value < simplex[2].value) simplex[3] = reflected;
    else {
      const outer = reflected.value < simplex[3].value;
      const contracted = along(outer ? -0.5 : 0.5);
      if (contracted.value < (outer ? reflected.value : simplex[3].value)) simplex[3] = contracted;
      else {
        for (let i = 1; i < 4; i++) simplex[i] = vertex(simplex[i].at.map((x, k) => simplex[0].at[k] + 0.5 * (x - simplex[0].at[k])));
      }
    }
    order();
  }
  const theta = inside(simplex[0].at);
  return { theta, objective: evaluate(theta) + ridge(theta), evaluations };
}
