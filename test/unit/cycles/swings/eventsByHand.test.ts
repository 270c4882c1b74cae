import { describe, expect, it } from "vitest";
import { bandStrength } from "../../../../lib/cycles/swings/bandStrength.js";
import { leastSquaresLine, withoutLine } from "../../../../lib/cycles/swings/leastSquaresLine.js";
import { prominentPeaks } from "../../../../lib/cycles/swings/prominentPeak.js";
import { seasonalStrength } from "../../../../lib/cycles/swings/seasonalStrength.js";
import type { SwingBand } from "../../../../lib/cycles/swings/swingBand.js";
import { swingEvents } from "../../../../lib/cycles/swings/swingEvents.js";
import { varianceShares } from "../../../../lib/cycles/swings/varianceShares.js";
import { tQuantile } from "../../../../lib/ground/distributions.js";
import { longRunVariance } from "../../../../lib/ground/longRunVariance.js";
import { expectClose } from "../../../close.js";

const _ = Number.NaN;
const z = 1.959964;
/** A band that was given, not filtered. */
function made(band: ArrayLike<number>, parts: Partial<SwingBand> = {}): SwingBand {
  const n = band.length;
  return {
    first: 0, hours: n, band: Float64Array.from(band), standardError: new Float64Array(n).fill(0.2), dailyError: 0, slow: new Float64Array(n), rest: new Float64Array(n),
    isReal: new Uint8Array(n).fill(1), sigma: 1, shortestDays: 2, longestDays: 15, slowBy: "15-day filter", ...parts,
  };
}

describe("straight lines and peaks by hand", () => {
  it("the line of 1, 2, 4 rises by 1.5 about 7/3", () => {
    const values = Float64Array.of(1, 2, 4);
    [5 / 6, 7 / 3, 23 / 6].forEach((v, i) => {
      expectClose(leastSquaresLine(values)[i], v, { absolute: 1e-14 }, `line ${i}`);
      expectClose(withoutLine(values)[i], values[i] - v, { absolute: 1e-14 }, `rest ${i}`);
    });
    expect([[...values], [...leastSquaresLine(Float64Array.of(5))], leastSquaresLine(new Float64Array(0)).length]).toEqual([[1, 2, 4], [5], 0]);
    expectClose(leastSquaresLine(Float64Array.of(1, 3))[1], 3, { absolute: 1e-14 });
  });

  it("of two saddles alike the left one; a peak beside the ends; a plateau at the end is none", () => {
    expect(prominentPeaks(Float64Array.of(0, 5, 0))).toEqual([{ index: 1, prominence: 5, saddle: 0 }]);
    expect(prominentPeaks(Float64Array.of(3, 5, 2, 2, 1, 4, 4, 0))).toEqual([{ index: 1, prominence: 2, saddle: 0 }, { index: 5, prominence: 3, saddle: 4 }]);
    expect(prominentPeaks(Float64Array.of(0, 1, 4, 4))).toEqual([]);
    expect(prominentPeaks(Float64Array.of(0, 1, 1, 4, 2))).toEqual([{ index: 3, prominence: 2, saddle: 4 }]);
    // A neighbor of the same height is passed over to what lies beyond it.
    expect(prominentPeaks(Float64Array.of(-1, 3, 1, 3, -2))).toEqual([{ index: 1, prominence: 4, saddle: 0 }, { index: 3, prominence: 4, saddle: 0 }]);
  });
});

