import { describe, expect, it } from "vitest";
import { bandResponse } from "../../../lib/indoors/bandResponse.js";
import { expectClose } from "../../close.js";
import { madeInside, madeOutside } from "./madeRecord.js";

const n = 24 * 30;
const outside = madeOutside(n, 31);
const inside = madeInside(outside, 9, 32);
const flat = (v: number, length = n): Float64Array => new Float64Array(length).fill(v);

describe("bands, their words", () => {
  it("a place that does not vary, too few stretches, no answer above the noise", () => {
    const still = bandResponse(flat(20), outside);
    expect(still.map((b) => [b.from, b.to])).toEqual([[0.08, 0.16], [0.16, 0.32], [0.32, 0.64], [0.75, 1.25], [1.4, 2.6], [3, 6]]);
    expect(still.filter((b) => b.says === "One of the places does not vary at all here.").length).toBeGreaterThan(2);
    const short = bandResponse(inside.subarray(0, 24 * 13), outside.subarray(0, 24 * 13));
    expect(short[0].says).toMatch(/^Too few whole stretches for 0\.08 to 0\.16 cycles per day: log about \d+ more days\.$/);
    expectClose(short[0].cyclesPerDay, Math.sqrt(0.08 * 0.16), { relative: 0.5 });
    const stranger = bandResponse(madeOutside(n, 78), outside).filter((b) => b.says?.startsWith("No answer"));
    expect(stranger.length).toBeGreaterThan(0);
    for (const b of stranger) {
      expect(b.says).toBe(`No answer above the noise between ${b.from} and ${b.to} cycles per day.`);
      expect([b.lagHours, b.gain!.low]).toEqual([null, 0]);
    }
    expect([still, still[0]].every(Object.isFrozen)).toBe(true);
  });

  it("a house that only scales the air outside: gain, no lag, full coherence, at every band", () => {
    for (const b of bandResponse(outside.map((v) => 0.25 * v + 3), outside)) {
      if (b.gain === null) continue;
      expectClose(b.gain.value, 0.25, { absolute: 1e-9 });
      expectClose(b.lagHours!.value, 0, { absolute: 1e-9 });
      expectClose(b.coherence!, 1, { absolute: 1e-9 });
      expect([b.gain.unit, b.lagHours!.unit, b.says]).toEqual(["1", "h", null]);
      expect(b.coherenceLimit! > 0 && b.coherenceLimit! < 1).toBe(true);
    }
  });
});
