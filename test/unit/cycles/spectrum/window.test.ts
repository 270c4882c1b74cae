import { describe, expect, it } from "vitest";
import { type WindowName, windowNames, windowWeights } from "../../../../lib/cycles/spectrum/taperWindow.js";
import { overlapCorrelation, shareAt, windowFigures } from "../../../../lib/cycles/spectrum/windowFigures.js";
import { amplitudeUnit, densityUnit, powerUnit } from "../../../../lib/cycles/spectrum/spectralUnit.js";
import { expectClose } from "../../../close.js";

describe("windowWeights", () => {
  it("is periodic: symmetric about the middle, the last sample not the first again", () => {
    for (const name of windowNames) {
      for (const n of [8, 9]) {
        const w = windowWeights(name, n);
        expect(w.length).toBe(n);
        for (let j = 1; j < n; j++) expectClose(w[j], w[n - j], { absolute: 1e-15 }, `${name} ${n}`);
      }
      expectClose(windowWeights(name, 8)[4], 1, { absolute: 1e-15 }, name);
      expect(Array.from(windowWeights(name, 1))).toEqual([1]);
    }
  });

  it("refuses an unknown name and a broken length", () => {
    expect(() => windowWeights("Hanning" as WindowName, 8)).toThrow(
      new TypeError('windowWeights: name must be one of rectangular, triangle, Hamming, Hann, Blackman, Blackman-Harris (got "Hanning")'),
    );
    expect(() => windowWeights("Hann", 0)).toThrow("windowWeights: length must be from 1 to 16777216 samples (got 0 samples)");
    expect(() => windowWeights("Hann", 7.5)).toThrow(new RangeError("windowWeights: length must be a whole number (got 7.5 samples)"));
  });
});

describe("window figures", () => {
  it("a line on the spot keeps all of its amplitude, on either side alike", () => {
    const w = windowWeights("Hann", 100);
    expect(shareAt(w, 0)).toBe(1);
    expectClose(shareAt(w, 1.3), shareAt(w, -1.3), { absolute: 1e-14 });
    expectClose(shareAt(w, 1), 0.5, { absolute: 1e-14 });
    expectClose(shareAt(w, 2), 0, { absolute: 1e-14 });
  });

  it("segments that do not overlap share nothing, and a segment is itself", () => {
    const w = windowWeights("Blackman", 64);
    expect(overlapCorrelation(w, 0)).toBe(1);
    expect(overlapCorrelation(w, 64)).toBe(0);
    expect(() => overlapCorrelation(w, -1)).toThrow(RangeError);
    expect(() => overlapCorrelation(w, 1.5)).toThrow("overlapCorrelation: shift must be a whole number (got 1.5 samples)");
  });

  it("are frozen and say their length", () => {
    const figures = windowFigures("Hamming", 512);
    expect(Object.isFrozen(figures)).toBe(true);
    expect([figures.name, figures.length]).toEqual(["Hamming", 512]);
  });
});

describe("units of a spectrum", () => {
  it("square the unit, and a temperature's difference", () => {
    expect(["1", "hPa", "degC", "%", "g m-3"].map(powerUnit)).toEqual(["1", "hPa2", "K2", "(%)2", "(g m-3)2"]);
    expect(["1", "hPa", "degC", "%", "g m-3"].map(densityUnit)).toEqual(["d", "hPa2 d", "K2 d", "(%)2 d", "(g m-3)2 d"]);
    expect(["hPa", "degC"].map(amplitudeUnit)).toEqual(["hPa", "K"]);
  });
});
