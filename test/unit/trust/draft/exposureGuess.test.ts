import { expect, it } from "vitest";
import { exposureGuess } from "../../../../lib/trust/draft/exposureGuess.js";

const guessed = (...places: readonly (readonly [string, number])[]): (string | null)[] => exposureGuess(places.map(([name, range]) => ({ name, range, lowest: 10 }))).map(({ exposure }) => exposure);

it("places that all swing as far as the air outside are all outside", () => {
  expect(guessed(["north", 9.7], ["south", 9.4], ["west", 9.8])).toEqual(["outdoor", "outdoor", "outdoor"]);
});

it("the calmer one is inside, also where two rooms swing alike", () => {
  expect(guessed(["a", 9.8], ["b", 7])).toEqual(["outdoor", "indoor"]);
  expect(guessed(["a", 3], ["b", 2.9])).toEqual(["outdoor", "indoor"]);
});

it("where a place is called outside, one without a telling name is inside", () => {
  expect(guessed(["garden", 9.8], ["b", 9.7])).toEqual(["outdoor", "indoor"]);
});
