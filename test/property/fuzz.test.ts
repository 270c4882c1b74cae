import { describe, expect, it } from "vitest";
import { fuzz, spoiledCard, spoiledDescription } from "../fuzzed.js";

/** The short run of the fuzz suite; the long one, 10 000 on other seeds, stands in test/simulation. */
describe("check on spoiled input: an answer that keeps the line law, or one sentence", () => {
  it("cards (seed 4101)", async () => {
    const { answered, refused } = await fuzz(spoiledCard, 4101, 300);
    expect([answered > 200, refused > 0]).toEqual([true, true]);
  }, 120_000);
  it("descriptions (seed 4102)", async () => {
    const { answered, refused } = await fuzz(spoiledDescription, 4102, 200);
    expect([answered > 10, refused > 50]).toEqual([true, true]);
  }, 120_000);
});
