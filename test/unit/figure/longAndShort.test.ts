import { describe, expect, it } from "vitest";
import { checkRecord } from "../../../lib/answers/checkRecord.js";
import type { CheckAnswer } from "../../../lib/answers/checkRecord.js";
import { climateOf } from "../../../lib/answers/climateOf.js";
import { indoorsOf } from "../../../lib/answers/indoorsOf.js";
import { swingsOf } from "../../../lib/answers/swingsOf.js";
import { tidesOf } from "../../../lib/answers/tidesOf.js";
import { coverageFigure } from "../../../lib/figure/coverageFigure.js";
import { explore } from "../../../lib/figure/explore.js";
import type { Figure } from "../../../lib/figure/figure.js";
import { type RecordAnswers, recordFigures } from "../../../lib/figure/recordFigures.js";
import { tracesFigure } from "../../../lib/figure/tracesFigure.js";
import { trustFigure } from "../../../lib/figure/trustFigure.js";
import { random } from "../../../lib/ground/random.js";
import type { AirRecord } from "../../../lib/record/airRecord.js";
import type { Quantity } from "../../../lib/record/quantity.js";
import { recordFromSeries } from "../../../lib/record/recordFromSeries.js";
import { series } from "../../../lib/record/series.js";
import { schemaFaults } from "./schemaFaults.js";

const start = Date.UTC(2024, 0, 1);
const base: Readonly<Record<string, number>> = { air_temperature: 15, relative_humidity: 60, surface_air_pressure: 1000 };

/** An invented record: daily cycle and noise in every quantity, one reading of 99 °C where told. */
function invented(parts: { days: number; step: number; places: readonly string[]; quantities?: readonly Quantity[]; site?: AirRecord["site"]; peakAt?: number }): AirRecord {
  const { normal } = random(7);
  const n = Math.floor((parts.days * 86_400) / parts.step);
  const times = Float64Array.from({ length: n }, (_, i) => start + 1000 * parts.step * i);
  const quantities = parts.quantities ?? (["air_temperature", "relative_humidity", "surface_air_pressure"] as const);
  const all = parts.places.flatMap((place) => quantities.map((quantity) => series({ place, quantity, times, values: times.map((t, i) => (i === parts.peakAt && quantity === "air_temperature" ? 39 : base[quantity] + 4 * Math.sin((2 * Math.PI * t) / 86_400_000) + normal())) })));
  return recordFromSeries(all, { zone: "+07:00", ...(parts.site === null || parts.site === undefined ? {} : { site: parts.site }), places: Object.fromEntries(parts.places.map((p, i) => [p, { exposure: i % 2 === 0 ? "outdoor" : "indoor" } as const])) });
}

/** The parts of a trust report that a figure of a faultless record asks for. */
function faultless(record: AirRecord, step: number): CheckAnswer {
  const flags = { range: 0, spike: 0, stuck: 0, step: 0, saturated: 0, swapped: 0, warmed: 0 };
  const places = Object.fromEntries(Object.keys(record.places).map((p) => [p, { medianStepSeconds: step, coverage: 1, gaps: [], faults: [], flags }]));
  return { places, clock: { jumps: [], skippedHours: [], repeatedHours: [] }, agreement: [], verdict: { level: "good", reasons: [] } } as unknown as CheckAnswer;
}

const valuesOf = (figure: Figure): number[] => figure.data.flatMap((t) => (t.type === "scatter" ? t.y.filter((v): v is number => typeof v === "number") : []));

describe("a year of minutes from two places", () => {
  const record = invented({ days: 366, step: 60, places: ["out", "in"], peakAt: 300_001 });
  const makers: readonly (readonly [string, () => Figure])[] = [
    ["traces", () => tracesFigure(record)],
    ["coverage", () => coverageFigure(record, faultless(record, 60))],
    ["trust", () => trustFigure(record, faultless(record, 60))],
    ["explore", () => explore(record)],
  ];

  it("is described below 200 kB, with its highest reading", () => {
    for (const [name, make] of makers) {
      const figure = make();
      expect(JSON.stringify({ data: figure.data, layout: figure.layout }).length, name).toBeLessThan(200_000);
      expect(schemaFaults(figure), name).toEqual([]);
      // The one reading of 39 °C among 527 040; explore shows hourly means.
      if (name === "traces") expect(Math.max(...valuesOf(figure).filter((v) => v < 45))).toBe(39);
    }
  });
});

describe("records that cannot carry much", () => {
  const answersOf = (record: AirRecord): RecordAnswers => {
    const orNull = <T>(make: () => T): T | null => {
      try {
        return make();
      } catch {
        return null;
      }
    };
    return { check: checkRecord(record), tides: orNull(() => tidesOf(record)), swings: orNull(() => swingsOf(record, { draws: 99 })), climate: orNull(() => climateOf(record)), indoors: orNull(() => indoorsOf(record)) };
  };
  const cases: readonly (readonly [string, AirRecord])[] = [
    ["one reading", invented({ days: 1, step: 86_400, places: ["here"] })],
    ["an afternoon", invented({ days: 0.25, step: 300, places: ["here"] })],
    ["two days, no site", invented({ days: 2, step: 600, places: ["out", "in"] })],
    ["ten days of temperature", invented({ days: 10, step: 1800, places: ["out", "in"], quantities: ["air_temperature"] })],
    ["forty days, four places, a reading every three hours", invented({ days: 40, step: 10_800, places: ["a", "b", "c", "d"], site: { latitude: 10, longitude: 100, elevation: 0 } })],
    ["four years, daily", invented({ days: 1500, step: 86_400, places: ["here"] })],
  ];

  for (const [name, record] of cases) {
    it(name, () => {
      const answers = answersOf(record);
      for (const [key, make] of Object.entries(recordFigures(record, answers))) {
        const figure = make();
        if (figure === null) continue;
        expect(schemaFaults(figure), key).toEqual([]);
        expect(figure.message, key).not.toMatch(/NaN|undefined|null|Infinity/);
        expect(JSON.stringify({ data: figure.data, layout: figure.layout }).length, key).toBeLessThan(200_000);
        for (const [axis, part] of Object.entries(figure.layout)) if (/^[xy]axis/.test(axis)) expect((part as { tickvals: unknown[] }).tickvals.length, `${key} ${axis}`).toBeGreaterThan(0);
      }
    });
  }
});
