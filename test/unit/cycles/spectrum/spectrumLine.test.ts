import { describe, expect, it } from "vitest";
import { spectrumLine } from "../../../../lib/cycles/spectrum/spectrumLine.js";
import { windowNames } from "../../../../lib/cycles/spectrum/taperWindow.js";
import { expectClose } from "../../../close.js";

const line = (n: number, cyclesPerDay: number, phaseDegrees: number, amplitude = 1.16): Float64Array =>
  Float64Array.from({ length: n }, (_, j) => 861 + amplitude * Math.cos((2 * Math.PI * cyclesPerDay * j) / 24 + (phaseDegrees * Math.PI) / 180));
const hourly = { stepSeconds: 3600, unit: "hPa" } as const;

describe("spectrumLine", () => {
  it("reads amplitude, phase and crest of a line on a bin with any window", () => {
    for (const window of windowNames) {
      for (const phase of [0, 68, 179, -90, -150]) {
        const got = spectrumLine(line(240, 2, phase), 2, { ...hourly, window });
        expectClose(got.amplitude, 1.16, { absolute: 1e-11 }, window); // rounding of readings near 861
        expectClose(got.phaseDegrees, phase, { absolute: 1e-9 }, window);
        const crest = ((((-phase / 360) % 1) + 1) % 1) / 2;
        const off = Math.abs(got.crestAfterDays - crest);
        expectClose(Math.min(off, 0.5 - off), 0, { absolute: 1e-11 }, "crest");
        expect([got.unit, got.share]).toEqual(["hPa", 1]);
      }
    }
  });

  it("phase 0 is a crest at the first step, and a crest 3 hours later of a twice-daily line is −90°", () => {
    const later = Float64Array.from({ length: 240 }, (_, j) => Math.cos((2 * Math.PI * 2 * (j - 3)) / 24));
    const got = spectrumLine(later, 2, hourly);
    expectClose(got.phaseDegrees, -90, { absolute: 1e-9 });
    expectClose(got.crestAfterDays, 3 / 24, { absolute: 1e-12 });
  });

  it("between bins: at its own frequency nearly all, at the bin its share", () => {
    const x = line(240, 2.05, 0);
    expectClose(spectrumLine(x, 2.05, hourly).amplitude, 1.16, { relative: 1e-3 }); // what the mirrored line leaks
    const atBin = spectrumLine(x, 2.05, { ...hourly, at: "bin" });
    expectClose(atBin.share, 0.8488, { absolute: 1e-4 });
    expectClose(atBin.amplitude / atBin.share, 1.16, { relative: 1e-3 });
    expectClose(Math.abs(atBin.cyclesPerDay - 2.05), 0.05, { absolute: 1e-12 });
  });

  it("a temperature's amplitude is a difference", () => expect(spectrumLine(line(48, 1, 0), 1, { stepSeconds: 3600, unit: "degC" }).unit).toBe("K"));

  it("refuses what is no line of this record", () => {
    const x = line(48, 1, 0);
    for (const f of [0, -1, 12, 13, Number.NaN]) {
      expect(() => spectrumLine(x, f, hourly)).toThrow(
        new RangeError(`spectrumLine: cyclesPerDay must be above 0 and below half a cycle a step, 0 to 12 cpd (got ${f} cpd)`),
      );
    }
    expect(() => spectrumLine(x, 0.1, { ...hourly, at: "bin" })).toThrow("lie nearest to a bin between the first and the last");
    expect(() => spectrumLine(x, 1, { ...hourly, at: "peak" as "bin" })).toThrow(TypeError);
    x[3] = Number.NaN;
    expect(() => spectrumLine(x, 1, hourly)).toThrow("got NaN at index 3); bridge short gaps, or use lombScargle");
    expect(() => spectrumLine([1, 2], 1, hourly)).toThrow("hold at least 3 steps");
  });
});
