import { describe, expect, it } from "vitest";
import { crossCorrelation, meanProduct } from "../../../lib/grid/crossCorrelation.js";
import { regularGrid } from "../../../lib/grid/regularGrid.js";
import { flagBit } from "../../../lib/record/flag.js";
import { series } from "../../../lib/record/series.js";
import { expectClose } from "../../close.js";

const start = Date.UTC(2024, 2, 1);
const log = (seconds: number[], values: (number | null)[], flags?: number[]) =>
  series({ times: seconds.map((s) => start + 1000 * s), values, quantity: "surface_air_pressure", place: "V", ...(flags ? { flags } : {}) });

describe("regularGrid at its edges", () => {
  it("takes the usual step of the densest series, an hour's gap to bridge and UTC days unless told otherwise", () => {
    const grid = regularGrid([log([0, 600, 1200], [1, 2, 3]), log([0, 300, 600], [4, 5, 6])]);
    expect(grid).toMatchObject({ start, stepSeconds: 300, length: 5 });
    expect([...grid.columns[0].values]).toEqual([1, 1.5, 2, 2.5, 3]);
    const hourGap = regularGrid(log([0, 3900], [0, 13]), { step: 300 }).columns[0];
    expect([...hourGap.filled]).toEqual([0, ...new Array<number>(12).fill(1), 0]);
    expect([...regularGrid(log([0, 4200], [0, 14]), { step: 300 }).columns[0].filled].some((f) => f === 1)).toBe(false);
    expect([...regularGrid(log([0, 4200], [0, 14]), { step: 300, fillUpTo: 3900 }).columns[0].values]).toEqual(Array.from({ length: 15 }, (_, k) => k));
    expect([...regularGrid(log([0, 600], [0, 2]), { step: 300, fillUpTo: 0 }).columns[0].values]).toEqual([0, Number.NaN, 2]);
  });

  it("one reading makes a grid of one day's step, and a series without readings leaves the step to the others", () => {
    expect(regularGrid(log([5], [1]))).toMatchObject({ start, stepSeconds: 86400, length: 1 });
    const grid = regularGrid([log([], []), log([0, 60, 120], [1, 2, 3])]);
    expect(grid).toMatchObject({ stepSeconds: 60, length: 3 });
    expect([...grid.columns[0].values]).toEqual([Number.NaN, Number.NaN, Number.NaN]);
    expect(grid.columns[0].coverage).toBe(0);
  });

  it("begins with the first reading, however late it comes after the series' start, and may hold one step alone", () => {
    const s = log([0, 300, 600], [1, 2, 3]);
    const later = { ...s, seconds: s.seconds.map((t) => t + 7200) };
    expect(regularGrid(later, { step: 300 })).toMatchObject({ start: start + 7200_000, length: 3 });
    expect(regularGrid(log([10, 290], [1, 2]), { step: 300 }).length).toBe(1);
  });

  it("a reading on a step's edge opens the step, whichever series begins first", () => {
    const grid = regularGrid([log([300, 600], [2, 3]), log([10, 290], [5, 7])], { step: 300, method: "none" });
    expect(grid).toMatchObject({ start, length: 3 });
    expect([...grid.columns[0].values]).toEqual([Number.NaN, 2, 3]);
    expect([...grid.columns[1].values]).toEqual([6, Number.NaN, Number.NaN]);
    expect([...grid.columns[1].instants]).toEqual([150, Number.NaN, Number.NaN]);
    expect([...grid.columns[0].instants]).toEqual([Number.NaN, 300, 600]);
  });

  it("bridges the instants with the values, and hands on place, quantity and unit", () => {
    const column = regularGrid(log([0, 600], [1, 3]), { step: 300 }).columns[0];
    expect([...column.instants]).toEqual([0, 300, 600]);
    expect(column).toMatchObject({ place: "V", quantity: "surface_air_pressure", unit: "hPa" });
    expectClose(column.coverage, 2 / 3, { absolute: 1e-15 });
    expect([Object.isFrozen(column), Object.isFrozen(regularGrid(log([0], [1]))), Object.isFrozen(regularGrid(log([0], [1])).columns)]).toEqual([true, true, true]);
  });

  it("a missing reading without a mark leaves no trace; one with a mark leaves the mark", () => {
    const column = regularGrid(log([0, 300, 600], [1, null, null], [0, 0, flagBit.range]), { step: 300, method: "none" }).columns[0];
    expect([...column.flags]).toEqual([0, 0, flagBit.range]);
    expect([...column.counts]).toEqual([1, 0, 0]);
  });

  it("refuses with its reasons, and says the longest it can lay", () => {
    expect(() => regularGrid(log([0, 32_000_000], [1, 2]), { step: 1 })).toThrow(new RangeError("regularGrid: step must leave at most 32000000 steps (got 1 s over 370.4 d)"));
    expect(() => regularGrid(log([0], [1]), { step: 0 })).toThrow("regularGrid: step must be positive (got 0 s)");
    expect(() => regularGrid(log([0], [1]), { step: Infinity })).toThrow("regularGrid: step must be positive (got Infinity s)");
    expect(() => regularGrid(log([0], [1]), { fillUpTo: 366 * 86400 + 1 })).toThrow("regularGrid: fillUpTo must be from 0 to 31622400 s (got 31622401 s)");
    expect(() => regularGrid(log([0], [1]), { method: 3 as never })).toThrow(new TypeError('regularGrid: method must be "line" or "none" (got 3)'));
    expect(() => regularGrid([])).toThrow("regularGrid: series must hold at least one reading (got none)");
  });
});

