import { readFileSync } from "node:fs";
import { join } from "node:path";
import { describe, expect, it } from "vitest";
import { type ClimateAnswer, climateOf } from "../../../lib/answers/climateOf.js";
import { jsonText } from "../../../lib/door/cli/json.js";
import { openRecord } from "../../../lib/door/disk/openRecord.js";
import { displaySymbol } from "../../../lib/ground/display.js";
import { random } from "../../../lib/ground/random.js";
import { expectClose } from "../../close.js";
import { root } from "../../laws/sources.js";
import { hourlyRecord, hourMs, madeFrom, weather } from "./madeRecords.js";

const textOf = (answer: ClimateAnswer, columns = 100): string => answer[displaySymbol](columns)["text/plain"];
/** A year of 10 ± 8 K with a day of ± 4 K and weather of 3 K, from 1 January 2023. */
const temperature = (days: number, seed: number): Float64Array => weather(24 * days, { seed, memory: 30, spread: 3 }).map((v, h) => 10 + v - 8 * Math.cos((2 * Math.PI * (h / 24 - 20)) / 365.25) - 4 * Math.cos((2 * Math.PI * (h - 3)) / 24));

describe("climateOf", () => {
  const answer = climateOf(hourlyRecord({ yard: { values: { air_temperature: temperature(400, 5), relative_humidity: new Float64Array(24 * 400).fill(70) } } }), { base: 15 });

  it("has the keys of the contract, frozen, as plain JSON", () => {
    expect(Object.keys(answer).sort()).toEqual(["annualCycle", "counted", "daily", "dewPoint", "monthly", "record", "trend", "warnings", "yearly", "years"]);
    expect(Object.isFrozen(answer) && Object.isFrozen(answer.daily) && Object.isFrozen(answer.daily[0])).toBe(true);
    const json = JSON.parse(jsonText(answer));
    expect(Object.keys(json.daily[0])).toEqual(["place", "date", "quantities"]);
    expect(Object.keys(json.daily[0].quantities.air_temperature)).toEqual(["mean", "min", "max", "minAt", "maxAt", "coverage"]);
    expect([json.daily[0].date, json.monthly[0].date, json.yearly[0].date]).toEqual(["2023-01-01", "2023-01", "2023"]);
    expect(json.daily.length).toBe(400);
    expect(Object.keys(json.monthly[0].quantities.air_temperature.mean).sort()).toEqual(["high", "level", "low", "standardError", "unit", "value"]);
    expect(Object.keys(json.trend[0])).toEqual(expect.arrayContaining(["place", "quantity", "slope", "unit", "reason", "daysToGo"]));
  });

  it("the yearly round of temperature holds what was planted; a trend is refused with the days to log", () => {
    const round = answer.annualCycle.find((r) => r.quantity === "air_temperature");
    for (const [e, planted] of [[round?.mean, 10], [round?.amplitude, 8], [round?.maximumOn, 203.6]] as const) {
      expect(e != null && e.low <= planted && planted <= e.high, JSON.stringify(e)).toBe(true);
    }
    const trend = answer.trend.find((t) => t.quantity === "air_temperature");
    expect(trend?.slope).toBeNull();
    expect(trend?.daysToGo).toBe(1827 - 400);
  });

  it("a year that holds no whole day has no degree days in words", () => {
    const withEnd = textOf(climateOf(hourlyRecord({ yard: { values: { air_temperature: temperature(366, 5).slice(0, 24 * 365 + 1) } } })));
    expect(withEnd).toContain("  2023: ");
    expect(withEnd).not.toContain("  2024: ");
  });

  it("counts degree days by the base asked for, year by year", () => {
    expect(answer.counted.map((c) => [c.date, c.days, c.base])).toEqual([["2023", 365, 15], ["2024", 35, 15]]);
    const means = answer.daily.filter((d) => d.date.startsWith("2023")).map((d) => d.quantities.air_temperature?.mean ?? Number.NaN);
    expectClose(answer.counted[0].heatingDegreeDays, means.reduce((sum, m) => sum + Math.max(0, 15 - m), 0), { absolute: 1e-6 }, "a plain sum");
  });

  it("reads well in 80 columns, says what is missing, and compares the same months", () => {
    const text = textOf(answer, 80);
    for (const line of text.split("\n")) expect(line.length, line).toBeLessThanOrEqual(80);
    expect(text).toMatch(/2024 against 2023, the same 1 month/);
    expect(text).toMatch(/log 1427 more days/);
    expect(text).toMatch(/readings every 60 minutes miss the true/);
  });
});

