import { readFileSync } from "node:fs";
import { describe, expect, it } from "vitest";
import { crossCorrelation } from "../../lib/grid/crossCorrelation.js";
import { detrend } from "../../lib/grid/detrend.js";
import { movingBackground } from "../../lib/grid/movingBackground.js";
import { passed, passFilter, passResponse } from "../../lib/grid/passFilter.js";
import { expectClose } from "../close.js";

type Column = "a" | "b" | "gappy" | "constant" | "line" | "cubic" | "rolling" | "rollingHalf" | "low" | "high" | "band" | "periods" | "bandResponse" | "lags" | "pearson";
const vectors = JSON.parse(readFileSync(new URL("vectors/gridRoutines.json", import.meta.url), "utf8")) as Record<Column, (number | null)[]>;
const of = (name: Column): number[] => vectors[name].map((v) => v ?? Number.NaN);
const [a, b, gappy] = [of("a"), of("b"), of("gappy")];
const days = a.map((_, h) => h / 24);

/** Twelve digits of numbers near 20 are written there. */
function same(got: ArrayLike<number>, name: Column, absolute = 1e-9): void {
  const wanted = of(name);
  expect(got.length).toBe(wanted.length);
  wanted.forEach((w, k) => {
    if (Number.isNaN(w)) expect(got[k], `${name} ${k}`).toBeNaN();
    else expectClose(got[k], w, { absolute }, `${name} ${k}`);
  });
}

describe("routines for even steps against numpy, scipy and pandas", () => {
  it("constant, line and cubic taken out", () => {
    same(detrend(a, days, { degree: 0 }).values, "constant");
    same(detrend(a, days).values, "line");
    same(detrend(gappy, days, { degree: 3 }).values, "cubic");
  });
  it("moving background, with gaps, of at least one and of at least half", () => {
    same(movingBackground(gappy, 25), "rolling");
    same(movingBackground(gappy, 25, { least: 0.5 }), "rollingHalf");
  });
  it("low-pass, high-pass and band, ends included, and the band's response", () => {
    same(passed(passFilter({ longerThan: 1 }), a).values, "low");
    same(passed(passFilter({ shorterThan: 2 }), a).values, "high");
    const band = passFilter({ longerThan: 1, shorterThan: 4 });
    same(passed(band, a).values, "band");
    same(of("periods").map((p) => passResponse(band, p)), "bandResponse", 1e-11);
  });
  it("correlation by lag", () => {
    same(of("lags").map((lag) => crossCorrelation(a, b, { from: lag, to: lag })[0].correlation!.value), "pearson", 1e-11);
  });
});
