import { describe, expect, it } from "vitest";
import { comingPart } from "../../../../lib/door/page/comingPart.js";
import { houseParts } from "../../../../lib/door/page/housePart.js";
import { reportAnswers, type ReportAnswers } from "../../../../lib/door/page/reportAnswers.js";
import { tidePart } from "../../../../lib/door/page/tidePart.js";
import { trustPart } from "../../../../lib/door/page/trustPart.js";
import { estimate } from "../../../../lib/ground/estimate.js";
import { recordFromSeries } from "../../../../lib/record/recordFromSeries.js";
import { series } from "../../../../lib/record/series.js";

const step = 1_800_000;
const days = 30;
const times = Array.from({ length: days * 48 }, (_, k) => Date.UTC(2024, 2, 1) + k * step);
const wave = (k: number, seed: number): number => Math.sin(k * 12.9898 + seed) * 0.3;

/** Thirty days of a porch and a room at 11° E: S2 of 0.8 hPa cresting at ten by the sun; the room 6 K warmer, with 0.4 of the swing, 3 h later. */
function answers(more: Partial<Parameters<typeof recordFromSeries>[1]> = {}): ReportAnswers {
  const hour = (k: number): number => (k / 2) % 24;
  const values = (of: (k: number) => number): number[] => times.map((_, k) => of(k));
  const at = (place: string) => (quantity: "air_temperature" | "surface_air_pressure", of: (k: number) => number) => series({ times, values: values(of), quantity, place });
  const pressure = (k: number): number => 930 + 3 * Math.sin(k / 150) + 0.8 * Math.cos((4 * Math.PI * (hour(k) + 11 / 15 - 10)) / 24) + 0.05 * wave(k, 2);
  return reportAnswers(
    recordFromSeries(
      [
        at("porch")("air_temperature", (k) => 12 + 5 * Math.cos((2 * Math.PI * (hour(k) - 15)) / 24) + 2 * Math.sin(k / 90) + wave(k, 0)),
        at("porch")("surface_air_pressure", pressure),
        at("room")("air_temperature", (k) => 18 + 2 * Math.cos((2 * Math.PI * (hour(k) - 18)) / 24) + 1.2 * Math.sin((k - 8) / 90) + wave(k, 1)),
      ],
      { name: "trial", site: { latitude: 47, longitude: 11, elevation: 700 }, places: { porch: { title: "Porch", exposure: "outdoor" }, room: { title: "Room", exposure: "indoor" } }, ...more } as never,
    ),
  );
}

const told = answers();

describe("the sentences of the report", () => {
  it("tell the tide that is in the readings, by the sun and by the clock", () => {
    const { brief, answer, tables } = tidePart(told, []);
    expect(brief).toMatch(/^Twice a day the pressure at Porch rises and falls by 0\.(80|799)\d* ± 0\.0\d+ hPa to either side of its mean, highest at (09:59|10:0[01]) and (21:59|22:0[01]) by the sun \(± \d min\)\.$/);
    // 11° E is 44 minutes ahead of UTC.
    expect(answer).toMatch(/By the clock \(UTC\+00:00\) that is 09:1\d and 21:1\d\./);
    expect(tables[0].rows.map((r) => r[0])).toEqual(["Porch, S1", "Porch, S2", "Porch, S3"]);
  });

  it("tell the house in words that fit the sign", () => {
    const [part] = houseParts(told, () => []);
    expect(part.brief).toMatch(/^On average Room is (5\.[89]|6\.[01])\d* ± [\d.]+ K warmer than Porch; (39|40|41)[\d.]* ± [\d.]+ % of the daily swing outside comes in, (2\.[89]|3\.[01])\d* ± [\d.]+ h later\.$/);
    expect(part.caution).toContain("local codes and licensed practice");
    const pair = told.indoors.answer?.pairs[0];
    if (pair === undefined) throw new Error("the trial has a pair");
    const says = (meanDifference: ReturnType<typeof estimate> | null, timeLag: ReturnType<typeof estimate> | null): string =>
      houseParts({ ...told, indoors: { why: null, answer: { pairs: [{ ...pair, meanDifference, timeLag }] } as never } }, () => [])[0].brief;
    const kelvin = (value: number): ReturnType<typeof estimate> => estimate({ value, standardError: 0.5, low: value - 1, high: value + 1, unit: "K" });
    expect(says(kelvin(-3), null)).toContain("Room is 3.0 ± 1.0 K colder than Porch");
    expect(says(kelvin(0.2), null)).toContain("Room and Porch are about as warm (0.2 ± 1.0 K)");
    expect(says(null, null)).toContain("cannot be told yet");
    expect(says(kelvin(-3), { ...kelvin(-2), unit: "h" })).toContain("2.0 ± 1.0 h before it");
  });

  it("say what a record of one side lacks, in one sentence", () => {
    const lone = answers({ places: { porch: { title: "Porch", exposure: "outdoor" }, room: { title: "Room", exposure: "outdoor" } } } as never);
    expect(houseParts(lone, () => [])[0].answer).toBe('This record cannot carry it: no place of it is marked as inside; log both at once and tell which is which in the description ("exposure": "indoor" or "outdoor")');
    const nowhere = answers({ site: undefined } as never);
    expect(tidePart(nowhere, []).brief).toMatch(/^This record cannot carry it: site must be told for the tide/);
  });

  it("tell what is coming with the tide as a table by the clock", () => {
    const { brief, tables, caution } = comingPart(told, []);
    expect(brief).toMatch(/^In the three hours to 30 Mar 2024 23:30 the pressure at Porch, freed of its tide, (rose by|fell by|held \()/);
    expect(caution).toMatch(/^Not a storm warning/);
    const [table] = tables;
    expect(table.rows.length).toBe(24);
    // Crest at ten by the sun is 09:16 UTC: the hours of nine stand highest, and three hours before it lies most of the rise.
    const heights = table.rows.map((r) => Number(String(r[1]).replace("−", "-")));
    expect(heights.indexOf(Math.max(...heights)) % 12).toBe(9);
    expect(Math.max(...heights)).toBeGreaterThan(0.75);
    expect(table.rows.map((r) => Number(String(r[2]).replace("−", "-")))[9]).toBeGreaterThan(0.5);
  });

  it("open with yes, yes with care, or no, as the verdict is", () => {
    const at = (level: "good" | "usable" | "poor"): string => trustPart({ ...told, check: { ...told.check, verdict: { level, reasons: ["the lesser", "the worst"] } } as never }, []).brief;
    expect([at("good"), at("usable"), at("poor")].map((s) => s.split(":")[0])).toEqual(["Yes", "Yes, with care", "Not as it stands"]);
    expect([at("good"), at("usable"), at("poor")].map((s) => s.endsWith(" Above all, the worst."))).toEqual([false, true, true]);
    const drift = estimate({ value: -0.3, standardError: 0.01, low: -0.32, high: -0.28, unit: "hPa year-1" });
    const bias = estimate({ value: 0.4, standardError: 0.01, low: 0.38, high: 0.42, unit: "hPa" });
    const answer = trustPart({ ...told, check: { ...told.check, agreement: [{ a: "porch", b: "room", quantity: "surface_air_pressure", basis: "pressure", bias, limits: { low: 0, high: 1 }, drift }] } as never }, []).answer;
    expect(answer).toContain("the station pressure of Porch minus that of Room is 0.40 ± 0.02 hPa. Their barometers drift apart by 0.30 ± 0.02 hPa a year.");
  });
});
