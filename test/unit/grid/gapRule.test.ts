import { describe, expect, it } from "vitest";
import { bridgeGaps, gaps } from "../../../lib/grid/gapRule.js";

const _ = Number.NaN;

describe("gaps", () => {
  it("lists runs of missing steps, those at the ends too", () => {
    expect(gaps([_, 1, _, _, 2, _])).toEqual([{ from: 0, to: 1 }, { from: 2, to: 4 }, { from: 5, to: 6 }]);
    expect(gaps([])).toEqual([]);
    expect(gaps([1, 2])).toEqual([]);
    expect(gaps([_, _])).toEqual([{ from: 0, to: 2 }]);
  });
});

describe("bridgeGaps", () => {
  it("bridges up to the longest gap and no further", () => {
    expect([...bridgeGaps([1, _, _, 4], 2).values]).toEqual([1, 2, 3, 4]);
    expect([...bridgeGaps([1, _, _, 4], 1).values]).toEqual([1, _, _, 4]);
    expect([...bridgeGaps([1, _, _, 4], 2).filled]).toEqual([0, 1, 1, 0]);
  });
  it("never fills the ends", () => {
    expect([...bridgeGaps([_, 1, 2, _], 9).values]).toEqual([_, 1, 2, _]);
  });
  it("0 bridges nothing, and the argument is unchanged", () => {
    const given = Object.freeze([1, _, 3]);
    expect([...bridgeGaps(given, 0).values]).toEqual([1, _, 3]);
    bridgeGaps(given, 5);
    expect(given).toEqual([1, _, 3]);
  });
  it("refuses a negative length", () => {
    expect(() => bridgeGaps([1], -1)).toThrow("bridgeGaps: longest must be from 0 to 9007199254740991 steps (got -1 steps)");
  });
});
