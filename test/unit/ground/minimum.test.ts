import { describe, expect, it } from "vitest";
import { goldenSection, nelderMead } from "../../../lib/ground/minimum.js";
import { expectClose } from "../../close.js";

const fine = { tolerance: 1e-14, evaluations: 5000 };

/** Known minima, value and place. */
const valleys: { name: string; f: (x: readonly number[]) => number; start: number[]; at: number[]; value: number }[] = [
  { name: "bowl in one", f: ([x]) => 3 + (x - 2) ** 2, start: [0], at: [2], value: 3 },
  { name: "Rosenbrock's bent valley", f: ([x, y]) => 100 * (y - x * x) ** 2 + (1 - x) ** 2, start: [-1.2, 1], at: [1, 1], value: 0 },
  { name: "Himmelblau, the valley near the start", f: ([x, y]) => (x * x + y - 11) ** 2 + (x + y * y - 7) ** 2, start: [2.5, 1.5], at: [3, 2], value: 0 },
  { name: "Booth", f: ([x, y]) => (x + 2 * y - 7) ** 2 + (2 * x + y - 5) ** 2, start: [0, 0], at: [1, 3], value: 0 },
  { name: "stretched bowl in three", f: ([x, y, z]) => (x - 1) ** 2 + 50 * (y + 2) ** 2 + 0.1 * (z - 3) ** 2 - 4, start: [0, 0, 0], at: [1, -2, 3], value: -4 },
  { name: "four, with a ridge", f: ([a, b, c, d]) => (a + b) ** 2 + (b - c - 1) ** 2 + (c + d) ** 2 + (d - 2) ** 2 * 3, start: [1, 1, 1, 1], at: [1, -1, -2, 2], value: 0 },
];

describe("nelderMead", () => {
  for (const { name, f, start, at, value } of valleys) {
    it(`finds the bottom of: ${name}`, () => {
      const got = nelderMead(f, Object.freeze(start), { ...fine, steps: start.map((_, i) => 1 - 0.1 * i) });
      expect(got.converged).toBe(true);
      expectClose(got.value, value, { absolute: 1e-11 });
      for (let i = 0; i < at.length; i++) expectClose(got.at[i], at[i], { absolute: 2e-5 }, "a flat bottom hides the square root of the value");
      expect(f(got.at)).toBe(got.value);
    });
  }

  it("walks as written down by hand on a slope: mirror, then twice as far", () => {
    const asked: number[][] = [];
    const slope = (x: readonly number[]): number => {
      asked.push([...x]);
      return x[0] + 10 * x[1];
    };
    nelderMead(slope, [0, 0], { steps: [1, 1], tolerance: 1e-9, evaluations: 5 });
    // Corners (0,0)=0, (1,0)=1, (0,1)=10; the center of the better two is (½, 0), the worst (0, 1).
    expect(asked).toEqual([[0, 0], [1, 0], [0, 1], [1, -1], [1.5, -2]]);
  });

  it("contracts on the better side and shrinks to the best", () => {
    const path = (values: Record<string, number>, most: number): string[] => {
      const asked: string[] = [];
      const told = (x: readonly number[]): number => {
        asked.push(`${x}`);
        return values[`${x}`] ?? 100;
      };
      nelderMead(told, [0, 0], { steps: [2, 2], tolerance: 1e-9, evaluations: most });
      return asked.slice(3);
    };
    const start = { "0,0": 0, "2,0": 1, "0,2": 3 };
    expect(path({ ...start, "2,-2": 2, "1.5,-1": 1.5 }, 5)).toEqual(["2,-2", "1.5,-1"]);
    expect(path({ ...start, "2,-2": 5, "0.5,1": 2.5 }, 5)).toEqual(["2,-2", "0.5,1"]);
    expect(path({ ...start, "2,-2": 5, "0.5,1": 4 }, 6)).toEqual(["2,-2", "0.5,1", "1,0", "0,1"]);
    expect(path({ ...start, "2,-2": 2, "1.5,-1": 2.5 }, 6)).toEqual(["2,-2", "1.5,-1", "1,0", "0,1"]);
  });

  it("stops at the height difference asked, counts, and saves the start's evaluation", () => {
    let count = 0;
    const bowl = (x: readonly number[]): number => {
      count++;
      return x[0] ** 2 + 4 * x[1] ** 2;
    };
    const loose = nelderMead(bowl, [3, 2], { steps: [1.5, 0.9], tolerance: 0.02, evaluations: 124 });
    expect(loose.evaluations).toBe(count);
    expect(loose).toMatchObject({ converged: true });
    expect(loose.value).toBeLessThan(0.02);
    count = 0;
    const known = nelderMead(bowl, [3, 2], { steps: [1.5, 0.9], tolerance: 0.02, evaluations: 124, startValue: 25 });
    expect(known.evaluations).toBe(count);
    expect([known.evaluations, known.value]).toEqual([loose.evaluations - 1, loose.value]);
    const short = nelderMead(bowl, [3, 2], { steps: [1.5, 0.9], tolerance: 1e-12, evaluations: 10 });
    expect(short.converged).toBe(false);
    expect(short.evaluations).toBeLessThanOrEqual(13);
  });

  it("walks around places where the function is NaN", () => {
    const got = nelderMead(([x, y]) => (x < 0 ? Number.NaN : (Math.sqrt(x) - 1) ** 2 + y * y), [0.2, 1], { ...fine, steps: [-1, 1] });
    expectClose(got.at[0], 1, { absolute: 1e-5 });
    expect(nelderMead(() => Number.NaN, [1], { steps: [1], tolerance: 1, evaluations: 9 })).toMatchObject({ value: Infinity, converged: false });
  });

  it("refuses with a sentence", () => {
    const f = (): number => 0;
    expect(() => nelderMead(f, [1, 2], { ...fine, steps: [1] })).toThrow(new RangeError("nelderMead: steps must be 2 finite numbers other than 0 (got 1)"));
    expect(() => nelderMead(f, [1, 2], { ...fine, steps: [1, 0] })).toThrow("steps must be 2 finite numbers other than 0 (got 1,0)");
    expect(() => nelderMead(f, [], { ...fine, steps: [] })).toThrow("nelderMead: start must be one or more finite numbers (got )");
    expect(() => nelderMead(f, [Number.NaN], { ...fine, steps: [1] })).toThrow("nelderMead: start must be one or more finite numbers (got NaN)");
    expect(() => nelderMead(f, [1], { steps: [1], tolerance: 0, evaluations: 5 })).toThrow("nelderMead: tolerance must be positive (got 0)");
    expect(() => nelderMead(f, [1], { steps: [1], tolerance: 1, evaluations: Number.NaN })).toThrow("nelderMead: evaluations must be positive (got NaN)");
  });
});