describe("swingEvents by hand", () => {
  /** Highs of a parabola 10 − (i − top)²/100 on a floor of −6. */
  const arch = (top: number, n = 201): number[] => Array.from({ length: n }, (_v, i) => Math.max(-6, 10 - (i - top) ** 2 / 100));

  it("instant, depth and duration of a parabola", () => {
    const [event] = swingEvents(made(arch(100.3), { first: 7 }), 1_000_000);
    expect([event.kind, event.prominence, event.warnings]).toEqual(["high", 10 - 0.0009 + 6, []]);
    expect(event.at).toBe(1_000_000 + Math.round(107.3 * 3_600_000));
    // Bend of 0.02 in an hour is 11.52 in a day; the error of the slope is 1.2 a day of the 0.2.
    expectClose(event.atStandardError, Math.max(0.5, (24 * 1.2 * 0.2) / 11.52), { absolute: 1e-9 });
    expectClose(event.depth.value, 9.9991, { absolute: 1e-12 });
    expectClose(event.depth.low, 9.9991 - z * 0.2, { absolute: 1e-12 });
    expectClose(event.depth.high, 9.9991 + z * 0.2, { absolute: 1e-12 });
    expect([event.depth.standardError, event.depth.unit]).toEqual([0.2, "hPa"]);
    // Half the depth, 4.99955, is crossed between 77 and 78 and between 122 and 123.
    const v = (i: number): number => 10 - (i - 100.3) ** 2 / 100;
    const [left, right] = [78 - (v(78) - 4.99955) / (v(78) - v(77)), 122 + (v(122) - 4.99955) / (v(122) - v(123))];
    expectClose(event.durationHours!.value, right - left, { absolute: 1e-9 });
    expectClose(event.durationHours!.standardError, (Math.SQRT2 * 0.2) / ((v(78) - v(77) + v(122) - v(123)) / 2), { absolute: 1e-9 });
    expectClose(event.durationHours!.low, right - left - z * event.durationHours!.standardError, { absolute: 1e-9 });
    expectClose(event.durationHours!.high, right - left + z * event.durationHours!.standardError, { absolute: 1e-9 });
    expect(event.durationHours!.unit).toBe("h");
    expect([event, event.warnings].every(Object.isFrozen)).toBe(true);
  });

  it("the part of a daily tide in the error is quicker: 2.4 a day", () => {
    const [event] = swingEvents(made(arch(100), { standardError: new Float64Array(201).fill(0.5), dailyError: 0.3 }), 0);
    expectClose(event.atStandardError, (24 * Math.hypot(1.2 * 0.4, 2.4 * 0.3)) / 11.52, { absolute: 1e-9 });
    const [low] = swingEvents(made(arch(100).map((v) => -v)), 0);
    expect([low.kind, low.at, low.durationHours!.value > 40]).toEqual(["low", 360_000_000, true]);
    // A prominence of three errors is asked for.
    expect(swingEvents(made(arch(100), { standardError: new Float64Array(201).fill(16 / 3) }), 0).length).toBe(1);
    expect(swingEvents(made(arch(100), { standardError: new Float64Array(201).fill(5.34) }), 0).length).toBe(0);
    expect(swingEvents(made(arch(100), { sigma: 16 }), 0).length).toBe(1);
    expect(swingEvents(made(arch(100), { sigma: 16.01 }), 0).length).toBe(0);
  });

  it("a flat top has its middle, with a day of error; beside an end fewer hours tell the bend", () => {
    const flat = swingEvents(made(arch(100).map((v) => Math.min(8, v))), 0)[0];
    expect([flat.at, flat.atStandardError]).toEqual([360_000_000, 24]);
    // Two hours from the beginning: −6, 10 and 8 stand two hours apart, a bend of −18.
    const fall = Array.from({ length: 60 }, (_v, i) => Math.max(-6, 12 - i));
    const [edge] = swingEvents(made([-6, 9, ...fall.slice(2)]), 0);
    expect(edge.at).toBe(Math.round((2 + 14 / 18) * 3_600_000));
    expect(edge.warnings).toEqual(["near an end of the record"]);
    expectClose(edge.atStandardError, 0.5, { absolute: 1e-12 });
    // Half the depth is passed four fifteenths of an hour before the second value, and stands at the eighth.
    expectClose(edge.durationHours!.value, 7 - 11 / 15, { absolute: 1e-12 });
    expectClose(edge.durationHours!.standardError, (Math.SQRT2 * 0.2) / 8, { absolute: 1e-12 });
    const open = [6, 9, ...fall.slice(2)];
    expect(swingEvents(made(open), 0).map((e) => [e.kind, e.durationHours])).toEqual([["high", null]]);
    // 6, 10 and 8 bend by −6: a third of an hour.
    expect([swingEvents(made(open), 0)[0].at, swingEvents(made(open.toReversed()), 0)[0].at]).toEqual([8_400_000, 59 * 3_600_000 - 8_400_000]);
    expect(swingEvents(made(open.toReversed()), 0).map((e) => e.durationHours)).toEqual([null]);
    // An error as long as the duration leaves no time below nothing.
    expect(swingEvents(made([-6, 9, ...fall.slice(2)], { standardError: new Float64Array(60).fill(5) }), 0)[0].durationHours!.low >= 0).toBe(true);
    const wide = swingEvents(made([-6, 9, 10, 9.9, 9.8, 9.7, 9.6, 9.5, ...fall.slice(8)], { standardError: new Float64Array(60).fill(5) }), 0)[0].durationHours!;
    expect([wide.low, wide.high > wide.value]).toEqual([Math.max(0, wide.value - z * wide.standardError), true]);
  });

  it("what is high but below the background is no event, and events stand in their order", () => {
    const below = arch(100).map((v) => v - 11);
    expect(swingEvents(made(below), 0).map((e) => e.kind)).toEqual([]);
    const wave = Float64Array.from({ length: 400 }, (_v, i) => 5 * Math.sin((2 * Math.PI * i) / 100));
    expect(swingEvents(made(wave), 0).map((e) => [e.kind, Math.round(e.at / 3_600_000)])).toEqual([["high", 25], ["low", 75], ["high", 125], ["low", 175], ["high", 225], ["low", 275], ["high", 325], ["low", 375]]);
    const real = (from: number, to: number): Uint8Array => Uint8Array.from(wave, (_v, i) => (i >= from && i < to ? 0 : 1));
    const hours = (isReal: Uint8Array): number[] => swingEvents(made(wave, { isReal }), 0).map((e) => Math.round(e.at / 3_600_000));
    expect(hours(real(120, 132)).includes(125)).toBe(true);
    expect(hours(real(120, 133)).includes(125)).toBe(false);
    expect(hours(real(126, 139)).includes(125)).toBe(true);
    expect(hours(real(113, 126)).includes(125)).toBe(false);
  });

  it("refuses an instant that is none", () => {
    expect(() => swingEvents(made(arch(100)), _)).toThrow("swingEvents: firstAt must be from -8640000000000000 to 8640000000000000 ms");
  });
});

