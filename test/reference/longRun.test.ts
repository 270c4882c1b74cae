import { readFileSync } from "node:fs";
import { describe, expect, it } from "vitest";
import { tQuantile } from "../../lib/ground/distributions.js";
import { longRunMean } from "../../lib/ground/longRunVariance.js";
import { olsAr1 } from "../../lib/ground/regressionAr1.js";
import { expectClose } from "../close.js";

interface Vectors {
  readonly tquantile95: Record<string, number>;
  readonly lrv: { daily: (number | null)[]; expected: Record<"mean" | "standardError" | "low" | "high" | "terms" | "phi" | "omega", number> }[];
  readonly olsAr1: {
    day: number[];
    X: number[][];
    y: number[];
    expected: { coefficients: number[]; standardErrors: number[]; phi: number; gamma: number; dof: number; t95: number };
  }[];
}

const vectors = JSON.parse(readFileSync(new URL("vectors/indoors-longrun.json", import.meta.url), "utf8")) as Vectors;

/** The vectors carry ten digits; absolute only where a value is near zero beside its parts. */
const bounds = { relative: 1e-8, absolute: 1e-10 };

describe("long-run variance and regression with memory, against an implementation made apart", () => {
  for (const [dof, expected] of Object.entries(vectors.tquantile95)) {
    it(`t at ${dof}`, () => expectClose(tQuantile(0.975, Number(dof)), expected, { relative: 1e-7 }, "t, jstat's own digits"));
  }

  for (const [i, { daily, expected }] of vectors.lrv.entries()) {
    it(`mean of ${daily.length} days (${i})`, () => {
      const got = longRunMean(daily.map((v) => v ?? Number.NaN));
      expect(got.terms).toBe(expected.terms);
      for (const name of ["mean", "standardError", "phi", "omega"] as const) expectClose(got[name], expected[name], bounds, name);
      for (const name of ["low", "high"] as const) expectClose(got[name], expected[name], { relative: 1e-7 }, name);
    });
  }

  for (const [i, { day, X, y, expected }] of vectors.olsAr1.entries()) {
    it(`regression over ${day.length} days (${i})`, () => {
      const got = olsAr1(X[0].map((_, j) => X.map((row) => row[j])), y, day);
      for (let j = 0; j < X[0].length; j++) {
        expectClose(got.coefficients[j], expected.coefficients[j], bounds, `coefficient ${j}`);
        expectClose(got.standardErrors[j], expected.standardErrors[j], bounds, `standard error ${j}`);
        expectClose(got.high[j], expected.coefficients[j] + expected.t95 * expected.standardErrors[j], { relative: 1e-7 }, `high ${j}`);
      }
      expectClose(got.phi, expected.phi, bounds, "phi");
      expectClose(got.gamma, expected.gamma, bounds, "gamma");
      expectClose(got.degreesOfFreedom, expected.dof, bounds, "degrees of freedom");
    });
  }
});
