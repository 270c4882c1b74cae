import { expect, it } from "vitest";
import { moreDays } from "../../../lib/ground/moreDays.js";

it("one day, several days", () => {
  expect([moreDays(1), moreDays(2), moreDays(150)]).toEqual(["1 more day", "2 more days", "150 more days"]);
});