describe("climateOf on records that cannot carry all of it", () => {
  it("ten days: days only, months and years null", () => {
    const { daily, monthly, annualCycle } = climateOf(hourlyRecord({ yard: { values: { air_temperature: temperature(10, 5) } } }));
    expect(daily.filter((d) => d.quantities.air_temperature?.mean !== null).length).toBe(10);
    expect(monthly.map((m) => m.quantities.air_temperature?.mean)).toEqual([null]);
    expect(annualCycle[0]).toMatchObject({ mean: null, amplitude: null, detected: null, daysToGo: 355 });
  });

  it("a hole of three months: its days are there, empty, with no coverage", () => {
    const values = temperature(200, 9);
    values.fill(Number.NaN, 24 * 50, 24 * 140);
    const { daily } = climateOf(hourlyRecord({ yard: { values: { air_temperature: values } } }));
    const hole = daily.slice(50, 140).map((d) => d.quantities.air_temperature);
    expect(daily.length).toBe(200);
    expect(hole.every((d) => d?.mean === null && d.coverage === 0 && d.min === null)).toBe(true);
  });

  it("half a day missing: no mean of that day; five days of a month: a wider interval than one", () => {
    const values = temperature(90, 9);
    values.fill(Number.NaN, 24 * 10 + 2, 24 * 10 + 14);
    values.fill(Number.NaN, 24 * 40, 24 * 41);
    values.fill(Number.NaN, 24 * 65, 24 * 70);
    const { daily, monthly } = climateOf(hourlyRecord({ yard: { values: { air_temperature: values } } }));
    expect(daily[10].quantities.air_temperature).toMatchObject({ mean: null, coverage: 0.5 });
    const width = monthly.map((m) => (m.quantities.air_temperature?.mean?.high ?? Number.NaN) - (m.quantities.air_temperature?.mean?.low ?? Number.NaN));
    expect(width[1]).toBeGreaterThan(0);
    expect(width[2]).toBeGreaterThan(width[1]);
  });

  it("a station that was moved: told, and no trend across it", () => {
    const { normal } = random(77);
    const months = 12 * 7;
    const values = Float64Array.from({ length: months * 30 }, (_, d) => 10 + 2 * normal() + (d > months * 15 ? 3 : 0));
    const at = madeFrom + months * 15 * 24 * hourMs;
    const moved = climateOf(hourlyRecord({ yard: { values: { air_temperature: values } } }, { stepHours: 24, events: [{ at, to: null, kind: "station moved", title: "to the wall" }] }));
    expect(moved.trend[0].slope).toBeNull();
    expect(moved.trend[0].reason).toMatch(/none across a change of the measurement \(the station was moved on 2026-06-/);
    expect(moved.trend[0].daysToGo).toBeGreaterThan(500);
    const still = climateOf(hourlyRecord({ yard: { values: { air_temperature: values } } }, { stepHours: 24 }));
    expect(still.trend[0].slope).not.toBeNull();
  });

  it("one value a day is the day's mean; no extremes", () => {
    const { daily, warnings } = climateOf(hourlyRecord({ yard: { values: { air_temperature: [1, 2, 3, 4] } } }, { stepHours: 24 }));
    expect(daily.map((d) => d.quantities.air_temperature?.mean)).toEqual([1, 2, 3, 4]);
    expect(daily[0].quantities.air_temperature?.min).toBeNull();
    expect(warnings.join(" ")).toMatch(/one value a day: each is taken as the mean of its day/);
  });

  it("nothing left: one sentence", () => {
    expect(() => climateOf(hourlyRecord({ yard: { values: { air_temperature: [400, 500] } } }))).toThrow("made must hold a reading that is not marked as faulty (got none); run check to see why");
  });
});

describe("puget-normals, published hourly normals 1981–2010 (NOAA, by vega-datasets)", () => {
  it("months are the means of their own rows, and the yearly round is that of the twelve", async () => {
    const folder = join(root, "datasets", "puget-normals");
    const answer = climateOf(await openRecord(folder));
    const file = JSON.parse(readFileSync(join(folder, "datapackage.json"), "utf8")).resources[0].path;
    const rows = readFileSync(join(folder, Array.isArray(file) ? file[0] : file), "utf8").trim().split("\n").slice(1);
    const byMonth: number[][] = Array.from({ length: 12 }, () => []);
    for (const row of rows) {
      const [at, ...rest] = row.split(",");
      const month = Number(/-(\d\d)-/.exec(at)?.[1] ?? /\/(\d\d)\//.exec(at)?.[1]);
      byMonth[month - 1].push(Number(rest[1]));
    }
    const means = byMonth.map((v) => v.reduce((a, b) => a + b, 0) / v.length);
    const told = answer.monthly.map((m) => m.quantities.air_temperature?.mean?.value ?? Number.NaN);
    for (const [k, m] of told.entries()) expectClose(m, means[k], { absolute: 0.05 }, "the first hour of January is not in the file");
    const round = answer.annualCycle.find((r) => r.quantity === "air_temperature");
    // The first harmonic of twelve monthly means, each at its middle, sinc of a month put back.
    const [c, s] = [Math.cos, Math.sin].map((f) => means.reduce((sum, m, k) => sum + m * f((2 * Math.PI * (k + 0.5)) / 12), 0) / 6);
    const damping = Math.sin(Math.PI / 12) / (Math.PI / 12);
    expectClose(round?.amplitude?.value ?? 0, Math.hypot(c, s) / damping, { relative: 0.02 }, "months are of unlike length");
  });
});
