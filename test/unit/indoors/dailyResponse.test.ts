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
});
