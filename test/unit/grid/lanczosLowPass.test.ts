import { describe, expect, it } from "vitest";
import { bridgedHours } from "../../../lib/grid/bridgedHours.js";
import { lanczosLowPass, lowPassResponse, runLowPass } from "../../../lib/grid/lanczosLowPass.js";
import { RecordError } from "../../../lib/ground/complaint.js";
import { expectClose } from "../../close.js";

describe("lanczosLowPass", () => {
  it("has a weight for each step to half its length, in the steps asked", () => {
    expect(lanczosLowPass(2, 3).weights.length).toBe(73);
    expect(lanczosLowPass(2, 3, 0.5).weights.length).toBe(145);
    expect(lanczosLowPass(10, 5, 6).weights.length).toBe(21);
    expect(lanczosLowPass(2, 3)).toMatchObject({ cutDays: 2, halfDays: 3, stepHours: 1 });
    expect(Object.isFrozen(lanczosLowPass(2, 3))).toBe(true);
  });

  it("a filter of one step to each side, worked out by hand", () => {
    // Cut 4 steps: sinc(2/4) = 2/π, times the window sinc(1/2) = 2/π again; the sum of the three is made 1.
    const w = (2 / Math.PI) ** 2;
    const { weights } = lanczosLowPass(4 / 24, 1 / 24);
    expectClose(weights[0], 1 / (1 + 2 * w), { absolute: 1e-15 });
    expectClose(weights[1], w / (1 + 2 * w), { absolute: 1e-15 });
    // A wave of two steps turns sign at each: w₀ − 2 w₁; one of four steps has the neighbors at zero.
    expectClose(lowPassResponse(lanczosLowPass(4 / 24, 1 / 24), 2 / 24), (1 - 2 * w) / (1 + 2 * w), { absolute: 1e-14 });
    expectClose(lowPassResponse(lanczosLowPass(4 / 24, 1 / 24), 4 / 24), 1 / (1 + 2 * w), { absolute: 1e-14 });
  });

  it("accepts its limits and refuses what lies beyond", () => {
    expect(lanczosLowPass(1, 1, 1 / 3600).weights.length).toBe(86401);
    expect(lanczosLowPass(36600, 366, 24 * 366).weights.length).toBe(2);
    expect(() => lanczosLowPass(2, 3, 0)).toThrow("lanczosLowPass: stepHours must be from 0.0002777777777777778 to 8784 h (got 0 h)");
    expect(() => lanczosLowPass(2, 3, 12.5)).toThrow("lanczosLowPass: cutDays must be from 2.0833333333333335 to 36600 d (got 2 d)");
    expect(() => lanczosLowPass(2, 0.04)).toThrow("lanczosLowPass: halfDays must be from 0.041666666666666664 to 36600 d (got 0.04 d)");
    expect(() => lowPassResponse(lanczosLowPass(2, 3), 0)).toThrow("lowPassResponse: periodDays must be from 1e-9 to 1.7976931348623157e+308 d (got 0 d)");
  });
});

describe("runLowPass", () => {
  const narrow = lanczosLowPass(4 / 24, 1 / 24);
  const [w0, w1] = narrow.weights;

  it("takes each value with its neighbors, and beyond the ends a return to the mean", () => {
    const got = runLowPass(narrow, Float64Array.of(4, 1, 7), 2, 10);
    const left = Math.exp(-1 / 10);
    expectClose(got[0], w0 * 4 + w1 * (1 + 2 + 2 * left), { absolute: 1e-14 });
    expectClose(got[1], w0 * 1 + w1 * 11, { absolute: 1e-14 });
    expectClose(got[2], w0 * 7 + w1 * (1 + 2 + 5 * left), { absolute: 1e-14 });
  });

  it("returns to the mean in 48 hours unless told otherwise, in hours whatever the step", () => {
    const one = (decay?: number): number => runLowPass(narrow, Float64Array.of(9), 2, decay)[0];
    expect(one()).toBe(one(48));
    expectClose(one(), w0 * 9 + 2 * w1 * (2 + 7 * Math.exp(-1 / 48)), { absolute: 1e-14 });
    const slow = lanczosLowPass(1, 0.25, 6);
    const { weights } = slow;
    expectClose(runLowPass(slow, Float64Array.of(9), 2, 12)[0], weights[0] * 9 + 2 * weights[1] * (2 + 7 * Math.exp(-6 / 12)), { absolute: 1e-14 });
  });

  it("refuses gaps by their place, and a mean or a decay that cannot be", () => {
    expect(() => runLowPass(narrow, Float64Array.of(Number.NaN, 1), 2)).toThrow("runLowPass: values must be without gaps (got NaN at index 0); bridge them first, see bridgedHours");
    expect(() => runLowPass(narrow, Float64Array.of(1, Infinity), 2)).toThrow("runLowPass: values must be finite");
    expect(() => runLowPass(narrow, Float64Array.of(1), Number.NaN)).toThrow("runLowPass: mean must be from -1e+60 to 1e+60 (got NaN)");
    expect(() => runLowPass(narrow, Float64Array.of(1), 1, 0)).toThrow("runLowPass: decayHours must be from 1e-9 to 1.7976931348623157e+308 h (got 0 h)");
  });
});

describe("bridgedHours", () => {
  const _ = Number.NaN;

  it("cuts the missing ends, bridges within, and tells what was measured", () => {
    const given = Object.freeze([_, _, 2, _, _, 8, 3, _]);
    const got = bridgedHours(given);
    expect([...got.values]).toEqual([2, 4, 6, 8, 3]);
    expect([...got.isReal]).toEqual([1, 0, 0, 1, 1]);
    expect(got).toMatchObject({ first: 2, realCount: 3 });
    expectClose(got.mean, 13 / 3, { absolute: 1e-15 });
    expect(Object.isFrozen(got)).toBe(true);
  });

  it("takes a record without gaps as it is, and one value alone", () => {
    expect([...bridgedHours([1, 2, 3]).values]).toEqual([1, 2, 3]);
    expect(bridgedHours([1, 2, 3])).toMatchObject({ first: 0, mean: 2, realCount: 3 });
    expect(bridgedHours([_, 5])).toMatchObject({ first: 1, mean: 5, realCount: 1 });
  });

  it("refuses a record without a reading, and one of infinity", () => {
    for (const none of [[], [_], [_, _]]) {
      expect(() => bridgedHours(none)).toThrow(RecordError);
      expect(() => bridgedHours(none)).toThrow("bridgedHours: values must hold at least one reading (got none)");
    }
    try {
      bridgedHours([]);
    } catch (error) {
      expect((error as RecordError).kind).toBe("data");
    }
    expect(() => bridgedHours([1, -Infinity])).toThrow("bridgedHours: values must be finite");
  });
});
