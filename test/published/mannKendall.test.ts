import { describe } from "vitest";
import { mannKendall, theilSen } from "../../lib/cycles/climate/robustTrend.js";
import { checkRows, type PublishedRow } from "./publishedRow.js";

const line = Array.from({ length: 100 }, (_, i) => i + 1);
const ten = [2.1, 2.5, 2.3, 2.9, 3.1, 2.8, 3.4, 3.3, 3.9, 3.6];
const tied = [1, 2, 2, 3, 1, 4, 4, 5];
const published = "read in the tests of the public repository mmhs013/MannKendall.jl, recomputed";
const scipy = "computed with scipy 1.10.1 (kendalltau, theilslopes) and by hand from the definition";

const steps = (values: readonly number[]): number[] => values.map((_, i) => i);
const row = (given: string, got: () => number, expected: number, absolute: number, source: string): PublishedRow => ({
  given,
  got,
  expected,
  tolerance: { absolute },
  why: absolute === 0 ? "a whole number" : "half of the last digit written",
  source,
});

describe("rank tests for trend", () => {
  checkRows([
    row("S of 1…100", () => mannKendall(line).s, 4950, 0, published),
    row("variance of 1…100", () => mannKendall(line).variance, 112750, 1e-9, published),
    row("z of 1…100", () => mannKendall(line).z, 14.7387, 6e-7, published),
    row("τ of 1…100", () => mannKendall(line).tau, 1, 1e-15, published),
    row("S of ten values", () => mannKendall(ten).s, 35, 0, scipy),
    row("variance of ten values", () => mannKendall(ten).variance, 125, 1e-12, scipy),
    row("z of ten values", () => mannKendall(ten).z, 3.041052, 6e-7, scipy),
    row("p of ten values", () => mannKendall(ten).pValue, 0.002357528, 6e-10, scipy),
    row("τ of ten values", () => mannKendall(ten).tau, 0.7777778, 6e-8, scipy),
    row("slope of ten values", () => theilSen(steps(ten), ten, "1").slope.value, 0.1857143, 6e-8, scipy),
    row("its low end", () => theilSen(steps(ten), ten, "1").slope.low, 0.1166667, 6e-8, scipy),
    row("its high end", () => theilSen(steps(ten), ten, "1").slope.high, 0.25, 1e-12, scipy),
    row("S with ties", () => mannKendall(tied).s, 19, 0, scipy),
    row("variance with ties", () => mannKendall(tied).variance, 62.333333, 6e-7, scipy),
    row("z with ties", () => mannKendall(tied).z, 2.279882, 6e-7, scipy),
    row("p with ties", () => mannKendall(tied).pValue, 0.0226147, 6e-8, scipy),
    row("τ_b with ties", () => mannKendall(tied).tau, 0.7181325, 6e-8, scipy),
    row("slope with ties", () => theilSen(steps(tied), tied, "1").slope.value, 0.5, 1e-15, scipy),
    row("low with ties", () => theilSen(steps(tied), tied, "1").slope.low, 0, 1e-15, scipy),
    row("high with ties", () => theilSen(steps(tied), tied, "1").slope.high, 1, 1e-15, scipy),
  ]);
});
