import { describe, expect, it } from "vitest";
import type { RecordError } from "../../../lib/ground/complaint.js";
import { housePairs } from "../../../lib/indoors/housePairs.js";
import { leftAlone } from "../../../lib/indoors/leftAlone.js";
import type { RecordEvent } from "../../../lib/record/airRecord.js";
import { flagBit } from "../../../lib/record/flag.js";
import type { Series } from "../../../lib/record/series.js";
import { inventedRoom, roomPlans } from "../../simulation/indoorsRoom.js";
import { expectClose } from "../../close.js";
import { type MadePlace, madeInside, madeOutside, madeRecord, madeStart } from "./madeRecord.js";

const n = 24 * 30;
const outside = madeOutside(n, 41);
const inside = madeInside(outside, 9, 42);
const of = (exposure: "indoor" | "outdoor", air_temperature: ArrayLike<number>, relative_humidity?: ArrayLike<number>): MadePlace => ({ exposure, values: relative_humidity === undefined ? { air_temperature } : { air_temperature, relative_humidity } });
const flat = (v: number, length = n): Float64Array => new Float64Array(length).fill(v);
const dayMs = 86_400_000;
const event = (day: number, to: number | null, kind: string | null, title: string): RecordEvent => ({ at: madeStart + day * dayMs, to: to === null ? null : madeStart + to * dayMs, kind, title });
const noCoLocation = "No co-location: sensors of this class differ by 0.3–0.6 K, 2–3 % RH, which is in no interval; put both side by side for two days.";