describe("strength and shares by hand", () => {
  /** Ten days of hours; the first three and hour 100 were not measured. */
  const n = 240;
  const isReal = Uint8Array.from({ length: n }, (_v, i) => (i < 3 || i === 100 ? 0 : 1));
  const noise = (k: number, size: number): Float64Array => Float64Array.from({ length: n }, (_v, i) => (isReal[i] === 1 ? size * Math.sin((k + 1) * i * i + k) + k : 1e3));
  const [tide, band, slow, rest] = [noise(0, 1), noise(1, 2), noise(2, 1.5), noise(3, 0.5)];
  const kept = (values: Float64Array): number[] => [...values].filter((_v, i) => isReal[i] === 1);
  const meanOf = (values: readonly number[]): number => values.reduce((s, v) => s + v, 0) / values.length;
  const variance = (values: Float64Array): number => meanOf(kept(values).map((v) => (v - meanOf(kept(values))) ** 2));
  const daily = (part: (i: number) => number): Float64Array => Float64Array.from({ length: 10 }, (_v, day) => Array.from({ length: 24 }, (_w, h) => 24 * day + h).reduce((s, i) => s + (isReal[i] === 1 ? part(i) : 0), 0));

  it("strength: root mean square of what was measured, its interval on the scale of the logarithm", () => {
    const got = bandStrength(made(band, { slow, rest, isReal }), 0.25);
    const power = meanOf(kept(band).map((v) => v * v));
    expectClose(got.standardDeviation.value, Math.sqrt(power), { relative: 1e-12 });
    const spread = longRunVariance(daily((i) => band[i] ** 2 - power));
    // The root has half the relative error of the square.
    const error = Math.sqrt(spread.varianceOfSum) / (kept(band).length * power) / 2;
    expectClose(got.standardDeviation.standardError, Math.sqrt(power) * error, { relative: 1e-9 });
    expectClose(Math.log(got.standardDeviation.high / got.standardDeviation.value), tQuantile(0.975, spread.terms) * error, { relative: 1e-9 });
    expectClose(got.standardDeviation.high * got.standardDeviation.low, power, { relative: 1e-9 });
    expectClose(got.share, variance(band) / (0.25 + variance(band) + variance(slow) + variance(rest)), { relative: 1e-9 });
    expect([got.standardDeviation.unit, got.isShort, Object.isFrozen(got)]).toEqual(["hPa", spread.isShort, true]);
    expect(() => bandStrength(made(band), -1)).toThrow(/^bandStrength: tideVariance must be from 0 to .* hPa² \(got -1 hPa²\)$/);
    const none = bandStrength(made(new Float64Array(n)));
    expect([none.standardDeviation.value, none.standardDeviation.low, none.standardDeviation.high, none.share]).toEqual([0, 0, 0, 0]);
    // A whole day without readings is no day of the interval.
    const hole = Uint8Array.from(isReal, (r, i) => (i >= 48 && i < 72 ? 0 : r));
    const gone = bandStrength(made(band, { isReal: hole }));
    const powerOf = meanOf([...band].filter((_v, i) => hole[i] === 1).map((v) => v * v));
    const left = longRunVariance(daily((i) => (hole[i] === 1 ? band[i] ** 2 - powerOf : 0)).map((v, d) => (d === 2 ? _ : v)));
    expectClose(gone.standardDeviation.standardError, (Math.sqrt(powerOf) * Math.sqrt(left.varianceOfSum)) / ([...band].filter((_v, i) => hole[i] === 1).length * powerOf) / 2, { relative: 1e-9 });
  });

  it("shares of the four parts, with intervals on the scale of odds, wider by 2.2 over the root of the days", () => {
    const got = varianceShares(made(band, { slow, rest, isReal }), tide)!;
    const parts = { tide, swings: band, background: slow, quick: rest };
    const total = Object.values(parts).reduce((s, v) => s + variance(v), 0);
    const square = (values: Float64Array, i: number): number => (values[i] - meanOf(kept(values))) ** 2;
    const all = (i: number): number => Object.values(parts).reduce((s, v) => s + square(v, i), 0);
    for (const [name, values] of Object.entries(parts)) {
      const share = variance(values) / total;
      const { value, standardError, low, high, unit } = got[name as keyof typeof parts];
      expectClose(value, share, { relative: 1e-9 }, name);
      const spread = longRunVariance(daily((i) => square(values, i) - share * all(i)));
      expectClose(standardError, Math.sqrt(spread.varianceOfSum) / (total * kept(tide).length), { relative: 1e-9 }, name);
      const odds = (p: number): number => Math.log(p / (1 - p));
      const reach = ((1 + 2.2 / Math.sqrt(10)) * tQuantile(0.975, spread.terms) * standardError) / (share * (1 - share));
      expectClose(odds(high) - odds(share), reach, { relative: 1e-7 }, name);
      expectClose(odds(share) - odds(low), reach, { relative: 1e-7 }, name);
      expect(unit).toBe("1");
    }
    expect(Object.isFrozen(got)).toBe(true);
    // Shares add up to all there is.
    expectClose(got.tide.value + got.swings.value + got.background.value + got.quick.value, 1, { absolute: 1e-12 });
  });

  it("no share of nothing, none in five days, none of a tide of other hours; a part that is not there is none for certain", () => {
    const none = new Float64Array(n);
    const bare = varianceShares(made(band, { isReal }), none)!;
    expect([bare.tide.value, bare.tide.low, bare.tide.high, bare.swings.value, bare.swings.low, bare.swings.high]).toEqual([0, 0, 0, 1, 1, 1]);
    expect(varianceShares(made(none), none)).toBe(null);
    // A part so small that the other's share rounds to all.
    const nearly = varianceShares(made(band, { isReal, rest: rest.map((v) => 1e-12 * v) }), none)!;
    expect([nearly.swings.value, nearly.swings.low, nearly.swings.high]).toEqual([1, 1, 1]);
    expect(nearly.quick.value > 0 && nearly.quick.low > 0 && nearly.quick.high < 1e-20).toBe(true);
    const upTo = (hours: number): boolean => varianceShares(made(band, { slow, rest, isReal: Uint8Array.from(isReal, (r, i) => (i < hours ? r : 0)) }), tide) === null;
    expect([upTo(120), upTo(121)]).toEqual([true, false]);
    expect(() => varianceShares(made(band), new Float64Array(3))).toThrow(new RangeError("varianceShares: tide must have the hours of swings, 240 (got 3)"));
  });

  it("the season's strength: two running means of 30 days on each side, mean square 1", () => {
    // At steps of 30 days a neighbor on each side: squares 1 1 1 1 4, then 1 1 1 2 2.5, then 1 1 4/3 11/6 9/4, mean 89/60.
    const got = seasonalStrength(Float64Array.of(1, -1, 1, -1, 2), 30);
    [1, 1, 4 / 3, 11 / 6, 9 / 4].forEach((v, i) => {
      expectClose(got[i], Math.sqrt((60 * v) / 89), { absolute: 1e-14 }, `step ${i}`);
    });
    expect([...seasonalStrength(new Float64Array(3), 30)]).toEqual([1, 1, 1]);
    // Steps of 70 days reach no neighbor.
    expectClose(seasonalStrength(Float64Array.of(3, 1), 70)[0], 3 / Math.sqrt(5), { absolute: 1e-14 });
  });
});
