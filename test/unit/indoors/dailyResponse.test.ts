import { describe, expect, it } from "vitest";
import { dailyResponse } from "../../../lib/indoors/dailyResponse.js";
import { expectClose } from "../../close.js";

const _ = Number.NaN;

describe("daily response, its parts", () => {
  it("a lag turns the answer back, a lead forward; six whole days are needed", () => {
    const wave = (gain: number, lag: number, length = 24 * 20): Float64Array => Float64Array.from({ length }, (_v, h) => gain * Math.cos((2 * Math.PI * (h - 14 - lag)) / 24));
    const late = dailyResponse(wave(1, 6), wave(4, 0));
    expectClose(late.real, 0, { absolute: 1e-12 });
    expectClose(late.imaginary, -0.25, { absolute: 1e-12 });
    expect([late.decrementFactor!.unit, late.timeLag!.unit, Object.isFrozen(late)]).toEqual(["1", "h", true]);
    const short = dailyResponse(wave(1, 6, 24 * 7), wave(4, 0, 24 * 7));
    expect([short.daysUsed, short.decrementFactor, short.timeLag, short.radialError, short.tangentialError, short.t, short.degreesOfFreedom]).toEqual([5, null, null, _, _, _, 0]);
    expectClose(short.imaginary, -0.25, { absolute: 1e-12 });
    expect(dailyResponse([], [])).toMatchObject({ daysUsed: 0, real: _, imaginary: _ });
  });

  it("what rounding leaves of a temperature that never changes is no cycle, outside or inside", () => {
    const wave = Float64Array.from({ length: 24 * 20 }, (_v, h) => 10 + 4 * Math.cos((2 * Math.PI * (h - 14)) / 24));
    for (const v of [0, 20, 20.1, 0.3, -7.7]) {
      const still = new Float64Array(24 * 20).fill(v);
      expect(dailyResponse(wave, still)).toMatchObject({ decrementFactor: null, timeLag: null, radialError: _, degreesOfFreedom: 0, daysUsed: 18 });
      const inside = dailyResponse(still, wave);
      expect(inside.timeLag).toBe(null);
      expect(inside.decrementFactor!.low).toBe(0);
      expect(inside.decrementFactor!.high).toBeLessThan(1e-12);
    }
    expect(() => dailyResponse([1], [1, 2])).toThrow("dailyResponse: outside must have the length of inside, 1 h (got 2 h)");
  });

  it("a cycle inside that comes and goes: errors along the answer and across it, from the days' own answers", () => {
    // Outside the same cycle every day; inside 0.5 on one day and 0.3 on the next, later by an hour and earlier: days alternate, so
    // that nothing is carried from day to day but the turn of sign.
    const outside = Float64Array.from({ length: 24 * 42 }, (_v, h) => 4 * Math.cos((2 * Math.PI * h) / 24));
    const inside = outside.map((v, h) => (Math.floor(h / 24) % 2 === 0 ? 0.5 : 0.3) * v);
    const found = dailyResponse(inside, outside);
    expect(found.daysUsed).toBe(40);
    expectClose(found.decrementFactor!.value, 0.4, { absolute: 0.01 });
    expectClose(found.timeLag!.value, 0, { absolute: 0.05 });
    expectClose(found.decrementFactor!.standardError, found.radialError, { relative: 1e-12 });
    expectClose(found.decrementFactor!.high - found.decrementFactor!.value, found.t * found.radialError, { relative: 1e-9 });
    expectClose(found.decrementFactor!.value - found.decrementFactor!.low, found.t * found.radialError, { relative: 1e-9 });
    const hours = ((found.tangentialError / found.decrementFactor!.value) * 24) / (2 * Math.PI);
    expectClose(found.timeLag!.standardError, hours, { relative: 1e-12 });
    expectClose(found.timeLag!.high - found.timeLag!.low, 2 * found.t * hours, { relative: 1e-9 });
  });
});
