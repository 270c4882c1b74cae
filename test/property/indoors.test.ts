import { describe, expect, it } from "vitest";
import { random } from "../../lib/ground/random.js";
import { bandResponse } from "../../lib/indoors/bandResponse.js";
import { crossSpectrum } from "../../lib/indoors/crossSpectrum.js";
import { dailyResponse } from "../../lib/indoors/dailyResponse.js";
import { hourlyPair } from "../../lib/indoors/hourlyPair.js";
import { laggedCorrelation } from "../../lib/indoors/laggedCorrelation.js";
import { meanDifference } from "../../lib/indoors/meanDifference.js";
import { shareOfHours } from "../../lib/indoors/shareOfHours.js";
import { timeConstantFit } from "../../lib/indoors/timeConstantFit.js";
import { varianceRatio } from "../../lib/indoors/varianceRatio.js";
import { series } from "../../lib/record/series.js";
import { expectClose } from "../close.js";
import { madeInside, madeOutside } from "../unit/indoors/madeRecord.js";
import { asPairs, naiveTransform } from "../naiveTransform.js";

const seeds = [1, 2, 3, 4, 5, 6];
const n = 24 * 30;
/** Two places of one seed, with gaps that differ between them. */
function made(seed: number): { inside: Float64Array; outside: Float64Array } {
  const chance = random(seed);
  const outside = madeOutside(n, 100 + seed);
  const inside = madeInside(outside, 2 + 3 * seed, 200 + seed);
  for (const values of [inside, outside]) {
    const from = 100 + chance.integer(400);
    values.fill(Number.NaN, from, from + 3 + chance.integer(20));
  }
  return { inside, outside };
}
const rounding = { absolute: 1e-9, relative: 1e-9 };

