import { mustSentence, shown } from "./complaint.js";

/** Where a search ended. */
export interface Minimum {
  /** Best point met · [n]. */
  readonly at: readonly number[];
  /** The function there. */
  readonly value: number;
  /** Times the function was asked. */
  readonly evaluations: number;
  /** False when the search stopped because it had asked often enough. */
  readonly converged: boolean;
}

/** How Nelder and Mead's search begins and ends. */
export interface NelderMeadOptions {
  /** First step along each coordinate · [n] · not 0. */
  readonly steps: readonly number[];
  /** Stop when the simplex' worst value less its best is below this · unit of the function. */
  readonly tolerance: number;
  /** No new step begins after this many evaluations; the last step may pass it by n + 1. */
  readonly evaluations: number;
  /** The function at the start, where it is known already: saves one evaluation. */
  readonly startValue?: number;
}

/**
 * Lowest point of a function of a few variables, by Nelder and Mead's simplex, without derivatives.
 *
 * Factors 1 (reflect), 2 (expand), ½ (contract, on the better side of the worst point), ½ (shrink to the best). The same
 * call gives the same answer. It finds a valley near the start, not the deepest one: start from the best of a coarse table.
 *
 * @param f       function of a point [n]; NaN counts as infinitely high; it must not keep or change the point
 * @param start   first point · [n] · finite
 * @param options see NelderMeadOptions
 * @returns       see Minimum, frozen
 * @throws RangeError when lengths differ, a step is 0, or tolerance or evaluations are not positive
 * @example nelderMead(([x, y]) => (x - 1) ** 2 + (y + 2) ** 2, [0, 0], { steps: [1, 1], tolerance: 1e-12, evaluations: 500 }).at // 1.0000, -2.0000
 * @source J. A. Nelder and R. Mead, Computer Journal 7 (1965) 308, in the form of Lagarias et al. (1998); from memory
 */
export function nelderMead(f: (point: readonly number[]) => number, start: readonly number[], options: NelderMeadOptions): Minimum {
  const { steps, tolerance, evaluations: most, startValue } = options;
  const n = start.length;
  requireSearch("nelderMead", tolerance, most);
  if (n === 0 || !start.every(Number.isFinite)) throw new RangeError(mustSentence("nelderMead", "start", "be one or more finite numbers", `${start}`));
  if (steps.length !== n || !steps.every((s) => Number.isFinite(s) && s !== 0)) {
    throw new RangeError(mustSentence("nelderMead", "steps", `be ${n} finite numbers other than 0`, `${steps}`));
  }
  let evaluations = 0;
  const ask = (x: number[]): Corner => {
    evaluations++;
    return { x, value: height(f(x)) };
  };
  const simplex: Corner[] = [startValue === undefined ? ask([...start]) : { x: [...start], value: height(startValue) }];
  for (let j = 0; j < n; j++) simplex.push(ask(start.map((v, i) => (i === j ? v + steps[j] : v))));
  const byHeight = (a: Corner, b: Corner): number => (a.value === b.value ? 0 : a.value - b.value);
  simplex.sort(byHeight);
  // Written so that an infinitely high corner (Infinity − Infinity is NaN) keeps the search going.
  const isFlat = (): boolean => simplex[n].value - simplex[0].value < tolerance;
  while (!isFlat() && evaluations < most) {
    const worst = simplex[n];
    const center = worst.x.map((_, i) => simplex.slice(0, n).reduce((sum, c) => sum + c.x[i], 0) / n);
    const along = (factor: number): Corner => ask(center.map((c, i) => c + factor * (c - worst.x[i])));
    const mirrored = along(1);
    let taken: Corner | null = null;
    if (mirrored.value < simplex[0].value) {
      const farther = along(2);
      taken = farther.value < mirrored.value ? farther : mirrored;
    } else if (mirrored.value < simplex[n - 1].value) {
      taken = mirrored;
    } else if (mirrored.value < worst.value) {
      const outside = along(0.5);
      if (outside.value <= mirrored.value) taken = outside;
    } else {
      const inside = along(-0.5);
      if (inside.value < worst.value) taken = inside;
    }
    if (taken !== null) simplex[n] = taken;
    else for (let k = 1; k <= n; k++) simplex[k] = ask(simplex[k].x.map((v, i) => simplex[0].x[i] + 0.5 * (v - simplex[0].x[i])));
    simplex.sort(byHeight);
  }
  return Object.freeze({ at: Object.freeze(simplex[0].x), value: simplex[0].value, evaluations, converged: isFlat() });
}

/**
 * Lowest point of a function of one variable between two ends, by golden section.
 *
 * Right where the function falls and then rises; with several valleys it finds one of them. Near the bottom a smooth function
 * tells points apart only to about 1e-8 of their size: ask for no more.
 *
 * @param f                   function of one number; NaN counts as infinitely high
 * @param low, high           ends · low < high
 * @param options.tolerance   width of the last bracket, in the variable's unit
 * @param options.evaluations cap, default 200
 * @returns                   see Minimum, frozen; `at` holds one number
 * @throws RangeError when the ends are not in order, or tolerance or evaluations are not positive
 * @example goldenSection((x) => (x - 2) ** 2, 0, 5, { tolerance: 1e-6 }).at[0] // 2.000000
 * @source J. Kiefer, Proc. Amer. Math. Soc. 4 (1953) 502; from memory
 */
export function goldenSection(f: (x: number) => number, low: number, high: number, options: { tolerance: number; evaluations?: number }): Minimum {
  const { tolerance, evaluations: most = 200 } = options;
  requireSearch("goldenSection", tolerance, most);
  if (!(Number.isFinite(low) && Number.isFinite(high) && low < high)) {
    throw new RangeError(mustSentence("goldenSection", "low, high", "be finite and in order", `${low}, ${high}`));
  }
  const golden = (Math.sqrt(5) - 1) / 2;
  let [a, b] = [low, high];
  let [x1, x2] = [b - golden * (b - a), a + golden * (b - a)];
  let [f1, f2] = [height(f(x1)), height(f(x2))];
  let evaluations = 2;
  while (b - a > tolerance && evaluations < most) {
    if (f1 < f2) {
      [b, x2, f2] = [x2, x1, f1];
      x1 = b - golden * (b - a);
      f1 = height(f(x1));
    } else {
      [a, x1, f1] = [x1, x2, f2];
      x2 = a + golden * (b - a);
      f2 = height(f(x2));
    }
    evaluations++;
  }
  const [at, value] = f1 < f2 ? [x1, f1] : [x2, f2];
  return Object.freeze({ at: Object.freeze([at]), value, evaluations, converged: b - a <= tolerance });
}

interface Corner {
  readonly x: number[];
  readonly value: number;
}

const height = (value: number): number => (Number.isNaN(value) ? Infinity : value);

function requireSearch(at: string, tolerance: number, evaluations: number): void {
  if (!(tolerance > 0)) throw new RangeError(mustSentence(at, "tolerance", "be positive", shown(tolerance)));
  if (!(evaluations > 0)) throw new RangeError(mustSentence(at, "evaluations", "be positive", shown(evaluations)));
}
