import { expect, it } from "vitest";
import { enhancementFactor } from "../../../lib/air/enhancementFactor.js";

it("Buck's 1981 factor over ice is a straight line of pressure, to the last digit", () => {
  // Worked out by hand from the coefficients of Buck 1981 as the file names them: a change of 0.1 % in one is 4e-6 at 1000 hPa.
  expect(Math.abs(enhancementFactor(1000, { form: "buck-1981-ice" }) - 1.00448)).toBeLessThan(1e-12);
  expect(Math.abs(enhancementFactor(500, { form: "buck-1981-ice" }) - 1.00239)).toBeLessThan(1e-12);
});
