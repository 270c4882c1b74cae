import { describe, expect, it } from "vitest";
import { leastSquares } from "../../../lib/ground/leastSquares.js";
import { random } from "../../../lib/ground/random.js";
import { roomNuisance, transientStarts } from "../../../lib/indoors/roomNuisance.js";

/** Ten days with a hole of 9 h, one of 20 h and a late beginning. */
function holed(): Uint8Array {
  const mask = new Uint8Array(240).fill(1);
  mask.fill(0, 0, 5);
  mask.fill(0, 60, 69);
  mask.fill(0, 100, 120);
  return mask;
}

describe("roomNuisance against one regression by the house's QR on columns written out", () => {
  const chance = random(41);
  for (const [cycles, phi, tau] of [[0, 0, 10], [3, 0, 10], [3, 0.6, 10], [0, 0.6, 2], [3, 0.9, 60]] as const) {
    it(`${cycles} cycles, whitened by ${phi}, a time constant of ${tau} h`, () => {
      const all = holed();
      const starts = transientStarts(all);
      expect(starts).toEqual([5, 120]);
      // Whitened, an hour counts where the hour before does too.
      const mask = phi === 0 ? all : all.map((m, h) => (m === 1 && h > 0 && all[h - 1] === 1 ? 1 : 0));
      const values = Float64Array.from(mask, (m) => (m === 1 ? 3 + chance.normal() : 0));
      const hours = Array.from(mask.keys()).filter((h) => mask[h] === 1);
      const white = (of: (h: number) => number): number[] => hours.map((h) => of(h) - phi * of(h - 1));
      const columns = [
        white(() => 1),
        white((h) => h - 120),
        ...Array.from({ length: cycles }, (_, c) => [Math.cos, Math.sin].map((f) => white((h) => f((2 * Math.PI * (c + 1) * h) / 24)))).flat(),
        // A transient is e^(−t/τ) from its start on; whitening only scales it.
        ...starts.map((from) => hours.map((h) => (h >= from ? Math.exp((from - h) / tau) : 0))),
      ];
      const wanted = leastSquares(columns, hours.map((h) => values[h])).residuals;
      const left = roomNuisance(mask, starts, cycles).without(values, tau);
      expect(left.length).toBe(240);
      for (const [i, h] of hours.entries()) expect(Math.abs(left[h] - wanted[i]), `hour ${h}`).toBeLessThan(1e-9);
      for (const [h, m] of mask.entries()) if (m === 0) expect(left[h]).toBe(0);
      expect(values.some((v, i) => v !== left[i])).toBe(true);
    });
  }

  it("a transient that begins with the last hour, and columns told twice, take out no more than they tell", () => {
    const mask = new Uint8Array(48).fill(1);
    const values = Float64Array.from({ length: 48 }, () => chance.normal());
    const once = roomNuisance(mask, [0, 47], 0).without(values, 5);
    expect(Math.abs(once[47])).toBeLessThan(1e-12);
    const twice = roomNuisance(mask, [0, 0, 47, 47], 0).without(values, 5);
    for (let h = 0; h < 48; h++) expect(Math.abs(twice[h] - once[h])).toBeLessThan(1e-9);
    // A column passed over must not count in those after it.
    const [later, repeated] = [[0, 10], [0, 0, 10]].map((starts) => roomNuisance(mask, starts, 0).without(values, 5));
    for (let h = 0; h < 48; h++) expect(Math.abs(repeated[h] - later[h])).toBeLessThan(1e-9);
    // What is left holds no more of it.
    const again = roomNuisance(mask, [0, 47], 0).without(once, 5);
    for (let h = 0; h < 48; h++) expect(Math.abs(again[h] - once[h])).toBeLessThan(1e-12);
  });
});

describe("transientStarts", () => {
  it("the first hour that counts, and the first after more than 12 h without one", () => {
    const mask = new Uint8Array(60).fill(1);
    mask.fill(0, 0, 2);
    mask.fill(0, 10, 22);
    mask.fill(0, 30, 43);
    expect(transientStarts(mask)).toEqual([2, 43]);
    expect(transientStarts(new Uint8Array(30))).toEqual([]);
    expect(transientStarts(Uint8Array.of(1))).toEqual([0]);
  });
});
