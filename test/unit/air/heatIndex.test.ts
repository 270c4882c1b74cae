import { describe, expect, it } from "vitest";
import { heatIndex } from "../../../lib/air/heatIndex.js";

describe("heat index", () => {
  it("says nothing below 20 °C", () => {
    expect(heatIndex(19.99, 50)).toBeNaN();
    expect(Number.isFinite(heatIndex(20, 50))).toBe(true);
  });

  it("grows with humidity in hot air and counts 105 % as 100 %", () => {
    let before = 0;
    for (let rh = 20; rh <= 100; rh += 5) {
      const now = heatIndex(33, rh);
      expect(now).toBeGreaterThan(before);
      before = now;
    }
    expect(heatIndex(33, 105)).toBe(heatIndex(33, 100));
  });

  it("both adjustments act only where they should", () => {
    // At the edges of the adjustments (13 %, 85 %) the formula is continuous.
    for (const edge of [13, 85]) expect(Math.abs(heatIndex(29, edge + 1e-9) - heatIndex(29, edge - 1e-9))).toBeLessThan(1e-6);
    expect(heatIndex(35, 10)).toBeLessThan(heatIndex(35, 13));
  });

  it("is the regression with each adjustment to the last digit", () => {
    // The equation of the US National Weather Service (wpc.ncep.noaa.gov) worked out by hand in Python, 83 °F 95 %, 100 °F 5 %, 90 °F 60 %.
    for (const [fahrenheit, rh, expected] of [[83, 95, 36.29723178888874], [100, 5, 33.61331055509246], [90, 60, 37.59873216666672]]) {
      expect(Math.abs(heatIndex((fahrenheit - 32) / 1.8, rh) - expected)).toBeLessThan(1e-9);
    }
  });

  it("beyond the ranges of its adjustments is the regression alone", () => {
    // Worked out in Python from the same equation and its rules: dry air above 112 °F, damp air below 80 and above 87 °F; at 80 °F the damp adjustment acts.
    for (const [fahrenheit, rh, expected] of [[120, 5, 109.84239670000004], [113, 8, 106.36651324000005], [79, 100, 83.80052814000015], [90, 90, 121.90120399999998], [80, 95, 87.79806179999996]]) {
      expect(Math.abs(heatIndex((fahrenheit - 32) / 1.8, rh) * 1.8 + 32 - expected), `${fahrenheit} °F`).toBeLessThan(1e-9);
    }
  });
});
