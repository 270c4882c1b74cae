import { describe, expect, it } from "vitest";
import { requireReadings, requireWithin, shown } from "../../../lib/ground/complaint.js";

describe("requireReadings", () => {
  it("lets pass what is missing, and what lies within the largest", () => {
    expect(() => requireReadings("f", "values", [])).not.toThrow();
    expect(() => requireReadings("f", "values", Object.freeze([1, Number.NaN, 1e60, -1e60, 5e-324]))).not.toThrow();
    expect(() => requireReadings("f", "values", [1e300], Number.MAX_VALUE)).not.toThrow();
  });
  it("names the first that does not", () => {
    expect(() => requireReadings("f", "values", [1, -Infinity, Infinity])).toThrow(new RangeError("f: values must be finite or NaN (got -Infinity at index 1)"));
    expect(() => requireReadings("f", "values", Float64Array.of(1, 1.1e60))).toThrow(new RangeError("f: values must lie within ±1e+60 (got 1.1e+60 at index 1)"));
    expect(() => requireReadings("f", "values", [Infinity], Number.MAX_VALUE)).toThrow("be finite or NaN");
  });
});

describe("requireWithin", () => {
  it("holds both ends and tells the limits", () => {
    for (const v of [0, 1]) expect(() => requireWithin("f", "x", v, 0, 1)).not.toThrow();
    expect(() => requireWithin("f", "x", 1.1, 0, 1, "h")).toThrow(new RangeError("f: x must be from 0 to 1 h (got 1.1 h)"));
    expect(() => requireWithin("f", "x", -1, 0, Infinity)).toThrow("f: x must be at least 0 (got -1)");
    expect(() => requireWithin("f", "x", Number.NaN, -Infinity, Infinity)).toThrow("f: x must be finite (got NaN)");
    expect(() => requireWithin("f", "x", "1" as unknown as number, 0, 1)).toThrow(TypeError);
  });
  it("shows no object as [object Object]", () => {
    expect(shown({})).toBe("an object");
    expect(shown([1, 2])).toBe("a list of 2");
  });
});
