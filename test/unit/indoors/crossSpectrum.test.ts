import { describe, expect, it } from "vitest";
import { crossSpectrum } from "../../../lib/indoors/crossSpectrum.js";
import { madeInside, madeOutside } from "./madeRecord.js";

const _ = Number.NaN;
const n = 24 * 30;
const outside = madeOutside(n, 31);
const inside = madeInside(outside, 9, 32);

describe("cross spectra, their options", () => {
  const [x, y] = [outside.subarray(0, 96), inside.subarray(0, 96)];

  it("Hann segments that share half, less their mean, every step present, unless told otherwise", () => {
    const found = crossSpectrum(x, y, 24, { stepSeconds: 3600 });
    expect(found).toEqual(crossSpectrum(x, y, 24, { stepSeconds: 3600, window: "Hann", removed: "mean", overlap: 0.5, leastPresent: 1 }));
    expect([found.segments, found.shiftSteps, found.real.length, found.cyclesPerDay[1], Object.isFrozen(found)]).toEqual([7, 12, 13, 1, true]);
    expect(crossSpectrum(x, y, 25, { stepSeconds: 3600, overlap: 0 })).toMatchObject({ segments: 3, shiftSteps: 25 });
    expect(crossSpectrum(x, y, 4, { stepSeconds: 3600, overlap: 0.95 })).toMatchObject({ segments: 93, shiftSteps: 1 });
  });

  it("one step missing in either place drops a segment, or counts as nothing where that is allowed", () => {
    const holed = x.map((v, h) => (h === 3 ? _ : v));
    for (const [a, b] of [[holed, y], [x, holed]]) {
      expect(crossSpectrum(a, b, 24, { stepSeconds: 3600, overlap: 0 }).segments).toBe(3);
      expect(crossSpectrum(a, b, 24, { stepSeconds: 3600, overlap: 0, leastPresent: 23 / 24 }).segments).toBe(4);
    }
    // A segment that runs past the end is none, however few steps it needs.
    expect(crossSpectrum(x, y, 24, { stepSeconds: 3600, leastPresent: 0.5 }).segments).toBe(7);
    const none = crossSpectrum(x.map(() => _), y, 24, { stepSeconds: 3600 });
    for (const part of [none.real, none.imaginary, none.densityX, none.densityY, none.coherence]) expect(part.every(Number.isNaN)).toBe(true);
    // A line is taken out over the steps that are there.
    const line = Float64Array.from({ length: 24 }, (_v, h) => (h === 5 ? _ : 3 + 2 * h));
    const flatLine = crossSpectrum(line, line, 24, { stepSeconds: 3600, removed: "line", leastPresent: 0.5 });
    expect(Math.max(...flatLine.densityX)).toBeLessThan(1e-20);
    expect(Math.max(...crossSpectrum(line, line, 24, { stepSeconds: 3600, removed: "mean", leastPresent: 0.5 }).densityX)).toBeGreaterThan(1);
  });

  it("refuses by name", () => {
    const call = (more: object, segment = 24) => () => crossSpectrum(x, y, segment, { stepSeconds: 3600, ...more });
    expect(call({ stepSeconds: 0 })).toThrow("crossSpectrum: stepSeconds must be from 1e-9 to 1000000000000 s (got 0 s)");
    expect(call({ overlap: 0.96 })).toThrow("crossSpectrum: overlap must be from 0 to 0.95 (got 0.96)");
    expect(call({ leastPresent: 0 })).toThrow("crossSpectrum: leastPresent must be from 5e-324 to 1 (got 0)");
    expect(call({}, 3)).toThrow("crossSpectrum: segmentSteps must be from 4 to 96 steps (got 3 steps)");
    expect(call({}, 24.5)).toThrow("crossSpectrum: segmentSteps must be a whole number (got 24.5 steps)");
    expect(() => crossSpectrum([1, 2, 3, Infinity], [1, 2, 3, 4], 4, { stepSeconds: 1 })).toThrow("crossSpectrum: x must be finite or NaN (got Infinity at index 3)");
    expect(() => crossSpectrum([1, 2, 3, 4], [Infinity, 2, 3, 4], 4, { stepSeconds: 1 })).toThrow("crossSpectrum: y must be finite or NaN (got Infinity at index 0)");
    expect(() => crossSpectrum([1, 2, 3, 4], [1, 2, 3], 4, { stepSeconds: 1 })).toThrow("crossSpectrum: y must have the length of x, 4 (got 3)");
  });
});
