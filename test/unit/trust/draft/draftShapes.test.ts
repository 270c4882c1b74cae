import { describe, expect, it } from "vitest";
import { expectPlanted } from "./expectPlanted.js";
import { packageFaults } from "./packageRules.js";
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