describe("crossCorrelation at its edges", () => {
  const a = [1, 2, 4, 3, 5, 7, 6, 8];
  const b = [2, 1, 3, 5, 4, 6, 8, 7];

  it("of eight pairs, by hand: r, its interval and p", () => {
    const [found] = crossCorrelation(a, b, { from: 0, to: 0 });
    // Both are 1…8 in another order: Σ(x − 4.5)² = 42, Σ(x − y)² = 14, r = 1 − 14/84; the autocorrelations' products pass no chance of 4/8.
    const r = 1 - 14 / 84;
    expect(found).toMatchObject({ lag: 0, pairs: 8, effectiveCount: 8 });
    expectClose(found.correlation!.value, r, { absolute: 1e-14 });
    expectClose(found.correlation!.low, Math.tanh(Math.atanh(r) - 1.959963984540054 / Math.sqrt(5)), { absolute: 1e-12 });
    expectClose(found.correlation!.high, Math.tanh(Math.atanh(r) + 1.959963984540054 / Math.sqrt(5)), { absolute: 1e-12 });
    expectClose(found.correlation!.standardError!, (1 - r * r) / Math.sqrt(5), { absolute: 1e-14 });
    expect(found.correlation!.unit).toBe("1");
    // scipy 1.10.1: pearsonr([1, 2, 4, 3, 5, 7, 6, 8], [2, 1, 3, 5, 4, 6, 8, 7]).
    // The law of t in use is good to some 1e-11.
    expectClose(found.pValue, 0.01017554012345684, { absolute: 1e-10 });
    expect(Object.isFrozen(found)).toBe(true);
  });

  it("a series against its mirror is −1 without error", () => {
    const [mirrored] = crossCorrelation(a, a.map((v) => -v), { from: 0, to: 0 });
    expectClose(mirrored.correlation!.value, -1, { absolute: 1e-15 });
    expect([mirrored.correlation!.low, mirrored.correlation!.high]).toEqual([mirrored.correlation!.value, mirrored.correlation!.value]);
  });

  it("answers at the lags asked, the longest included, and refuses what it cannot do", () => {
    const long = Array.from({ length: 60 }, (_, k) => Math.sin(k * k));
    expect(crossCorrelation(long, long).map((f) => f.lag)).toEqual(Array.from({ length: 49 }, (_, k) => k - 24));
    expect(crossCorrelation(a, b, { from: -7, to: 7 }).map((f) => f.pairs)).toEqual([1, 2, 3, 4, 5, 6, 7, 8, 7, 6, 5, 4, 3, 2, 1]);
    expect(Object.isFrozen(crossCorrelation(a, b, { from: 0, to: 0 }))).toBe(true);
    expect(() => crossCorrelation(a, b, { from: -8, to: 0 })).toThrow("crossCorrelation: from and to must stay within the 8 steps (got -8 and 0)");
    expect(() => crossCorrelation(a, b, { from: 0, to: 0.5 })).toThrow("crossCorrelation: from and to must be whole steps in order (got 0 and 0.5)");
    expect(() => crossCorrelation(a, b, { from: -0.5, to: 0 })).toThrow("crossCorrelation: from and to must be whole steps in order (got -0.5 and 0)");
    expect(() => crossCorrelation([1, Infinity], [1, 2], { from: 0, to: 0 })).toThrow("crossCorrelation: a must be finite or NaN (got Infinity at index 1)");
    expect(() => crossCorrelation([1, 2], [Infinity, 2], { from: 0, to: 0 })).toThrow("crossCorrelation: b must be finite or NaN (got Infinity at index 0)");
  });

  it("has no answer for four pairs, and one for five", () => {
    const [four] = crossCorrelation([1, 2, 4, 3], [2, 1, 4, 3], { from: 0, to: 0 });
    expect([four.correlation, four.pairs, four.effectiveCount, four.pValue]).toEqual([null, 4, 4, Number.NaN]);
    expect(crossCorrelation([1, 2, 4, 3, 5], [2, 1, 4, 5, 3], { from: 0, to: 0 })[0].correlation).not.toBe(null);
  });

  it("has no answer at a lag whose pairs do not vary, though the series does", () => {
    for (const n of [10, 12, 20, 33, 400]) {
      const late = Array.from({ length: n }, (_v, k) => (k === n - 1 ? 9.3 : 0.1));
      const wave = late.map((_v, k) => Math.sin(k * k + 1));
      for (const [one] of [crossCorrelation(late, wave, { from: 1, to: 1 }), crossCorrelation(wave, late, { from: -1, to: -1 })]) {
        expect([one.correlation, one.pValue, one.pairs], `${n} steps`).toEqual([null, Number.NaN, n - 1]);
      }
      expect(crossCorrelation(late, wave, { from: 0, to: 0 })[0].correlation).not.toBe(null);
    }
  });

  it("what rounding leaves of a large constant does not vary", () => {
    const rounded = a.map((_v, k) => 1e6 + (k % 2) * 2 ** -33);
    expect(new Set(rounded).size).toBe(2);
    expect(crossCorrelation(rounded, b, { from: 0, to: 0 })[0].correlation).toBe(null);
    expect(crossCorrelation(a.map((v) => 1e-9 * v), b, { from: 0, to: 0 })[0].correlation).not.toBe(null);
  });

  /** Sum of products of two autocorrelations, to a quarter of the record, while above chance, tapered by the pairs. */
  const sharedOf = (x: Float64Array, y: Float64Array, pairs: number): number => {
    const n = x.length;
    const scale = (v: Float64Array): Float64Array => {
      const mean = v.reduce((s, w) => s + w, 0) / n;
      const deviation = Math.sqrt(v.reduce((s, w) => s + (w - mean) ** 2, 0) / n);
      return v.map((w) => (w - mean) / deviation);
    };
    const [u, w] = [scale(x), scale(y)];
    let shared = 0;
    for (let j = 1; j <= Math.floor(n / 4); j++) {
      const product = meanProduct(u, u, j) * meanProduct(w, w, j);
      if (product <= 4 / n) break;
      if (j < pairs) shared += product * (1 - j / pairs);
    }
    return shared;
  };

  it("memory of both is counted against the pairs, until it is no more than chance, or a quarter of the record", () => {
    const n = 80;
    const wave = (of: (x: number) => number): Float64Array => Float64Array.from({ length: n }, (_v, k) => of((2 * Math.PI * k) / 40));
    const ramp = Float64Array.from({ length: n }, (_v, k) => k + Math.sin(k * k));
    const bent = Float64Array.from({ length: n }, (_v, k) => Math.sqrt(k + 1) + 0.1 * Math.cos(k * k));
    for (const [x, y, lags] of [[wave(Math.cos), wave(Math.sin), [0]], [ramp, bent, [0, 9, 70, 72]]] as const) {
      for (const lag of lags) {
        const shared = sharedOf(x, y, n - lag);
        expect(shared).toBeGreaterThan(1);
        expectClose(crossCorrelation(x, y, { from: lag, to: lag })[0].effectiveCount, (n - lag) / (1 + 2 * shared), { relative: 1e-12 }, `lag ${lag}`);
      }
    }
  });
});
