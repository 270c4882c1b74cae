import { readFileSync } from "node:fs";
import { join } from "node:path";
import { describe, expect, it } from "vitest";
import { airtides, dataset, document, goodDescription, inside, keys, recordFolder } from "./run.js";

const isEstimate = (e: any): boolean => e !== null && e.low <= e.value && e.value <= e.high && e.level === 0.95 && typeof e.unit === "string" && e.standardError >= 0;

const truth = JSON.parse(readFileSync(join(dataset("hill-school"), "truth.json"), "utf8"));

describe("swings --json, key for key", () => {
  const swings = document("swings", "--json", dataset("hill-school"));
  it("has the keys of the contract, and its instants are ISO 8601", () => {
    expect(keys(swings)).toEqual(["places", "record"]);
    for (const place of Object.values(swings.places) as any[]) {
      expect(keys(place)).toEqual(["band", "days", "events", "quantity", "spectrum", "tendency", "warnings"]);
      expect(keys(place.band)).toEqual(["longestDays", "share", "shares", "shortestDays", "slowBy", "standardDeviation"]);
      expect([place.band.standardDeviation, ...Object.values(place.band.shares)].every(isEstimate)).toBe(true);
      for (const e of place.events) {
        expect(["low", "high"]).toContain(e.kind);
        expect(isEstimate(e.depth) && e.depth.unit === "hPa" && e.prominence > 0).toBe(true);
        expect(e.durationHours === null || isEstimate(e.durationHours)).toBe(true);
        expect(new Date(e.at).toISOString().slice(0, 19)).toBe(e.at.slice(0, 19));
      }
      expect(place.spectrum.peaks.every((p: any) => p.periodDays > 0 && p.pValue > 0 && p.pValue <= 1 && p.significant === false)).toBe(true);
      expect(place.tendency.series.at.length).toBe(place.tendency.series.raw.length);
      expect(isEstimate(place.tendency.last.raw) && isEstimate(place.tendency.last.tideFree)).toBe(true);
      expect(typeof place.tendency.last.term).toBe("string");
    }
  });
});

describe("indoors --json, key for key", () => {
  const indoors = document("indoors", "--json", "--factor", "0.65", dataset("hill-school"));
  const [pair] = indoors.pairs;
  it("has the keys of the contract", () => {
    expect(keys(indoors)).toEqual(["pairs", "record"]);
    expect(keys(pair)).toEqual([
      "changes", "comfort", "condensation", "days", "decrementFactor", "humidityClass", "inside", "maxCorrelation", "meanDifference", "moistureExcess", "mould", "outside", "periods",
      "response", "sensorOffset", "spread", "timeConstant", "timeLag", "vaporPressureExcess", "varianceRatio", "warnings",
    ]);
    expect([pair.inside, pair.outside, pair.condensation.factor]).toEqual(["library", "veranda", 0.65]);
    for (const key of ["meanDifference", "varianceRatio", "decrementFactor", "timeLag", "moistureExcess", "vaporPressureExcess"]) expect(isEstimate(pair[key]), key).toBe(true);
    for (const band of pair.response) expect(keys(band)).toEqual(expect.arrayContaining(["coherence", "cyclesPerDay", "gain", "lagHours"]));
    expect(keys(pair.changes[0])).toEqual(["at", "change", "event", "quantity", "ratio", "says"]);
  });

  it("the planted response of both periods lies inside the intervals", () => {
    expect(pair.periods.length).toBe(2);
    for (const [k, planted] of truth.response.periods.entries()) {
      const got = pair.periods[k];
      expect(inside(planted.throughSunnySensor.decrementFactor, got.decrementFactor), `decrement factor ${k}`).toBe(true);
      expect(inside(planted.throughSunnySensor.timeLagHours, got.timeLag), `lag ${k}`).toBe(true);
      expect(inside(planted.timeConstantHours, got.timeConstant), `time constant ${k}`).toBe(true);
      expect(inside(planted.ofTheAirDrawn.meanDifference, got.meanDifference), `mean difference ${k}`).toBe(true);
      expect(inside(planted.ofTheAirDrawn.moistureExcess, got.moistureExcess), `moisture ${k}`).toBe(true);
    }
    expect(pair.changes.find((c: any) => c.quantity === "decrementFactor").ratio.high).toBeLessThan(1);
  });
});

describe("climate --json, key for key", () => {
  const climate = document("climate", "--json", "--base", "16", dataset("harbor-loft"));
  it("has the keys of the contract", () => {
    expect(keys(climate)).toEqual(["annualCycle", "counted", "daily", "dewPoint", "monthly", "record", "trend", "warnings", "yearly", "years"]);
    expect(keys(climate.daily[0])).toEqual(["date", "place", "quantities"]);
    expect(keys(Object.values(climate.daily[20].quantities)[0])).toEqual(["coverage", "max", "maxAt", "mean", "min", "minAt"]);
    expect(climate.daily.every((d: any) => /^\d{4}-\d\d-\d\d$/.test(d.date))).toBe(true);
    expect(climate.monthly.every((d: any) => /^\d{4}-\d\d$/.test(d.date))).toBe(true);
    expect(climate.trend.every((t: any) => t.slope === null && t.daysToGo > 0 && t.reason !== "")).toBe(true);
    expect(climate.counted[0].base).toBe(16);
    expect(climate.annualCycle.some((c: any) => isEstimate(c.amplitude))).toBe(true);
  });
});

describe("what these commands refuse", () => {
  it("indoors without a room inside: exit 1, one sentence", () => {
    const run = airtides("indoors", recordFolder(goodDescription()));
    expect(run.code).toBe(1);
    expect(run.out).toBe("");
    expect(run.err).toMatch(/^places must hold at least one with exposure "indoor" \(got porch outdoor\); the description says it of each place\n$/);
  });

  it.each([
    [["indoors", "--factor", "x"], /--factor must be a temperature factor from 0 to 1, such as 0\.70 \(got "x"\)/],
    [["indoors", "--factor", "1.5"], /--factor must be/],
    [["climate", "--base", "warm"], /--base must be degrees Celsius from −100 to 100 \(got "warm"\)/],
    [["climate", "--hot", ""], /--hot must be degrees Celsius/],
  ])("%s: exit 2", (words, sentence) => {
    const run = airtides(...words, dataset("hill-school"));
    expect([run.code, run.out]).toEqual([2, ""]);
    expect(run.err).toMatch(sentence);
  });
});
