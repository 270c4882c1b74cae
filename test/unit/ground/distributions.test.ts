import { describe, expect, it } from "vitest";
import { chiSquareCdf, chiSquareQuantile, fCdf, fQuantile, normalCdf, normalQuantile, tCdf, tQuantile } from "../../../lib/ground/distributions.js";
import { expectClose } from "../../close.js";

const shares = [1e-4, 0.02, 0.3, 0.5, 0.8, 0.975, 0.9999];

describe("distributions", () => {
  it("quantile and share undo each other on both sides of each change of method", () => {
    for (const p of shares) {
      for (const dof of [0.7, 3, 1000, 1000.5, 1e5, 1.0001e5, 1e8]) {
        // 3e-7 absolute: the package's own 3e-7 in the beta function, and 2e-7 of the cube root.
        expectClose(tCdf(tQuantile(p, dof), dof), p, { absolute: 3e-7 }, `t ${p} ${dof}`);
        expectClose(chiSquareCdf(chiSquareQuantile(p, dof), dof), p, { absolute: 3e-7 }, `chi-square ${p} ${dof}`);
      }
      for (const [a, b] of [[1, 3], [60, 2], [3e4, 3e4], [3.1e4, 3.1e4], [5, 1e7], [1e7, 5]]) {
        expectClose(fCdf(fQuantile(p, a, b), a, b), p, { absolute: 3e-7 }, `F ${p} ${a} ${b}`);
      }
      expectClose(normalCdf(normalQuantile(p)), p, { absolute: 1e-9 }, `normal ${p}`);
    }
  });

  it("hands over without a jump where the method changes", () => {
    for (const p of shares.filter((s) => s !== 0.5)) {
      expectClose(tQuantile(p, 1000.0001), tQuantile(p, 1000), { relative: 1e-7 }, "t");
      expectClose(chiSquareQuantile(p, 100000.01), chiSquareQuantile(p, 100000), { relative: 2e-7 }, "chi-square");
      expectClose(fQuantile(p, 30000.01, 30000.01), fQuantile(p, 30000, 30000), { relative: 2e-7 }, "F");
    }
  });

  it("knows the middle, the ends and the normal limit", () => {
    expect(tQuantile(0.5, 3)).toBe(0);
    expect(normalQuantile(0.5)).toBe(0);
    expect(tCdf(0, 4)).toBe(0.5);
    expect([tCdf(-Infinity, 3), tCdf(Infinity, 3), normalCdf(-Infinity), normalCdf(Infinity)]).toEqual([0, 1, 0, 1]);
    expect([chiSquareCdf(-1, 3), chiSquareCdf(0, 3), chiSquareCdf(Infinity, 3)]).toEqual([0, 0, 1]);
    expect([fCdf(-1, 3, 4), fCdf(0, 3, 4), fCdf(Infinity, 3, 4)]).toEqual([0, 0, 1]);
    expectClose(tQuantile(0.975, Infinity), normalQuantile(0.975), { relative: 1e-15 });
    expect(tCdf(1.7, Infinity)).toBe(normalCdf(1.7));
  });

  it("refuses what the package would answer with Infinity, 0 or NaN", () => {
    expect(() => tQuantile(1, 5)).toThrow(new RangeError("tQuantile: p must be above 0 and below 1 (got 1)"));
    expect(() => tQuantile(0, 5)).toThrow(RangeError);
    expect(() => tQuantile(Number.NaN, 5)).toThrow("tQuantile: p must be above 0 and below 1 (got NaN)");
    expect(() => tQuantile(0.9, 0)).toThrow("tQuantile: dof must be above 0 (got 0)");
    expect(() => tCdf(1, Number.NaN)).toThrow("tCdf: dof must be above 0 (got NaN)");
    expect(() => tCdf(Number.NaN, 2)).toThrow("tCdf: x must be a number (got NaN)");
    expect(() => chiSquareQuantile(0.5, Infinity)).toThrow("chiSquareQuantile: dof must be above 0 and finite (got Infinity)");
    expect(() => chiSquareQuantile(-0.1, 3)).toThrow("chiSquareQuantile: p must be above 0 and below 1 (got -0.1)");
    expect(() => chiSquareCdf(1, -3)).toThrow("chiSquareCdf: dof must be above 0 and finite (got -3)");
    expect(() => fQuantile(0.5, 2, 0)).toThrow("fQuantile: dof2 must be above 0 and at most 10000000 (got 0)");
    expect(() => fCdf(0.5, 2e7, 3)).toThrow("fCdf: dof1 must be above 0 and at most 10000000 (got 20000000)");
    expect(() => fCdf(Number.NaN, 2, 3)).toThrow("fCdf: x must be a number (got NaN)");
    expect(() => normalQuantile(1.5)).toThrow("normalQuantile: p must be above 0 and below 1 (got 1.5)");
    expect(() => normalCdf(Number.NaN)).toThrow("normalCdf: x must be a number (got NaN)");
  });
});
