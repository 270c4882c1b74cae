import { describe, expect, it } from "vitest";
import { isVarying, meanSquare, varianceRatio } from "../../../lib/indoors/varianceRatio.js";
import { expectClose } from "../../close.js";
import { madeInside, madeOutside } from "./madeRecord.js";

const _ = Number.NaN;
const flat = (v: number): Float64Array => new Float64Array(480).fill(v);

describe("varianceRatio", () => {
  it("of a scaled copy is the square of the scale, without an error", () => {
    const outside = madeOutside(480, 61);
    const found = varianceRatio(outside.map((v) => 3 - 0.5 * v), outside);
    expectClose(found.ratio!.value, 0.25, { relative: 1e-12 });
    expectClose(found.ratio!.low, 0.25, { relative: 1e-6 });
    expectClose(found.ratio!.high, 0.25, { relative: 1e-6 });
    expect(found).toMatchObject({ hours: 480, of: "departures from the 5-day running mean", ratio: { unit: "1" } });
    expect(Object.isFrozen(found)).toBe(true);
  });

  it("its interval is even on a scale of logarithms, and the ratio turned over has it turned over", () => {
    const outside = madeOutside(480, 62);
    const inside = madeInside(outside, 8, 63).map((v, h) => (h === 77 ? _ : v));
    const [there, back] = [varianceRatio(inside, outside), varianceRatio(outside, inside)];
    const { value, standardError, low, high } = there.ratio!;
    expectClose(high / value, value / low, { relative: 1e-9 });
    expectClose(standardError, value * there.standardErrorOfLog, { relative: 1e-12 });
    expectClose(back.ratio!.value, 1 / value, { relative: 1e-9 });
    expectClose(back.ratio!.high, 1 / low, { relative: 1e-9 });
    expectClose(back.standardErrorOfLog, there.standardErrorOfLog, { relative: 1e-9 });
    expect(high / value).toBeGreaterThan(Math.exp(1.96 * there.standardErrorOfLog));
    expect(there.hours).toBe(479);
  });

  it("is null where a place does not vary, or under six days", () => {
    const outside = madeOutside(480, 64);
    for (const found of [varianceRatio(flat(20.1), outside), varianceRatio(outside, flat(20.1)), varianceRatio(outside.subarray(0, 120), outside.subarray(0, 120))]) {
      expect([found.ratio, found.standardErrorOfLog, Object.isFrozen(found)]).toEqual([null, _, true]);
    }
    expect(varianceRatio(outside.subarray(0, 121), outside.subarray(0, 121)).ratio).not.toBe(null);
    expect(() => varianceRatio(outside, outside.subarray(1))).toThrow("varianceRatio: outside must have the length of inside, 480 h (got 479 h)");
  });

  it("mean squares leave out what is missing; varying is more than a billionth of the largest value, of one at least", () => {
    expect(meanSquare(Float64Array.of(3, _, 4))).toBe(12.5);
    for (const [variance, values, is] of [[(1.1e-9 * 50) ** 2, [3, -50], true], [(0.9e-9 * 50) ** 2, [3, -50], false], [(1.1e-9) ** 2, [0.1], true], [(0.9e-9) ** 2, [0.1], false], [(1.1e-9 * 7) ** 2, [_, 7], true], [(0.9e-9 * 7) ** 2, [7, _], false]] as const) {
      expect(isVarying(variance, values), `${variance} of ${values}`).toBe(is);
    }
  });
});