describe("goldenSection", () => {
  it("finds known minima", () => {
    const cases: [(x: number) => number, number, number, number][] = [
      [(x) => (x - 2) ** 2, 0, 5, 2],
      [Math.cos, 0, 6, Math.PI],
      [(x) => x * Math.log(x), 0.01, 2, Math.exp(-1)],
      [(x) => Math.abs(x + 0.3), -1, 8, -0.3],
      [(x) => x, 1, 4, 1],
      [(x) => -x, 1, 4, 4],
    ];
    for (const [f, low, high, at] of cases) {
      const got = goldenSection(f, low, high, { tolerance: 1e-7 });
      expectClose(got.at[0], at, { absolute: 1.1e-7 }, "width of the last bracket");
      expect(got.converged).toBe(true);
      expect(got.value).toBe(f(got.at[0]));
    }
  });

  it("needs the evaluations that the golden ratio says, and stops at the cap", () => {
    const bracket = Math.ceil(Math.log(1e-6) / Math.log((Math.sqrt(5) - 1) / 2));
    expect(goldenSection((x) => x * x, -0.4, 0.6, { tolerance: 1e-6 }).evaluations).toBe(bracket + 2);
    expect(goldenSection((x) => x * x, -1, 1, { tolerance: 1e-9, evaluations: 10 })).toMatchObject({ evaluations: 10, converged: false });
  });

  it("refuses ends out of order", () => {
    expect(() => goldenSection((x) => x, 2, 1, { tolerance: 1 })).toThrow(new RangeError("goldenSection: low, high must be finite and in order (got 2, 1)"));
    expect(() => goldenSection((x) => x, Number.NaN, 1, { tolerance: 1 })).toThrow("goldenSection: low, high must be finite and in order (got NaN, 1)");
    expect(() => goldenSection((x) => x, 0, 1, { tolerance: -1 })).toThrow("goldenSection: tolerance must be positive (got -1)");
  });
});
