import { describe, expect, it } from "vitest";
import { fuzz, spoiledCard, spoiledDescription } from "../fuzzed.js";
import { printed, runs } from "./inventedWeather.js";

/** The long run of the fuzz suite, on seeds of its own: 10 000 mutations with SIMULATE=long, a sixth of them otherwise. */
describe("check on spoiled input, many times", () => {
  for (const [what, cards, seed, share] of [["cards", spoiledCard, 5101, 0.6], ["descriptions", spoiledDescription, 5102, 0.4]] as const) {
    it(`${what} (seed ${seed})`, async () => {
      const count = Math.round(share * runs(10_000));
      const { answered, refused, slowest } = await fuzz(cards, seed, count);
      printed(`${what} spoiled`, [["mutations", "answered", "refused in a sentence", "slowest, ms"], [count, answered, refused, Math.round(slowest)]]);
      expect(answered + refused).toBe(count);
    });
  }
});