describe.each(seeds)("laws of inside against outside, seed %i", (seed) => {
  const { inside, outside } = made(seed);

  it("a series against itself: gain 1, lag 0, ratio 1, coherence 1, difference 0", () => {
    const line = dailyResponse(inside, inside);
    expectClose(line.decrementFactor?.value ?? 0, 1, rounding);
    expectClose(line.timeLag?.value ?? 9, 0, rounding);
    expectClose(varianceRatio(inside, inside).ratio?.value ?? 0, 1, rounding);
    expectClose(laggedCorrelation(inside, inside).lag?.value ?? 9, 0, { absolute: 1e-6 });
    expect(meanDifference(inside, inside).difference?.value).toBe(0);
    for (const band of bandResponse(inside, inside)) {
      if (band.gain === null) continue;
      expectClose(band.gain.value, 1, rounding);
      expectClose(band.lagHours?.value ?? 9, 0, rounding);
      expectClose(band.coherence ?? 0, 1, rounding);
    }
  });

  it("scaling inside scales the gain and its interval, and leaves lag and coherence", () => {
    const double = inside.map((v) => 2 * v - 7);
    const [a, b] = [dailyResponse(inside, outside), dailyResponse(double, outside)];
    for (const key of ["value", "low", "high"] as const) expectClose(b.decrementFactor?.[key] ?? 0, 2 * (a.decrementFactor?.[key] ?? 9), { relative: 1e-8 }, key);
    for (const key of ["value", "low", "high"] as const) expectClose(b.timeLag?.[key] ?? 0, a.timeLag?.[key] ?? 9, { absolute: 1e-8 }, key);
    expectClose(varianceRatio(double, outside).ratio?.low ?? 0, 4 * (varianceRatio(inside, outside).ratio?.low ?? 0), { relative: 1e-8 });
    bandResponse(double, outside).forEach((band, i) => {
      if (band.coherence !== null) expectClose(band.coherence, bandResponse(inside, outside)[i].coherence ?? 9, { absolute: 1e-8 });
    });
  });

  it("a constant added to either place moves the mean difference alone", () => {
    const [more, colder] = [inside.map((v) => v + 5), outside.map((v) => v - 3)];
    expectClose(meanDifference(more, colder).difference?.value ?? 0, (meanDifference(inside, outside).difference?.value ?? 0) + 8, rounding);
    expectClose(dailyResponse(more, colder).timeLag?.value ?? 0, dailyResponse(inside, outside).timeLag?.value ?? 9, { absolute: 1e-8 });
    expectClose(timeConstantFit(more, colder, "swings").tau?.value ?? 0, timeConstantFit(inside, outside, "swings").tau?.value ?? 9, { relative: 1e-6 });
    expectClose(varianceRatio(more, colder).ratio?.value ?? 0, varianceRatio(inside, outside).ratio?.value ?? 9, { relative: 1e-8 });
  });

  it("exchanging the places turns the lag and inverts the gain", () => {
    const [a, b] = [dailyResponse(inside, outside), dailyResponse(outside, inside)];
    expectClose((a.decrementFactor?.value ?? 0) * (b.decrementFactor?.value ?? 0), 1, { relative: 1e-9 });
    expectClose((a.timeLag?.value ?? 9) + (b.timeLag?.value ?? 9), 0, { absolute: 1e-9 });
    const [p, q] = [laggedCorrelation(inside, outside).byLag, laggedCorrelation(outside, inside).byLag];
    for (let lag = -12; lag <= 12; lag++) expectClose(p[lag + 12], q[12 - lag], { absolute: 1e-9 }, `lag ${lag}`);
  });

  it("whole days of nothing before and after change no value", () => {
    const padded = (values: Float64Array): Float64Array => Float64Array.of(...new Array(72).fill(Number.NaN), ...values, ...new Array(48).fill(Number.NaN));
    const [i, o] = [padded(inside), padded(outside)];
    expectClose(dailyResponse(i, o).timeLag?.value ?? 0, dailyResponse(inside, outside).timeLag?.value ?? 9, rounding);
    expectClose(meanDifference(i, o).difference?.value ?? 0, meanDifference(inside, outside).difference?.value ?? 9, rounding);
    expectClose(timeConstantFit(i, o, "all").tau?.value ?? 0, timeConstantFit(inside, outside, "all").tau?.value ?? 9, { relative: 1e-6 });
    expectClose(varianceRatio(i, o).ratio?.value ?? 0, varianceRatio(inside, outside).ratio?.value ?? 9, { relative: 1e-6 });
  });

  it("more gaps never raise the days used; the record starts at any date", () => {
    const holed = inside.slice();
    holed.fill(Number.NaN, 50, 53);
    expect(dailyResponse(holed, outside).daysUsed).toBeLessThanOrEqual(dailyResponse(inside, outside).daysUsed);
    const pairAt = (start: number) => {
      const times = Float64Array.from({ length: n }, (_, h) => start + h * 3_600_000);
      const of = (values: Float64Array) => series({ times, values, quantity: "air_temperature" });
      return hourlyPair(of(inside), of(outside), { offsetHours: 7 });
    };
    const [early, late] = [pairAt(Date.UTC(1995, 0, 1, 17)), pairAt(Date.UTC(2037, 6, 9, 17))];
    expect(late.start - early.start).toBe(Date.UTC(2037, 6, 9) - Date.UTC(1995, 0, 1));
    expect(late.inside).toEqual(early.inside);
  });

  it("the share lies in its interval, and of the opposite it is the rest", () => {
    const chance = random(seed);
    const so = Float64Array.from({ length: n }, () => (chance.uniform() < 0.2 ? 1 : 0));
    const [a, b] = [shareOfHours(so).share, shareOfHours(so.map((v) => 1 - v)).share];
    expectClose((a?.value ?? 0) + (b?.value ?? 0), 1, rounding);
    expectClose((a?.low ?? 0) + (b?.high ?? 0), 1, { absolute: 1e-9 });
  });

  it("the cross spectrum agrees with a plain sum over one segment", () => {
    const [x, y] = [madeOutside(60, seed), madeOutside(60, seed + 50)];
    const got = crossSpectrum(x, y, 60, { stepSeconds: 3600, window: "rectangular", removed: "nothing" });
    const [u, v] = [x, y].map((values) => naiveTransform(asPairs(values)));
    const scale = 2 / 24 / 60;
    for (let k = 1; k < 30; k++) {
      const [a, b, c, d] = [u[2 * k], u[2 * k + 1], v[2 * k], v[2 * k + 1]];
      expectClose(got.real[k], scale * (a * c + b * d), { relative: 1e-8, absolute: 1e-9 }, `bin ${k}`);
      expectClose(got.imaginary[k], scale * (a * d - b * c), { relative: 1e-8, absolute: 1e-9 }, `bin ${k}`);
    }
  });
});
