import { readFileSync } from "node:fs";
import { join } from "node:path";
import { describe, expect, it } from "vitest";
import { dataset, document, inside, keys } from "./run.js";

const estimateKeys = ["high", "level", "low", "standardError", "unit", "value"];

const truth = JSON.parse(readFileSync(join(dataset("hill-school"), "truth.json"), "utf8"));
const check = document("check", "--json", dataset("hill-school"));
const tides = document("tides", "--json", dataset("hill-school"));

describe("check --json, key for key", () => {
  it("has the keys of the contract", () => {
    expect(keys(check)).toEqual(["agreement", "altitude", "clock", "files", "places", "record", "verdict"]);
    expect(keys(check.record)).toEqual(["days", "from", "name", "site", "title", "to"]);
    expect(keys(check.files[0])).toEqual(["accepted", "lines", "path", "rejected", "skipped"]);
    expect(keys(check.places.veranda)).toEqual(["conflicting", "coverage", "faults", "flags", "from", "gaps", "medianStepSeconds", "quantities", "readings", "repeated", "to"]);
    expect(keys(check.places.veranda.quantities.air_temperature)).toEqual(["coverage", "max", "mean", "min", "values"]);
    expect(keys(check.places.veranda.faults[0])).toEqual(["flag", "from", "quantity", "readings", "size", "to"]);
    expect(keys(check.places.veranda.flags)).toEqual(["range", "saturated", "spike", "step", "stuck", "swapped", "warmed"]);
    expect(keys(check.clock)).toEqual(["betweenPlaces", "corrections", "jumps", "repeatedHours", "skippedHours", "solar", "zone"]);
    expect(keys(check.clock.solar)).toEqual(["amplitude", "expected", "maximumAt", "plausible", "says"]);
    expect(keys(check.agreement[0])).toEqual(["a", "b", "basis", "bias", "drift", "limits", "quantity"]);
    expect(keys(check.altitude.veranda)).toEqual(["difference", "expected", "impliedElevation", "looksLike", "median", "plausible", "says"]);
    expect(keys(check.verdict)).toEqual(["level", "reasons"]);
  });

  it("every line is accounted for, as planted", () => {
    for (const [k, file] of check.files.entries()) {
      const planted = truth.files[k];
      expect(file.lines).toBe(file.accepted + file.skipped + file.rejected.length);
      expect([file.path, file.lines, file.accepted, file.skipped, file.rejected.length]).toEqual([planted.path, planted.lines, planted.accepted, planted.skipped, planted.rejected]);
      const lines = Object.values(planted.rejectedLines as Record<string, number[]>).flat().sort((a, b) => a - b);
      expect(file.rejected.map((r: { line: number }) => r.line)).toEqual(lines);
    }
    const accepted = check.files.reduce((n: number, f: { accepted: number }) => n + f.accepted, 0);
    const kept = Object.values(check.places as Record<string, any>).reduce((n, p) => n + p.readings + p.repeated + p.conflicting, 0);
    expect(accepted).toBe(kept);
  });

  it("counts readings, repeats and conflicts as planted, and sees the clock go back", () => {
    for (const name of ["veranda", "library"]) {
      const { readings, repeated, conflicting } = check.places[name];
      expect({ readings, repeated, conflicting }).toEqual({ readings: truth.places[name].readings, repeated: truth.places[name].repeated, conflicting: truth.places[name].conflicting });
    }
    expect(check.clock.jumps.map((j: { place: string; seconds: number }) => [j.place, j.seconds])).toEqual([["library", -3600], ["library", 3600]]);
  });
});

describe("the clocks of two loggers", () => {
  it("the planted 140 s, told nowhere, lie inside the interval", () => {
    const [between] = check.clock.betweenPlaces;
    expect(keys(between)).toEqual(["a", "b", "drift", "offset"]);
    expect([between.a, between.b]).toEqual(["veranda", "library"]);
    expect(inside(-140, between.offset)).toBe(true);
    expect(between.offset.high).toBeLessThan(0);
    expect(check.verdict.reasons.some((r: string) => /clock of veranda is \d+ ± \d+ s behind that of library/.test(r))).toBe(true);
  });
});

describe("tides --json, key for key", () => {
  it("has the keys of the contract", () => {
    expect(keys(tides)).toEqual(["places", "record"]);
    const place = tides.places.veranda;
    expect(keys(place)).toEqual(["climatology", "constituents", "days", "quantity", "seasonal", "warnings"]);
    expect(place.constituents.map((c: { name: string }) => c.name)).toEqual(["S1", "S2", "S3"]);
    for (const c of place.constituents) {
      expect(keys(c)).toEqual(["amplitude", "cyclesPerDay", "detected", "detectionLimit", "maximumAt", "name", "noiseDensity"]);
      expect(keys(c.amplitude)).toEqual(estimateKeys);
      expect(c.amplitude.unit).toBe("hPa");
      expect(c.maximumAt.unit).toBe("h");
    }
    expect(keys(place.climatology[0])).toEqual(["constituents", "days", "month"]);
    expect(place.seasonal.changes).toBe(null);
  });

  it("the planted tide of the veranda lies inside every interval told", () => {
    for (const planted of truth.places.veranda.tide.slice(0, 3)) {
      const found = tides.places.veranda.constituents.find((c: { name: string }) => c.name === planted.name);
      expect(inside(planted.amplitude, found.amplitude), `${planted.name} amplitude`).toBe(true);
      expect(inside(planted.maximumAt, found.maximumAt), `${planted.name} hour`).toBe(true);
    }
  });

  it("the library's lies inside too, by its own clock", () => {
    for (const planted of truth.places.library.tide.slice(0, 3)) {
      const found = tides.places.library.constituents.find((c: { name: string }) => c.name === planted.name);
      expect(inside(planted.amplitude, found.amplitude), `${planted.name} amplitude`).toBe(true);
      expect(inside(planted.maximumAtByItsClock, found.maximumAt), `${planted.name} hour`).toBe(true);
    }
  });

  it("facts of the trade: highest near 10 and 22 h, lowest near 4 and 16 h in the tropics, 1 to 1.7 hPa (common practice, no source)", () => {
    const s2 = tides.places.veranda.constituents[1];
    expect(Math.abs(s2.maximumAt.value - 10)).toBeLessThan(1);
    expect(s2.amplitude.value).toBeGreaterThan(1);
    expect(s2.amplitude.value).toBeLessThan(1.7);
  });

  it("harbor-loft's planted S2 and S3 lie inside too", () => {
    const planted = JSON.parse(readFileSync(join(dataset("harbor-loft"), "truth.json"), "utf8"));
    const found = document("tides", "--json", "--place", "harbor", dataset("harbor-loft"));
    expect(keys(found.places)).toEqual(["harbor"]);
    for (const line of planted.places.harbor.tide.slice(0, 3)) {
      const c = found.places.harbor.constituents.find((k: { name: string }) => k.name === line.name);
      expect(inside(line.amplitude, c.amplitude), `${line.name} amplitude`).toBe(true);
      if (c.maximumAt !== null) expect(inside(line.maximumAt, c.maximumAt), `${line.name} hour`).toBe(true);
    }
  });
});

describe("narrowing", () => {
  it("--since is included, --until is not, and the record's span is the narrowed one", () => {
    const part = document("check", "--json", "--since", "2024-05-01", "--until", "2024-05-03T00:00", dataset("hill-school"));
    expect(part.record.from >= "2024-04-30T17:00:00Z").toBe(true);
    expect(part.record.to < "2024-05-02T17:00:00Z").toBe(true);
    expect(part.files).toEqual(check.files);
  });
});
