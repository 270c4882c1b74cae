import { readFileSync } from "node:fs";
import { describe, expect, it } from "vitest";
import { mannKendall, theilSen } from "../../lib/cycles/climate/robustTrend.js";
import { lanczosLowPass, lowPassResponse, runLowPass } from "../../lib/grid/lanczosLowPass.js";
import { withoutLine } from "../../lib/cycles/swings/leastSquaresLine.js";
import { prominentPeaks } from "../../lib/cycles/swings/prominentPeak.js";
import { redBackground } from "../../lib/cycles/swings/redBackground.js";
import { sineTaperSpectrum } from "../../lib/cycles/swings/sineTaperSpectrum.js";
import { sixHourMeans } from "../../lib/cycles/swings/sixHourMeans.js";
import { expectClose } from "../close.js";

interface Peaks {
  readonly index: number[];
  readonly prominence: number[];
}

interface Vectors {
  readonly response: Record<"periods" | "quick" | "slow", number[]>;
  readonly pressure: number[];
  readonly quick: number[];
  readonly slow: number[];
  readonly highs: Peaks;
  readonly lows: Peaks;
  readonly sixHourly: number[];
  readonly spectrum: number[];
  readonly gamma: { readonly spectrum: number[]; readonly coefficients: number[] };
  readonly ranks: { values: number[]; tau: number; slope: number; low: number; high: number }[];
}

const vectors = JSON.parse(readFileSync(new URL("vectors/filters.json", import.meta.url), "utf8")) as Vectors;
const quick = lanczosLowPass(2, 3);
const slow = lanczosLowPass(15, 15);
const pressure = Float64Array.from(vectors.pressure);
const mean = pressure.reduce((a, b) => a + b, 0) / pressure.length;

describe("filters and ranks against numpy, scipy and statsmodels", () => {
  it("response of both low-passes", () => {
    vectors.response.periods.forEach((period, i) => {
      expectClose(lowPassResponse(quick, period), vectors.response.quick[i], { absolute: 1e-11 }, `2 d filter at ${period} d`);
      expectClose(lowPassResponse(slow, period), vectors.response.slow[i], { absolute: 1e-11 }, `15 d filter at ${period} d`);
    });
  });

  it("filtered pressure, ends included", () => {
    for (const [name, filter, expected] of [["2 d", quick, vectors.quick], ["15 d", slow, vectors.slow]] as const) {
      const got = runLowPass(filter, pressure, mean);
      expect(got.length).toBe(expected.length);
      // Twelve digits of about 1 000 hPa are written there.
      for (let i = 0; i < got.length; i++) expectClose(got[i], expected[i], { absolute: 6e-9 }, `${name} at hour ${i}`);
    }
  });

  it("maxima and their prominences", () => {
    const a = runLowPass(quick, pressure, mean);
    const b = runLowPass(slow, pressure, mean);
    const band = a.map((v, i) => v - b[i]);
    for (const [sign, { index, prominence }] of [[1, vectors.highs], [-1, vectors.lows]] as const) {
      const got = prominentPeaks(band.map((v) => sign * v));
      expect(got.map((p) => p.index)).toEqual(index);
      got.forEach((p, i) => {
        expectClose(p.prominence, prominence[i], { absolute: 1e-8 }, `prominence at ${p.index}`);
      });
    }
  });

  it("six-hourly means and their sine-taper spectrum", () => {
    const six = sixHourMeans(pressure).subarray(0, vectors.sixHourly.length);
    six.forEach((v, i) => {
      expectClose(v, vectors.sixHourly[i], { relative: 1e-11 }, `block ${i}`);
    });
    const spectrum = sineTaperSpectrum(six.length, 3).of(withoutLine(six));
    expect(spectrum.length).toBe(vectors.spectrum.length);
    const largest = Math.max(...vectors.spectrum);
    // Values near 1 000 carry 12 digits: 1e-9 of a step in what is transformed.
    spectrum.forEach((v, i) => {
      expectClose(v, vectors.spectrum[i], { relative: 1e-7, absolute: 1e-10 * largest }, `bin ${i}`);
    });
  });

  it("background by gamma regression", () => {
    const background = redBackground(360, 0.25);
    const got = background.fit(Float64Array.from(vectors.gamma.spectrum));
    // Twelve turns of the search; what is left of its way is below 1e-6.
    got.forEach((v, i) => {
      expectClose(v, vectors.gamma.coefficients[i], { absolute: 2e-6 }, `coefficient ${i}`);
    });
  });

  for (const [i, { values, tau, slope, low, high }] of vectors.ranks.entries()) {
    it(`ranks of ${values.length} values (${i})`, () => {
      expectClose(mannKendall(values).tau, tau, { absolute: 1e-12 }, "tau");
      const got = theilSen(Array.from(values.keys()), values, "1").slope;
      expectClose(got.value, slope, { absolute: 1e-12 }, "slope");
      expectClose(got.low, low, { absolute: 1e-12 }, "low");
      expectClose(got.high, high, { absolute: 1e-12 }, "high");
    });
  }
});
