import { describe, expect, it } from "vitest";
import { mixingRatio } from "../../../lib/air/mixingRatio.js";
import { psychrometricWetBulb, vaporPressureFromWetBulb } from "../../../lib/air/wetBulb.js";

describe("wet bulb", () => {
  it("equals the temperature in saturated air", () => {
    for (const t of [-100, -20, 0, 20, 50]) {
      expect(t - psychrometricWetBulb(t, 100, 1000)).toBeLessThan(1e-9);
      expect(psychrometricWetBulb(t, 105, 1000)).toBe(psychrometricWetBulb(t, 100, 1000));
    }
  });

  it("answers at the corners: bone dry, hot, thin", () => {
    for (const t of [-99, -40, 0, 60, 100]) {
      for (const p of [200, 1200]) {
        const wet = psychrometricWetBulb(t, 0, p);
        expect(Number.isFinite(wet)).toBe(true);
        expect(wet).toBeLessThanOrEqual(t);
        expect(Math.abs(vaporPressureFromWetBulb(t, wet, p))).toBeLessThan(1e-6);
      }
    }
  });

  it("falls with thinner air, so the pressure is needed", () => {
    const difference = psychrometricWetBulb(20, 50, 1013.25) - psychrometricWetBulb(20, 50, 850);
    expect(difference).toBeGreaterThan(0.38);
    expect(difference).toBeLessThan(0.46);
  });

  it("refuses a wet bulb warmer than the dry one", () => {
    expect(() => vaporPressureFromWetBulb(20, 20.5, 1000)).toThrow("vaporPressureFromWetBulb: wetBulb must be at most the dry bulb, 20 °C (got 20.5 °C)");
    expect(vaporPressureFromWetBulb(20, 0, 1000)).toBeLessThan(0);
  });
});

describe("mixing ratio", () => {
  it("refuses more vapor than air", () => {
    expect(() => mixingRatio(90, 100, 500)).toThrow(/^mixingRatio: pressure must be above the vapor pressure, 71\d\.\d hPa \(got 500 hPa\)$/);
  });
});
