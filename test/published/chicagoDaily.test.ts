import { readFileSync } from "node:fs";
import { join } from "node:path";
import { describe, expect, it } from "vitest";
import { climateOf } from "../../lib/answers/climateOf.js";
import { swingsOf } from "../../lib/answers/swingsOf.js";
import type { Quantity } from "../../lib/record/quantity.js";
import { recordFromSeries } from "../../lib/record/recordFromSeries.js";
import { type Series, series } from "../../lib/record/series.js";
import { expectClose } from "../close.js";
import { root } from "../laws/sources.js";

/** Real days of 15 years; provenance in chicago/README.md. */
const [head, ...rows] = readFileSync(join(root, "test", "published", "chicago", "chicago-daily.csv"), "utf8").trim().replaceAll('"', "").split("\n").map((r) => r.split(","));
const dates = rows.map((r) => r[0]);
const column = (name: string): number[] => rows.map((r) => Number(r[head.indexOf(name)]));
const noon = dates.map((d) => Date.parse(d) + 18 * 3_600_000);
const fahrenheit = column("temp");
const pressure = column("pressure").map((v) => 33.863886 * v);
const seriesOf = (quantity: Quantity, values: number[], keep: (i: number) => boolean = () => true): Series => {
  const kept = noon.map((_, i) => i).filter(keep);
  return series({ times: kept.map((i) => noon[i]), values: kept.map((i) => values[i]), quantity, place: "city" });
};
const mean = (v: number[]): number => v.reduce((a, b) => a + b, 0) / v.length;

describe("Chicago, real daily means of 2001 to 2016", () => {
  const answer = climateOf(recordFromSeries([seriesOf("air_temperature", fahrenheit.map((f) => (f - 32) / 1.8))], { name: "city", zone: "-06:00" }));

  it("months of the climate are the plain means of their days", () => {
    for (const month of ["2003-01", "2012-07", "2016-07"]) {
      const days = fahrenheit.filter((_, i) => dates[i].startsWith(month)).map((f) => (f - 32) / 1.8);
      expectClose(answer.monthly.find((m) => m.date === month)?.quantities.air_temperature?.mean?.value ?? Number.NaN, mean(days), { absolute: 1e-9 }, month);
    }
  });

  it("the yearly round crests in late July, and no trend is claimed that 15 years cannot carry", () => {
    const [round] = answer.annualCycle;
    // Common practice, no source: inland of middle latitudes the year is warmest about a month after the solstice.
    expect(round.maximumOn?.value).toBeGreaterThan(195);
    expect(round.maximumOn?.value).toBeLessThan(215);
    const [trend] = answer.trend;
    expect((trend.slope?.high ?? 0) - (trend.slope?.low ?? 0)).toBeGreaterThan(0.8);
    expect((trend.slope?.low ?? 1) < 0 && (trend.slope?.high ?? -1) > 0).toBe(true);
  });

  it("winter's swings are about twice those of summer, and one value a day is called no beat", () => {
    const spread = (months: string[]): number[] =>
      ["2004", "2008", "2013"].map((year) => {
        const part = seriesOf("surface_air_pressure", pressure, (i) => dates[i].startsWith(year) && months.includes(dates[i].slice(5, 7)));
        const { band, spectrum } = swingsOf(recordFromSeries([part], { name: "city", zone: "-06:00" }), { draws: 99 }).places.city;
        expect(spectrum.peaks).toEqual([]);
        return band?.standardDeviation.value ?? Number.NaN;
      });
    const ratio = mean(spread(["01", "02", "03"])) / mean(spread(["06", "07", "08"]));
    expect(ratio).toBeGreaterThan(1.5);
    expect(ratio).toBeLessThan(3);
  });
});
