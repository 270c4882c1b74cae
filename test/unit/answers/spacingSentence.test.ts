import { expect, it } from "vitest";
import { spacingSentence } from "../../../lib/answers/spacingSentence.js";
import type { SwingsPlace } from "../../../lib/answers/swingsPlace.js";

/** Lows at these days, with a high half a day after each. */
const eventsAt = (days: readonly number[]): SwingsPlace["events"] => days.flatMap((d) => (["low", "high"] as const).map((kind, k) => ({ kind, at: new Date(Date.UTC(2024, 0, 1) + 86_400_000 * (d + k / 2)).toISOString() }))) as never;

it("tells the middle case and the middle half of the ways from low to low", () => {
  // Ways of 1, 2, 3, 4, 5, 6, 7, 8 and 9 days: median 5, quartiles 3 and 7 (Hyndman and Fan's type 7).
  expect(spacingSentence(eventsAt([0, 9, 10, 18, 20, 27, 30, 36, 40, 45]))).toBe("From one of these lows to the next it takes 5.0 days in the middle case, 3.0 to 7.0 in half of the cases.");
});

it("says nothing where there are few", () => {
  expect(spacingSentence(eventsAt([0, 9, 10, 18, 20, 27, 30, 36]))).toBe("");
  expect(spacingSentence([])).toBe("");
});
