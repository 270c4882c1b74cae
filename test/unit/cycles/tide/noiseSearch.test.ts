import { describe, expect, it } from "vitest";
import type { NoiseTheta } from "../../../../lib/cycles/tide/bandedNoise.js";
import { noiseSearch } from "../../../../lib/cycles/tide/noiseSearch.js";
import { expectClose } from "../../../close.js";

const ridge = (at: readonly number[]): number => 0.01 * (at[0] ** 2 / 4 + at[1] ** 2 + (at[2] - 2.5) ** 2);
/** Functions whose search reflects, expands and contracts both ways. */
const valley = (a: readonly number[]): number => 30 * (a[1] + a[0] ** 2 / 9 - 1) ** 2 + (a[0] - 2) ** 2 + 2 * (a[2] - 3) ** 2;
const kinks = (a: readonly number[]): number => 5 * Math.abs(a[0] - 1.3) + 7 * Math.abs(a[1] + 0.4 * a[0]) + 3 * Math.abs(a[2] - 1 - a[0]);
const edge = (a: readonly number[]): number => (a[0] - 12) ** 2 + 3 * (a[1] + 1) ** 2 + (a[2] - 2) ** 2;
const bumps = (a: readonly number[]): number => (a[0] + 2) ** 2 + (a[1] - 0.3) ** 2 + (a[2] - 1) ** 2 + 3 * Math.cos(5 * a[0]) * Math.cos(6 * a[1]) * Math.cos(4 * a[2]);

/** So many hollows that the simplex has to shrink, three and two times. */
const hollows = (k: number) => (a: readonly number[]): number => (a[0] + 2) ** 2 + (a[1] - 0.3) ** 2 + (a[2] - 1) ** 2 + 6 * Math.cos(k * a[0]) * Math.cos(k * a[1]) * Math.cos(4 * a[2]);

/** Where it ends, and every point at which `f` was asked. */
function followed(f: (a: readonly number[]) => number, stop?: number, most?: number) {
  const asked: NoiseTheta[] = [];
  const found = noiseSearch(
    (theta) => {
      asked.push(theta);
      return f(theta);
    },
    undefined,
    stop,
    most,
  );
  return { ...found, asked };
}

describe("noiseSearch", () => {
  // scipy 1.x minimize(method="Nelder-Mead") from the same first simplex (best coarse point, and +1.5, +0.9, +1 along the axes), fatol = stop, xatol = inf.
  it.each([
    ["valley", valley, 0.02, [2.071100091837569, 0.5180406535603204, 2.987682511832614], 0.022003999359671567, 89],
    ["valley", valley, 1e-6, [1.9976340741205785, 0.5563327430441725, 2.99780419018491], 0.015566994396416364, 137],
    ["kinks", kinks, 0.02, [1.30327282124916, -0.5228673098527955, 2.2953465644483986], 0.05844917876047884, 122],
    ["edge", edge, 0.02, [9, -0.9130406526782835, 1.9469514254639742], 9.239394995112557, 84],
    ["bumps", bumps, 0.02, [-1.9000614943230822, 0.5213640088685698, 0.813384944181438], -2.838449300529516, 76],
    ["bumps", bumps, 1e-6, [-1.8877852405645839, 0.5193884329144056, 0.794756835894304], -2.8531080158561006, 144],
    ["hollows", hollows(8.5), 0.02, [-1.4885639996438504, 0.00028633975927727184, 0.7747042887880439], -5.534662112955705, 119],
    ["hollows", hollows(4.5), 0.02, [-2.0849629369587896, 0.702621910806045, 0.7966716076884548], -5.731796604611693, 87],
  ] as const)("ends where scipy's simplex ends: %s to %f", (_name, f, stop, theta, objective, evaluations) => {
    const found = followed(f, stop);
    theta.forEach((v, i) => {
      expectClose(found.theta[i], v, { absolute: 1e-9 }, `theta ${i}`);
    });
    expectClose(found.objective, objective, { absolute: 1e-10 });
    expect(found.evaluations).toBe(evaluations);
    // The last question is at the answer.
    expect(found.asked.at(-1)).toEqual(found.theta);
    expect(found.asked.length).toBe(evaluations + 1);
  });

  it("stops at 0.02 and after 160 evaluations unless told otherwise", () => {
    expect(followed(valley).evaluations).toBe(89);
    // Never the same twice: no simplex is ever flat.
    let turn = 0;
    const restless = (): number => 1000 * (turn++ % 7);
    const all = followed(restless, undefined, undefined).evaluations;
    expect(all >= 160 && all < 165).toBe(true);
    const few = followed(restless, 1e-9, 60).evaluations;
    expect(few >= 60 && few < 65).toBe(true);
  });

  it("asks at 36 coarse points first, of the screen where there is one, then at the best of them and a step along each axis", () => {
    const coarse = [-6, -3, 0, 4].flatMap((r) => [-2.5, -0.7, 0.8].flatMap((l) => [0.3, 2, 4.5].map((m) => [r, l, m])));
    const { asked } = followed(edge, Infinity);
    expect(asked.slice(0, 36)).toEqual(coarse);
    // The first of these three is the best of the simplex, and asked again at the end.
    expect(asked.slice(36)).toEqual([[5.5, -0.7, 2], [4, -0.7 + 0.9, 2], [4, -0.7, 3], [5.5, -0.7, 2]]);
    const [screened, exact]: [NoiseTheta[], NoiseTheta[]] = [[], []];
    const kept = (list: NoiseTheta[], f: (a: readonly number[]) => number) => (theta: NoiseTheta): number => {
      list.push(theta);
      return f(theta);
    };
    const found = noiseSearch(kept(exact, edge), kept(screened, valley), Infinity);
    expect(screened).toEqual(coarse);
    expect(exact.slice(0, 4)).toEqual([[4, -0.7, 2], [5.5, -0.7, 2], [4, -0.7 + 0.9, 2], [4, -0.7, 3]]);
    expect(found.evaluations).toBe(40);
    expect(exact.length).toBe(5);
  });

  it("what cannot be evaluated is very bad, and a function of one value ends by its ridge", () => {
    const hole = followed((a) => (a[0] < 1 ? Number.NaN : edge(a)));
    expectClose(hole.objective, 9.24, { absolute: 0.05 });
    const flat = followed(() => 7, 1e-9);
    expect(flat.theta.every((v, i) => Math.abs(v - [0, 0, 2.5][i]) < 0.05)).toBe(true);
    expectClose(flat.objective, 7 + ridge(flat.theta), { absolute: 1e-15 });
  });
});
