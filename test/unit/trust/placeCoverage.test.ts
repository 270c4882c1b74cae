import { expect, it } from "vitest";
import { random } from "../../../lib/ground/random.js";
import { recordFromSeries } from "../../../lib/record/recordFromSeries.js";
import { series } from "../../../lib/record/series.js";
import { placeCoverage } from "../../../lib/trust/placeCoverage.js";
import { expectClose } from "../../close.js";

/** Coverage of a barometer read at these seconds. */
function coverageAt(seconds: readonly number[]): number {
  const own = series({ place: "porch", quantity: "surface_air_pressure", times: seconds.map((s) => Date.UTC(2024, 0, 1) + 1000 * s), values: seconds.map(() => 1000) });
  const { coverage, quantities } = placeCoverage(recordFromSeries([own]).places.porch);
  expect(quantities.surface_air_pressure?.coverage).toBe(coverage);
  return coverage;
}

it("a logger whose step is now one second longer, or that is read now early and now late, skips nothing", () => {
  const chance = random(12);
  expect(coverageAt(Array.from({ length: 5000 }, (_, i) => Math.floor(10.3 * i)))).toBeGreaterThan(0.9995);
  expect(coverageAt(Array.from({ length: 5000 }, (_, i) => 10 * i + chance.uniform()))).toBeGreaterThan(0.9995);
});

it("a tenth of the readings left out leaves nine tenths, and readings in between do not make up for it", () => {
  const kept = Array.from({ length: 5000 }, (_, i) => i).filter((i) => i % 10 !== 5);
  expectClose(coverageAt(kept.map((i) => 300 * i)), 0.9, { absolute: 0.0005 }, "evenly left out");
  expectClose(coverageAt(kept.flatMap((i) => (i % 10 === 0 ? [300 * i, 300 * i + 20] : [300 * i]))), 0.9, { absolute: 0.0005 }, "one of ten doubled");
});
