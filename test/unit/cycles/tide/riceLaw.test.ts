import { describe, expect, it, vi } from "vitest";
import { detectionAmplitude, normalTwoSided, rayleighThreshold, riceCdf, riceInterval, riceReach } from "../../../../lib/cycles/tide/riceLaw.js";
import { expectClose } from "../../../close.js";

describe("riceLaw", () => {
  // scipy.stats.ncx2.cdf(x², 2, μ²); at μ = 0 it is 1 − exp(−x²/2).
  it.each([
    [0.25, 0, 0.03076676552365587],
    [0.25, 0.5, 0.027204363768732465],
    [1, 1, 0.2671201962031797],
    [2, 1, 0.73098793996409],
    [3, 2.5, 0.6230101433966585],
    [5, 5, 0.45990161322628165],
    [8, 6, 0.9730622782079114],
    [9.5, 10, 0.29068510628589683],
    [20, 18, 0.9757890990912075],
    [26, 28, 0.021767980115375958],
    [12, 5, 0.9999999999980018],
  ])("share below %f of a true %f", (x, mu, share) => {
    expectClose(riceCdf(x, mu), share, { absolute: 1e-12 });
  });

  it("nothing lies below 0, and the threshold is passed by 5 % of nothing", () => {
    expect(riceCdf(0, 3)).toBe(0);
    expectClose(1 - riceCdf(rayleighThreshold, 0), 0.05, { absolute: 1e-14 });
    // Printed tables: 1.959964.
    expectClose(normalTwoSided(), 1.959963984540054, { absolute: 1e-12 });
  });

  // The equations of the tails solved with scipy's brentq over ncx2: cdf(r, high) = 0.025 − 0.025 exp(−high²/4), cdf(r, low) = 0.975 − 0.025 exp(−low²/4).
  it.each([
    [0.5, 0, 2.0510854372028944],
    [1, 0, 2.7153800184547587],
    [2, 0, 3.7888042286196058],
    [2.4477, 0, 4.256614137380833],
    [2.5, 0.28318674630069973, 4.311052815222031],
    [3, 1.0083561563421393, 4.829456954009664],
    [4, 2.0007591042757595, 5.856583556216106],
    [5.5, 3.4467612366165614, 7.381437826248259],
    [7, 4.956094746104947, 8.896580892707616],
    [9, 6.976947534746163, 10.909493872657443],
    [12, 9.994381085566035, 13.92127538200692],
  ])("interval of an observed %f", (r, low, high) => {
    const got = riceInterval(r);
    expectClose(got.low, low, { absolute: 1e-9 }, "low");
    expectClose(got.high, high, { absolute: 1e-9 }, "high");
  });

  it("nothing observed says nothing; at the threshold the interval still begins at 0", () => {
    expect([riceInterval(0), riceInterval(-1)]).toEqual([{ low: 0, high: 0 }, { low: 0, high: 0 }]);
    expect(riceInterval(rayleighThreshold).low).toBe(0);
    expect(riceInterval(rayleighThreshold + 1e-6).low).toBeGreaterThan(0);
  });

  // The same two equations solved for the observed amplitude.
  const reaches = [
    [0.5, 2.104811289940421, 0.4413887388891385],
    [1.02, 1.9906167148488576, 0.8810398883896589],
    [3, 2.04517768959621, 1.7431664267286218],
    [5.03, 2.042999680336285, 1.835663383165862],
    [7.77, 2.0172952983230292, 1.8859737726398942],
    [9.95, 2.0058050863284453, 1.9040672739338458],
    [9.99, 2.005637224971876, 1.904316764589364],
  ];
  it.each(reaches)("reach above and below a true %f", (mu, above, below) => {
    const got = riceReach(mu);
    // A straight line between rows of the table that are 0.05 apart.
    expectClose(got.above, above, { absolute: 1.5e-4 }, "above");
    expectClose(got.below, below, { absolute: 1.5e-4 }, "below");
  });

  it("the table of reaches, made afresh", async () => {
    vi.resetModules();
    const fresh = await import("../../../../lib/cycles/tide/riceLaw.js");
    for (const [mu, above, below] of reaches) {
      expectClose(fresh.riceReach(mu).above, above, { absolute: 1.5e-4 }, "above");
      expectClose(fresh.riceReach(mu).below, below, { absolute: 1.5e-4 }, "below");
    }
  });

  it("reach: none below 0, near it the threshold; from 10 on half over the amplitude more and less than 1.96", () => {
    const none = riceReach(0);
    expectClose(none.above, rayleighThreshold, { absolute: 1e-9 });
    expectClose(none.below, 0, { absolute: 1e-9 });
    for (const mu of [10, 16]) {
      expectClose(riceReach(mu).above, normalTwoSided() + 0.5 / mu, { absolute: 1e-12 });
      expectClose(riceReach(mu).below, normalTwoSided() - 0.5 / mu, { absolute: 1e-12 });
    }
    // Halfway between two rows of the table is their mean; a row is itself.
    const [a, b, c] = [3, 3.025, 3.05].map(riceReach);
    for (const key of ["above", "below"] as const) expectClose(b[key], (a[key] + c[key]) / 2, { absolute: 1e-12 }, key);
    expectClose(a.above, 2.04517768959621, { absolute: 1e-9 });
  });

  it("is found in 95 of 100 at 3.9298, solved with scipy", () => {
    expectClose(detectionAmplitude(), 3.929788241856392, { absolute: 1e-9 });
  });
});
