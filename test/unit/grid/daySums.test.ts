import { expect, it } from "vitest";
import { daySums } from "../../../lib/grid/daySums.js";

it("adds what counts day by day, the last one in part; a day without an hour is NaN", () => {
  expect(daySums([1, 1, Number.NaN])[0]).toBe(2);
  const hours = Array.from({ length: 60 }, (_, h) => (h >= 24 && h < 48 ? Number.NaN : 1));
  expect([...daySums(hours)]).toEqual([24, Number.NaN, 12]);
});
