import { describe, expect, it } from "vitest";
import type { AirRecord } from "../../../lib/record/airRecord.js";
import { narrowRecord } from "../../../lib/record/narrowRecord.js";
import { recordFromSeries } from "../../../lib/record/recordFromSeries.js";
import { series } from "../../../lib/record/series.js";
import { withoutResets } from "../../../lib/trust/clock/withoutResets.js";
import { resetWarnings } from "../../../lib/trust/findings/resetFindings.js";

const hourMs = 3_600_000;
const dayMs = 24 * hourMs;
const yearMs = 365.2425 * dayMs;

/** Hourly temperatures over spans [from, hours], each place its own. */
function recordOf(spans: Readonly<Record<string, readonly (readonly [number, number])[]>>): AirRecord {
  const all = Object.entries(spans).map(([place, list]) => {
    const times = list.flatMap(([from, hours]) => Array.from({ length: hours }, (_, h) => from + h * hourMs));
    return series({ times, values: times.map((_, i) => i % 7), quantity: "air_temperature", place });
  });
  return recordFromSeries(all, { name: "made" });
}

const body = Date.UTC(2024, 2, 1);
const zero = Date.UTC(2000, 0, 1);
const days = (n: number): number => 24 * n;

describe("withoutResets", () => {
  it("sets days of 2000 beside a hundred days of 2024 aside, counts them place by place, and changes nothing it was given", () => {
    const record = recordOf({ out: [[zero, days(3)], [body, days(100)]], in: [[zero + hourMs, days(2)], [body, days(100)]] });
    const before = JSON.stringify(record.places.out.readings);
    const rest = withoutResets(record);
    expect(rest.setAside).toEqual([
      { place: "out", from: zero, to: zero + 71 * hourMs, readings: 72 },
      { place: "in", from: zero + hourMs, to: zero + 48 * hourMs, readings: 48 },
    ]);
    expect([rest.from, rest.to, rest.places.out.readings, rest.places.in.readings]).toEqual([body, body + 2399 * hourMs, 2400, 2400]);
    expect([record.places.out.readings, JSON.stringify(record.places.out.readings)]).toEqual([2472, before]);
    expect(Object.isFrozen(rest) && Object.isFrozen(rest.setAside)).toBe(true);
  });

  it("sets 1970 and a stray stamp of 2099 aside in one record", () => {
    const rest = withoutResets(recordOf({ here: [[0, 5], [body, days(30)], [Date.UTC(2099, 5, 5), 1]] }));
    expect(rest.setAside?.map((s) => s.readings)).toEqual([5, 1]);
    expect([rest.from, rest.to]).toEqual([body, body + 719 * hourMs]);
  });

  it("leaves a place without a reading where all it wrote came from the reset", () => {
    const rest = withoutResets(recordOf({ out: [[body, days(100)]], in: [[zero, 10]] }));
    expect([rest.places.in.readings, rest.setAside?.[0].readings]).toEqual([0, 10]);
  });

  it.each<[string, [number, number][]]>([
    ["one span", [[body, days(400)]]],
    ["14 months off, then a year on", [[Date.UTC(2022, 0, 1), days(100)], [Date.UTC(2022, 0, 1) + (100 + 425) * dayMs, days(365)]]],
    ["3 weeks of 2019 and a year of 2024", [[Date.UTC(2019, 4, 3), days(21)], [Date.UTC(2024, 0, 1), days(366)]]],
    ["a day of 2015 and ten years from 2017 on: the gap is shorter than the rest", [[Date.UTC(2015, 0, 1), 5], [Date.UTC(2017, 2, 1), days(3650)]]],
    ["halves of a record, 20 years apart", [[zero, days(30)], [body, days(30)]]],
    ["two lone readings", [[zero, 1], [body, 1]]],
  ])("lets be: %s", (_, spans) => {
    const record = recordOf({ here: spans });
    expect(withoutResets(record)).toBe(record);
  });

  it("beyond a day the gap must be over ten years, within a day over two", () => {
    const at = (gapYears: number, hours: number): boolean => withoutResets(recordOf({ here: [[body - gapYears * yearMs - (hours - 1) * hourMs, hours], [body, days(366)]] })).setAside !== undefined;
    expect([at(9.99, 26), at(10.01, 26), at(1.99, 25), at(2.01, 25)]).toEqual([false, true, false, true]);
  });

  it("the gap must be longer than all the rest", () => {
    const at = (restYears: number): boolean => withoutResets(recordOf({ here: [[body - 3 * yearMs, 1], [body, Math.round(restYears * 8766)]] })).setAside !== undefined;
    expect([at(2.99), at(3.01)]).toEqual([true, false]);
  });

  it("a stretch may hold a fifth of the rest, in time and in readings", () => {
    // 481 h from first to last are a fifth of 2401 h; 480 of 2400.
    const at = (hours: number): boolean => withoutResets(recordOf({ here: [[zero, hours], [body, 2400]] })).setAside !== undefined;
    expect([at(480), at(481)]).toEqual([true, false]);
    const sparse = recordOf({ here: [[zero, 1], [zero + 500 * hourMs, 1], [body, 2400]] });
    expect(withoutResets(sparse)).toBe(sparse);
  });

  it("what is no reset clock's is part of the rest, and lengthens it for the others", () => {
    const three = recordOf({ here: [[Date.UTC(2009, 0, 1), days(30)], [Date.UTC(2016, 0, 1), 1], [body, days(120)]] });
    // One reading of 2016 lies 8 years from 2024, and the 30 days of 2009 are a quarter of the 120: the rest is 15 years long.
    expect(withoutResets(three)).toBe(three);
  });

  it("narrowing gets at the stretch, or leaves it without a word", () => {
    const record = recordOf({ here: [[zero, days(3)], [body, days(100)]] });
    expect(withoutResets(narrowRecord(record, { until: Date.UTC(2001, 0, 1) })).places.here.readings).toBe(72);
    expect(withoutResets(narrowRecord(record, { since: body })).setAside).toBeUndefined();
    expect(narrowRecord(withoutResets(record), { since: body }).setAside).toEqual([]);
  });

  it("is told in one sentence a stretch", () => {
    const rest = withoutResets(recordOf({ out: [[zero, days(3)], [body, days(100)]], in: [[zero, days(2)], [body, days(100)], [Date.UTC(2099, 5, 5), 1]] }));
    expect(resetWarnings(rest)).toEqual([
      "120 readings stamped 2000-01-01 to 2000-01-03, 24.2 years before the rest of the record, are left out: the clock was reset; run check for what to do",
      "1 reading stamped 2099-06-05, 75.0 years after the rest of the record, is left out: the clock was reset; run check for what to do",
    ]);
    expect(resetWarnings(rest, ["out"])).toHaveLength(1);
    expect(resetWarnings(recordOf({ here: [[body, 9]] }))).toEqual([]);
  });
});
