import { describe, expect, it } from "vitest";
import { movingBackground } from "../../../lib/grid/movingBackground.js";
import { passed, passFilter, passResponse } from "../../../lib/grid/passFilter.js";

const _ = Number.NaN;
const flat = (n: number): number[] => new Array<number>(n).fill(5);

describe("passFilter at its edges", () => {
  it("says what it is made of, with a step of an hour and a reach of one and a half cuts unless told otherwise", () => {
    const low = passFilter({ longerThan: 2 });
    expect(low).toMatchObject({ longerThan: 2, shorterThan: null, stepHours: 1, slow: null });
    expect(low.quick).toMatchObject({ cutDays: 2, halfDays: 3, stepHours: 1 });
    const band = passFilter({ longerThan: 1, shorterThan: 4, stepHours: 0.5, reach: 2 });
    expect(band.quick).toMatchObject({ cutDays: 1, halfDays: 2, stepHours: 0.5 });
    expect(band.slow).toMatchObject({ cutDays: 4, halfDays: 8, stepHours: 0.5 });
    expect(passFilter({ shorterThan: 4 })).toMatchObject({ longerThan: null, quick: null, shorterThan: 4 });
    expect(Object.isFrozen(low)).toBe(true);
  });

  it("accepts its limits, and cuts that nearly touch", () => {
    for (const reach of [0.5, 10]) expect(passFilter({ longerThan: 1, reach }).quick!.halfDays).toBe(reach);
    expect(() => passFilter({ longerThan: 1, reach: 10.1 })).toThrow("passFilter: reach must be from 0.5 to 10 (got 10.1)");
    expect(passFilter({ longerThan: 4 / 24 }).quick!.cutDays).toBe(4 / 24);
    expect(passFilter({ longerThan: 4.9, shorterThan: 5 }).shorterThan).toBe(5);
    expect(() => passFilter({ longerThan: 6, shorterThan: 5 })).toThrow("passFilter: longerThan must be below shorterThan, 5 d (got 6 d)");
    expect(() => passFilter({ shorterThan: 0.5, stepHours: 6 })).toThrow("passFilter: shorterThan must be from 1 to 36600 d (got 0.5 d)");
  });

  it("a filter that holds back nothing quick passes the quickest, one that holds back nothing slow the mean", () => {
    expect(Math.abs(passResponse(passFilter({ shorterThan: 2 }), 0.1) - 1)).toBeLessThan(0.01);
    expect(Math.abs(passResponse(passFilter({ shorterThan: 2 }), 1e7))).toBeLessThan(1e-9);
  });
});

describe("passed at its edges", () => {
  const unsure = (n: number, band: { longerThan?: number; shorterThan?: number; stepHours?: number }): number[] => [...passed(passFilter(band), flat(n)).isUnsure];

  it("half of the shorter cut is unsure at each end, in steps of any length", () => {
    expect(passed(passFilter({ longerThan: 0.5, shorterThan: 2 }), flat(50)).unsureSteps).toBe(6);
    expect(passed(passFilter({ shorterThan: 2 }), flat(50)).unsureSteps).toBe(24);
    expect(passed(passFilter({ longerThan: 1, stepHours: 3 }), flat(50)).unsureSteps).toBe(4);
    expect(unsure(10, { longerThan: 1, stepHours: 3 })).toEqual([1, 1, 1, 1, 0, 0, 1, 1, 1, 1]);
    expect(unsure(7, { longerThan: 1, stepHours: 3 })).toEqual([1, 1, 1, 1, 1, 1, 1]);
  });

  it("what is flat stays flat, or nothing", () => {
    for (const v of passed(passFilter({ longerThan: 0.5 }), flat(30)).values) expect(Math.abs(v - 5)).toBeLessThan(1e-12);
    for (const v of passed(passFilter({ shorterThan: 0.5 }), flat(30)).values) expect(Math.abs(v)).toBeLessThan(1e-12);
  });

  it("a gap as long as half the cut stays bridged, one step more is left open, and only there", () => {
    const filter = passFilter({ longerThan: 0.5 });
    const holed = (from: number, to: number): number[] => flat(40).map((v, i) => (i >= from && i < to ? _ : v));
    const six = passed(filter, holed(15, 21));
    expect(six.values.every((v) => !Number.isNaN(v))).toBe(true);
    expect([...six.isUnsure].slice(14, 22)).toEqual([0, 1, 1, 1, 1, 1, 1, 0]);
    const seven = passed(filter, holed(15, 22));
    expect([...seven.values].map((v, i) => (Number.isNaN(v) ? i : -1)).filter((i) => i >= 0)).toEqual([15, 16, 17, 18, 19, 20, 21]);
    // Two gaps, and a missing start that shifts them.
    const both = passed(filter, [_, _, ...holed(10, 17).map((v, i) => (i >= 20 && i < 22 ? _ : v)), _]);
    expect([...both.values].map((v, i) => (Number.isNaN(v) ? i : -1)).filter((i) => i >= 0)).toEqual([0, 1, 12, 13, 14, 15, 16, 17, 18, 42]);
    expect([both.isUnsure[0], both.isUnsure[2], both.isUnsure[7], both.isUnsure[8], both.isUnsure[21], both.isUnsure[22], both.isUnsure[23], both.isUnsure[24], both.isUnsure[42]]).toEqual([0, 1, 1, 0, 0, 1, 1, 0, 0]);
    expect(Object.isFrozen(both)).toBe(true);
  });
});

