import { describe, expect, it } from "vitest";
import { hourInDays, inverseDensity, precisionWeights, weatherDensity, whiteShare } from "../../../../lib/cycles/tide/bandedNoise.js";
import { expectClose } from "../../../close.js";

describe("bandedNoise", () => {
  it("inverse density by hand: (1 + 4)(1 + 4/16) at 2 with rates 1 and 4", () => {
    expect(inverseDensity(2, 1, 4)).toBe(6.25);
    expect(inverseDensity(0, 3, 4)).toBe(9);
  });

  it("the weights of I, first and second differences give back that density, 1 at 2 cpd", () => {
    const [lambda, mu] = [0.7, 20];
    const [w0, w1, w2] = precisionWeights(lambda, mu);
    for (const cyclesPerDay of [0, 0.5, 2, 5, 12]) {
      // A first difference turns a wave by e^{iωΔ} − 1: its square is 4 sin²(ωΔ/2).
      const square = 4 * Math.sin(Math.PI * cyclesPerDay * hourInDays) ** 2;
      const omega = Math.sqrt(square) / hourInDays;
      const wanted = ((lambda ** 2 + omega ** 2) * (1 + (omega / mu) ** 2)) / ((lambda ** 2 + (4 * Math.PI) ** 2) * (1 + ((4 * Math.PI) / mu) ** 2));
      expectClose(w0 + w1 * square + w2 * square ** 2, wanted, { relative: 1e-12 }, `${cyclesPerDay} cpd`);
      expectClose(weatherDensity(cyclesPerDay, lambda, mu), 1 / wanted, { relative: 1e-12 }, `${cyclesPerDay} cpd`);
    }
  });

  it("the white part at 3 cpd, beside a random walk scaled to 1 at 2 cpd: ρ to 4/9", () => {
    expectClose(whiteShare([Math.log(4 / 9), -30, 30]), 0.5, { absolute: 1e-12 });
    expectClose(whiteShare([Math.log(4), -30, 30]), 0.9, { absolute: 1e-12 });
    // Weather that forgets within minutes is white: ρ to 1. Smooth above a low rate: (2/3)⁴.
    expectClose(whiteShare([Math.log(3), 12, 30]), 0.75, { absolute: 1e-6 });
    expectClose(whiteShare([0, -30, -6]), 1 / (1 + 16 / 81), { absolute: 1e-6 });
  });
});