describe("what housePairs says of sensors and events", () => {
  it("no co-location, no events; clocks taken as equal unless they are told", () => {
    const [pair] = housePairs(madeRecord({ a: of("outdoor", outside), b: of("indoor", inside) }), { offsetHours: 0 });
    expect(pair.warnings.at(-1)).toBe(noCoLocation);
    expect(pair.warnings).toContain("The two clocks were taken as equal: a difference between them moves every lag by as much.");
    expect([pair.periods, pair.changes]).toEqual([[], []]);
    const [told] = housePairs(madeRecord({ a: of("outdoor", outside), b: of("indoor", inside) }), { offsetHours: 0, clockOffsetSeconds: 0 });
    expect(told.warnings.some((s) => s.includes("taken as equal"))).toBe(false);
    expect([pair.warnings, pair.periods, pair.changes].every(Object.isFrozen)).toBe(true);
  });

  it("a co-location is told with what it took off, to the hundredth", () => {
    const off = inside.map((v, h) => (h < 72 ? outside[h] : v) - 0.25);
    const [pair] = housePairs(madeRecord({ a: of("outdoor", outside), b: of("indoor", off) }, [event(0, 3, "co-location", "together")]), { offsetHours: 0 });
    expect(pair.warnings.at(-1)).toBe("The sensors' own difference, measured side by side, is taken off (-0.25 K of temperature); it holds for the weather of those days.");
    expect(pair.sensorOffset).toMatchObject({ humidity: null, moisture: null, basis: "co-location" });
    expect(pair.sensorOffset.temperature!.unit).toBe("K");
    expect(Object.isFrozen(pair.sensorOffset)).toBe(true);
  });

  it("the longest co-location counts, in whole hours of it; one without 6 hours of both is none", () => {
    const bias = inside.map((v, h) => (h < 24 ? outside[h] + 5 : h >= 240 && h < 312 ? outside[h] + 1 : v));
    const record = madeRecord({ a: of("outdoor", outside), b: of("indoor", bias) }, [event(0, 1, "co-location", "short"), event(10, 13, "co-location", "long")]);
    expectClose(housePairs(record, { offsetHours: 0 })[0].sensorOffset.temperature!.value, 1, { absolute: 1e-9 });
    const halves = madeRecord({ a: of("outdoor", outside), b: of("indoor", bias) }, [event(10 - 0.5 / 24, 13 + 0.5 / 24, "co-location", "carried")]);
    expectClose(housePairs(halves, { offsetHours: 0 })[0].sensorOffset.temperature!.value, 1, { absolute: 1e-9 });
    const brief = madeRecord({ a: of("outdoor", outside), b: of("indoor", bias) }, [event(10, 10 + 5 / 24, "co-location", "brief")]);
    expect(housePairs(brief, { offsetHours: 0 })[0].sensorOffset.basis).toBe("class");
  });

  it("humidity is corrected too and stays within 0…100; its moisture is told", () => {
    const rhOut = flat(60).map((v, h) => v + 5 * Math.sin(h / 9));
    const rhIn = rhOut.map((v, h) => (h < 72 ? v + 4 : h % 2 === 0 ? 2 : 50));
    const [pair] = housePairs(madeRecord({ a: of("outdoor", outside, rhOut), b: of("indoor", inside.map((v, h) => (h < 72 ? outside[h] : v)), rhIn) }, [event(0, 3, "co-location", "together")]), { offsetHours: 0 });
    expectClose(pair.sensorOffset.humidity!.value, 4, { absolute: 1e-9 });
    expect([pair.sensorOffset.humidity!.unit, pair.sensorOffset.moisture!.unit]).toEqual(["%", "g m-3"]);
    expect(pair.sensorOffset.moisture!.value).toBeGreaterThan(0.1);
    // 2 % less 4 is 0 % and still a reading: with it left out, or below 0, the mean moisture would be another.
    const half = housePairs(madeRecord({ a: of("outdoor", outside, rhOut), b: of("indoor", inside, rhOut.map((_v, h) => (h % 2 === 0 ? 0 : 46))) }, [event(0, 3, null, "x")]), { offsetHours: 0 })[0];
    expectClose(pair.moistureExcess!.value, half.moistureExcess!.value, { absolute: 0.4 });
  });

  it("events: the two sentences, and periods with their own warnings", () => {
    const warmed = new Array<number>(n).fill(0);
    warmed[5] = warmed[100] = warmed[600] = flagBit.warmed;
    const record = madeRecord({ a: of("outdoor", outside), b: of("indoor", inside) }, [event(15, null, null, "windows")]);
    const place = record.places.a!;
    const flagged = { ...place, series: { ...place.series, air_temperature: { ...(place.series.air_temperature as Series), flags: Uint16Array.from(warmed) } } };
    const [pair] = housePairs({ ...record, places: { ...record.places, a: flagged } }, { offsetHours: 0 });
    expect(pair.warnings.slice(-3)).toEqual([
      noCoLocation,
      "The numbers of the whole record mix what was before and after its events: read the periods.",
      "Changes: anything else that changed on the same date as an event cannot be told apart from it.",
    ]);
    const heated = (warnings: readonly string[]): string | undefined => warnings.find((s) => s.includes("look heated"))?.split(" ")[0];
    expect([heated(pair.warnings), ...pair.periods.map((p) => heated(p.warnings))]).toEqual(["3", "2", "1"]);
    expect(pair.periods.map((p) => [p.title, p.from, p.to, p.days])).toEqual([
      ["before: windows", "2024-01-01T00:00:00Z", "2024-01-14T00:00:00Z", 13],
      ["after: windows", "2024-01-18T00:00:00Z", "2024-01-31T00:00:00Z", 13],
    ]);
    expect([pair.periods[0], pair.changes[0]].every(Object.isFrozen)).toBe(true);
    expect(pair.changes.length).toBe(6);
  });

  it("days left alone are told by the record's own dates, in a period too", () => {
    const { inside: room, outside: air } = inventedRoom(roomPlans.middle, 120, 31_007);
    const held = room.map((v, h) => (h < 24 * 60 && !Number.isNaN(v) ? 20 + 0.1 * Math.sin(h * h) : v));
    const shifted = (values: Float64Array): Float64Array => Float64Array.from([...flat(Number.NaN, 7), ...values, ...flat(Number.NaN, 17)]);
    const date = (hour: number): string => new Date(madeStart + dayMs * Math.floor(hour / 24)).toISOString().slice(0, 10);
    const dates = (a: Float64Array, b: Float64Array, from = 0): string => leftAlone(a, b)!.spans.map((span) => `${date(from + span.from)} to ${date(from + span.to - 1)}`).join(", ");
    const told = (warnings: readonly string[]): string | undefined => warnings.find((s) => s.includes("for weeks"))?.split("(")[2]?.split(")")[0];
    for (const [offsetHours, a, b] of [[0, held, air], [7, shifted(held), shifted(air)]] as const) {
      const [pair] = housePairs(madeRecord({ a: of("outdoor", air), b: of("indoor", held) }, [event(5, null, null, "boiler")]), { offsetHours });
      expect(told(pair.warnings)).toBe(dates(a, b));
      const from = 24 * Math.round((Date.parse(pair.periods[1].from) + 3_600_000 * offsetHours - madeStart) / dayMs);
      expect(from).toBeGreaterThanOrEqual(24 * 7);
      expect(told(pair.periods[1].warnings)).toBe(dates(a.slice(from), b.slice(from), from));
    }
  });

  it("refuses when every pair is too short, with the others beside it", () => {
    const [i, o] = [of("indoor", inside.subarray(0, 48)), of("outdoor", outside.subarray(0, 48))];
    const call = (): unknown => housePairs(madeRecord({ a: i, b: i, c: o }), { offsetHours: 0 });
    const sentence = (name: string): string => `Too little to infer anything: ${name} and c share 2.0 days, 6 are needed; log about 4 more days.`;
    expect(call).toThrow(sentence("a"));
    let caught: unknown;
    try {
      call();
    } catch (error) {
      caught = error;
    }
    expect((caught as RecordError).kind).toBe("data");
    expect((caught as RecordError).others).toEqual([sentence("b")]);
  });

  it("accepts the ends of its options", () => {
    const record = madeRecord({ a: of("outdoor", outside), b: of("indoor", inside) });
    for (const options of [{ offsetHours: -14 }, { offsetHours: 14 }, { offsetHours: 0, factor: 0 }, { offsetHours: 0, factor: 1 }, { offsetHours: 0, clockOffsetSeconds: { b: 86400 } }]) expect(housePairs(record, options).length).toBe(1);
    expect(() => housePairs(record, { offsetHours: 0, clockOffsetSeconds: { b: 86401 } })).toThrow("housePairs: clockOffsetSeconds must be from -86400 to 86400 s (got 86401 s)");
    expect(() => housePairs(record, { offsetHours: -14.5 })).toThrow("housePairs: offsetHours must be from -14 to 14 h (got -14.5 h)");
    const without = madeRecord({ a: of("outdoor", outside), b: { exposure: "outdoor", values: { relative_humidity: flat(50) } }, c: of("indoor", inside) });
    const [only, ...more] = housePairs(without, { offsetHours: 0 });
    expect([only.outside, more]).toEqual(["a", []]);
    expect(only.warnings.at(-1)).toBe("b stands in no pair: it logs no air temperature.");
  });
});
