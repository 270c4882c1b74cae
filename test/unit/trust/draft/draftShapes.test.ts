import { describe, expect, it } from "vitest";
import { expectPlanted } from "./expectPlanted.js";
import { packageFaults } from "./packageRules.js";
import { randomShape } from "./randomShape.js";
import type { Shape } from "./shapes.js";
import { shapesOfLines } from "./shapesOfLines.js";
import { shapesOfPlaces } from "./shapesOfPlaces.js";

describe.each([...shapesOfLines(), ...shapesOfPlaces()].map((s): [string, Shape] => [s.name, s]))("%s", (_, shape) => {
  it("is drafted so that our own reader finds the planted readings, and the draft keeps the package's rules", async () => {
    const { draft, guesses, questions } = await expectPlanted(shape);
    expect(packageFaults(draft)).toEqual([]);
    for (const g of guesses) expect(g.because.length).toBeGreaterThan(10);
    expect(questions.map((q) => q.path)).toContain("site");
    shape.holds?.(draft, guesses, questions);
  });
});

it("eighty logs with everything drawn at random are drafted and read as planted", async () => {
  for (let seed = 700_000; seed < 700_080; seed++) {
    const shape = randomShape(seed);
    try {
      expect(packageFaults((await expectPlanted(shape)).draft)).toEqual([]);
    } catch (error) {
      throw new Error(`${shape.name}: ${(error as Error).message}`);
    }
  }
}, 60000);