describe("movingBackground at its edges", () => {
  it("an even window looks one step further back than forward", () => {
    expect([...movingBackground([1, 2, 4, 8], 2)]).toEqual([1, 1.5, 3, 6]);
    expect([...movingBackground([1, 2, 4, 8], 2, { ends: "shift" })]).toEqual([1.5, 1.5, 3, 6]);
    expect([...movingBackground([1, 2, 4, 8], 4, { ends: "shift" })]).toEqual([3.75, 3.75, 3.75, 3.75]);
    expect([...movingBackground([1, 2, 4, 8], 9, { ends: "shift" })]).toEqual([3.75, 3.75, 3.75, 3.75]);
  });

  it("the least share counts steps of the whole window, also where it is cut", () => {
    const values = [1, _, 3, 5];
    expect([...movingBackground(values, 3, { least: 2 / 3 })]).toEqual([_, 2, 4, 4]);
    expect([...movingBackground(values, 3, { least: 1 })]).toEqual([_, _, _, _]);
    expect([...movingBackground([1, 2, 3], 3, { least: 1 })]).toEqual([_, 2, _]);
    expect([...movingBackground([_, _, 3], 1, { least: 0 })]).toEqual([_, _, 3]);
  });

  it("keeps a tenth of a hectopascal beside a level of ten to the ninth", () => {
    const far = [1e9, 1e9 + 0.125, 1e9 + 0.25, 1e9 + 0.375];
    expect([...movingBackground(far, 2)].map((v) => v - 1e9)).toEqual([0, 0.0625, 0.1875, 0.3125]);
    // The level is taken from the first value present.
    expect([...movingBackground([_, ...far], 2)].map((v) => v - 1e9)).toEqual([_, 0, 0.0625, 0.1875, 0.3125]);
  });

  it("loses no digits to the level over a long record", () => {
    // A running sum of 20 000 values near 10⁹ would be rounded by 0.002.
    const departure = (i: number): number => Math.sin(i * i);
    const got = movingBackground(Float64Array.from({ length: 20_000 }, (_v, i) => 1e9 + departure(i)), 10);
    for (const i of [10, 9_999, 15_000, 19_990]) {
      let sum = 0;
      for (let k = i - 5; k < i + 5; k++) sum += departure(k);
      // Readings near 10⁹ are rounded to 10⁻⁷.
      expect(Math.abs(got[i] - 1e9 - sum / 10), `step ${i}`).toBeLessThan(1e-6);
    }
  });

  it("refuses a width that is none, whole windows outside 0…1, and infinity", () => {
    expect(() => movingBackground([1], 1.5)).toThrow("movingBackground: width must be a whole number of steps above 0 (got 1.5)");
    expect(() => movingBackground([1], -1)).toThrow("movingBackground: width must be a whole number of steps above 0 (got -1)");
    expect(() => movingBackground([1], 1, { least: -0.1 })).toThrow("movingBackground: least must be from 0 to 1 (got -0.1)");
    expect(() => movingBackground([1, 2], 1, { ends: "mirror" as never })).toThrow(TypeError);
    expect(() => movingBackground([1, Infinity], 1)).toThrow("movingBackground: values must be finite or NaN (got Infinity at index 1)");
  });
});
