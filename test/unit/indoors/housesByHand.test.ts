import { describe, expect, it } from "vitest";
import { RecordError } from "../../../lib/ground/complaint.js";
import type { HousePair } from "../../../lib/indoors/housePair.js";
import { housePairs } from "../../../lib/indoors/housePairs.js";
import { changesAt } from "../../../lib/indoors/pairChanges.js";
import { type PairHours, pairNumbers } from "../../../lib/indoors/pairNumbers.js";
import { sensorClass } from "../../../lib/indoors/sensorOffset.js";
import type { AirRecord, RecordEvent } from "../../../lib/record/airRecord.js";
import { flagBit } from "../../../lib/record/flag.js";
import { type Series, series } from "../../../lib/record/series.js";
import { expectClose } from "../../close.js";
import { type MadePlace, madeRecord, madeStart } from "./madeRecord.js";

/**
 * Two places that are logged from four o'clock to midnight only: four hours of the night are never shared, so nothing is fitted and a house takes a millisecond.
 * What housePairs gives is held beside pairNumbers of the same hours, laid by hand.
 */
const _ = Number.NaN;
const days = 28;
const n = 24 * days;
const isLogged = (h: number): boolean => h % 24 >= 4;
const hourly = (f: (h: number, day: number) => number): Float64Array => Float64Array.from({ length: n }, (_v, h) => (isLogged(h) ? f(h, Math.floor(h / 24)) : _));
const hours: PairHours = {
  insideTemperature: hourly((h, day) => 20 + (day % 4) / 4 + (h % 5) / 10),
  outsideTemperature: hourly((h, day) => 8 + (day % 3) + (h % 7) / 7),
  insideHumidity: hourly((h, day) => 50 + (day % 5) + (h % 3)),
  outsideHumidity: hourly((h, day) => 80 + (day % 2) + (h % 4)),
};
const [indoor, outdoor]: readonly MadePlace[] = [
  { exposure: "indoor", values: { air_temperature: hours.insideTemperature, relative_humidity: hours.insideHumidity } },
  { exposure: "outdoor", values: { air_temperature: hours.outsideTemperature, relative_humidity: hours.outsideHumidity } },
];
const hourMs = 3_600_000;
const dayMs = 24 * hourMs;
const event = (day: number, to: number | null, kind: string | null, title: string): RecordEvent => ({ at: madeStart + day * dayMs, to: to === null ? null : madeStart + to * dayMs, kind, title });
const house = (events: readonly RecordEvent[] = [], inside: MadePlace = indoor, outside: MadePlace = outdoor): AirRecord => madeRecord({ cellar: inside, garden: outside }, events);
const slice = (all: PairHours, from: number, to: number): PairHours => ({
  insideTemperature: all.insideTemperature.slice(from, to),
  outsideTemperature: all.outsideTemperature.slice(from, to),
  insideHumidity: all.insideHumidity.slice(from, to),
  outsideHumidity: all.outsideHumidity.slice(from, to),
});
const meanOf = (values: Float64Array): number => values.filter((v) => !Number.isNaN(v)).reduce((sum, v, _i, all) => sum + v / all.length, 0);
/** What a pair of the usual sensors may add, told from the means. */
const usual = () => sensorClass({ temperature: meanOf(hours.insideTemperature), humidity: meanOf(hours.insideHumidity) }, { temperature: meanOf(hours.outsideTemperature), humidity: meanOf(hours.outsideHumidity) });
const halfOf = ({ moisture }: { moisture: HousePair["sensorOffset"]["moisture"] }): number => (moisture!.high - moisture!.low) / 2;

describe("housePairs by hand", () => {
  it("lays the hours of both places, and tells what pairNumbers tells of them", () => {
    for (const factor of [undefined, 0.5]) {
      const [pair] = housePairs(house(), { offsetHours: 0, factor });
      const { numbers } = pairNumbers(hours, { factor: factor ?? 0.7, lagCorrection: 0, sensorMoisture: halfOf(usual()) });
      const { inside, outside, sensorOffset, periods, changes, warnings, ...told } = pair;
      expect(told).toEqual(numbers);
      expect([inside, outside, periods, changes]).toEqual(["cellar", "garden", [], []]);
      for (const key of ["temperature", "humidity", "moisture"] as const) expectClose(sensorOffset[key]!.high, usual()[key]!.high, { relative: 1e-12 }, key);
      expect(warnings[0]).toBe("4 of the 24 hours of the day are shared on fewer than 3 days, so the daily cycle cannot be taken out: log day and night.");
    }
  });

  it("what the sensors may add widens the class of humidity by the half of its interval", () => {
    const [pair] = housePairs(house(), { offsetHours: 0 });
    const { numbers } = pairNumbers(hours, { factor: 0.7, lagCorrection: 0, sensorMoisture: 0 });
    expect(pair.humidityClass).not.toEqual(numbers.humidityClass);
    const dry = housePairs(house([], indoor, { exposure: "outdoor", values: { air_temperature: hours.outsideTemperature } }), { offsetHours: 0 })[0];
    expect([dry.humidityClass, dry.sensorOffset.moisture]).toEqual([null, null]);
  });

  it("the inside's clock is taken off temperature and humidity, the outside's is left", () => {
    // An hour ahead: the reading of one o'clock is written at two.
    const late = (values: Float64Array): Float64Array => Float64Array.from(values, (_v, h) => (h === 0 ? _ : values[h - 1]));
    const shifted: MadePlace = { exposure: "indoor", values: { air_temperature: late(hours.insideTemperature), relative_humidity: late(hours.insideHumidity) } };
    const whole = slice(hours, 0, n);
    // The last hour of the inside's last day would be written on the day after.
    whole.insideTemperature[n - 1] = _;
    whole.insideHumidity[n - 1] = _;
    const { numbers } = pairNumbers(whole, { factor: 0.7, lagCorrection: 0, sensorMoisture: 0 });
    const clocks: readonly (number | Record<string, number>)[] = [3600, { cellar: 3600 }, { cellar: 3000, garden: -600 }, { garden: -3600 }];
    for (const clockOffsetSeconds of clocks) {
      const [pair] = housePairs(house([], shifted), { offsetHours: 0, clockOffsetSeconds });
      expect([pair.days, pair.spread, pair.meanDifference, pair.moistureExcess, pair.mould]).toEqual([numbers.days, numbers.spread, numbers.meanDifference, numbers.moistureExcess, numbers.mould]);
    }
  });

  it("the longest co-location in whole hours, nothing bridged; its bias off every hour, its days left out", () => {
    const together = event(4 + 0.25 / 24, 8 + 0.75 / 24, "co-location", "together");
    const at = Math.ceil((together.at - madeStart) / hourMs);
    const until = Math.floor((together.to! - madeStart) / hourMs);
    const side = (own: Float64Array, other: Float64Array, bias: number): Float64Array => own.map((v, h) => (h >= 24 * 4 && h <= 24 * 8 ? other[h] + (h >= at && h < until ? bias : 40) : v + bias));
    const off: MadePlace = { exposure: "indoor", values: { air_temperature: side(hours.insideTemperature, hours.outsideTemperature, 0.5), relative_humidity: side(hours.insideHumidity, hours.outsideHumidity, -3) } };
    const short = event(20, 20.75, "co-location", "short");
    const [pair] = housePairs(house([short, together, event(24, null, "co-location", "no end")], off), { offsetHours: 0 });
    expect(housePairs(house([together, short], off), { offsetHours: 0 })[0].sensorOffset).toEqual(pair.sensorOffset);
    expectClose(pair.sensorOffset.temperature!.value, 0.5, { absolute: 1e-12 });
    expectClose(pair.sensorOffset.humidity!.value, -3, { absolute: 1e-12 });
    expect([pair.sensorOffset.basis, pair.sensorOffset.temperature!.unit, pair.sensorOffset.humidity!.unit, pair.sensorOffset.moisture!.unit]).toEqual(["co-location", "K", "%", "g m-3"]);
    // -3 % of air at 8 to 11 °C: 0.26 g/m³ less, and half a degree at 81 % is 0.25 more; saturated air of 9.4 °C holds 9.0 g/m³.
    expectClose(pair.sensorOffset.moisture!.value, 0, { absolute: 0.08 });
    const isOut = (h: number): boolean => (h >= 24 * 4 && h <= 24 * 8) || (h >= 24 * 20 && h < 24 * 20 + 18);
    const left = (values: Float64Array): Float64Array => values.map((v, h) => (isOut(h) ? _ : v));
    const rest: PairHours = { insideTemperature: left(hours.insideTemperature), outsideTemperature: left(hours.outsideTemperature), insideHumidity: left(hours.insideHumidity), outsideHumidity: left(hours.outsideHumidity) };
    const { numbers } = pairNumbers(rest, { factor: 0.7, lagCorrection: 0, sensorMoisture: halfOf(pair.sensorOffset) });
    expect(pair.days).toBe(numbers.days);
    expectClose(pair.meanDifference!.value, numbers.meanDifference!.value, { absolute: 1e-12 });
    expectClose(pair.moistureExcess!.value, numbers.moistureExcess!.value, { absolute: 1e-12 });
    expectClose(pair.vaporPressureExcess!.value, numbers.vaporPressureExcess!.value, { absolute: 1e-12 });
    expect(pair.mould).toEqual(numbers.mould);
    expect(pair.warnings).toContain("The sensors' own difference, measured side by side, is taken off (0.50 K of temperature); it holds for the weather of those days.");
    expect(pair.periods).toEqual([]);
  });

  it("a co-location of six hours is one, of five is none, of less than one is none; a gap in it is not bridged", () => {
    const same = { exposure: "indoor" as const, values: { air_temperature: hours.outsideTemperature.map((v) => v + 1) } };
    const basis = (from: number, to: number, inside: MadePlace = same): string => housePairs(house([event(from, to, "co-location", "x")], inside), { offsetHours: 0 })[0].sensorOffset.basis;
    expect([basis(3.5, 3.75), basis(3.5, 3.5 + 5 / 24), basis(3.5 + 0.2 / 24, 3.5 + 0.9 / 24), basis(3.1, 3.4)]).toEqual(["co-location", "class", "class", "class"]);
    const gap = { exposure: "indoor" as const, values: { air_temperature: same.values.air_temperature.map((v, h) => (h === 24 * 3 + 14 ? _ : v)) } };
    expect([basis(3.5, 3.75, gap), basis(3.5, 3.5 + 7 / 24, gap)]).toEqual(["class", "co-location"]);
    const [pair] = housePairs(house([event(3.5, 3.75, "co-location", "x")], same), { offsetHours: 0 });
    expect([pair.sensorOffset.humidity, pair.sensorOffset.moisture]).toEqual([null, null]);
  });

  it("a corrected humidity stays within 0…100", () => {
    const wet = hours.insideHumidity.map((_v, h) => (h >= 96 && h < 192 ? hours.outsideHumidity[h] + 4 : h % 2 === 0 ? 1 : 50));
    const dry = hours.insideHumidity.map((_v, h) => (h >= 96 && h < 192 ? hours.outsideHumidity[h] - 4 : h % 2 === 0 ? 99 : 50));
    const excess = (humidity: Float64Array, events: readonly RecordEvent[]): number =>
      housePairs(house(events, { exposure: "indoor", values: { air_temperature: hours.insideTemperature.map((v, h) => (h >= 96 && h < 192 ? hours.outsideTemperature[h] : v)), relative_humidity: humidity } }), { offsetHours: 0 })[0].moistureExcess!.value;
    const told = [event(4, 8, "co-location", "together")];
    const out = (values: Float64Array): Float64Array => values.map((v, h) => (h >= 96 && h < 192 ? _ : v));
    expectClose(excess(wet, told), excess(out(wet.map((v) => (v === 1 ? 0 : v - 4))), []), { absolute: 1e-12 });
    expectClose(excess(dry, told), excess(out(dry.map((v) => (v === 99 ? 100 : v + 4))), []), { absolute: 1e-12 });
  });

  it("periods: each its own hours, dates, warmed readings and warnings; changes from one to the next", () => {
    const flags = new Uint16Array(n);
    // The last reading before the first period's end, the first after it; the first and the last of the second period; one of another kind.
    for (const h of [24 * 6 + 23, 24 * 7, 24 * 11, 24 * 11 + 5]) flags[h] = flagBit.warmed;
    flags[24 * 2 + 13] = flagBit.spike;
    const record = house([event(16.5, null, null, "stove"), event(9, null, "repair", "windows")]);
    const garden = record.places.garden!;
    const flagged = { ...garden, series: { ...garden.series, air_temperature: { ...(garden.series.air_temperature as Series), flags } } };
    const [pair] = housePairs({ ...record, places: { ...record.places, garden: flagged } }, { offsetHours: 0, factor: 0.6 });
    expect(pair.periods.map((p) => [p.title, p.from, p.to, p.days])).toEqual([
      ["before: windows", "2024-01-01T00:00:00Z", "2024-01-08T00:00:00Z", 7 * 20 / 24],
      ["after: windows, before: stove", "2024-01-12T00:00:00Z", "2024-01-15T00:00:00Z", 3 * 20 / 24],
      ["after: stove", "2024-01-20T00:00:00Z", "2024-01-29T00:00:00Z", 7.5],
    ]);
    const heated = (warnings: readonly string[]): string | undefined => warnings.find((s) => s.includes("look heated"))?.split(" ")[0];
    expect(heated(pair.warnings)).toBe("4");
    const spans = [[0, 7], [11, 14], [19, 28]].map(([from, to]) => [24 * from, 24 * to] as const);
    const without = { ...hours, outsideTemperature: hours.outsideTemperature.map((v, h) => (flags[h] === flagBit.spike ? (hours.outsideTemperature[h - 1] + hours.outsideTemperature[h + 1]) / 2 : v)) };
    const sensorMoisture = halfOf(pair.sensorOffset);
    const sides = spans.map(([fromHour, toHour]) => ({ fromHour, toHour, ...pairNumbers(slice(without, fromHour, toHour), { factor: 0.6, lagCorrection: 0, sensorMoisture }) }));
    pair.periods.forEach(({ title, from, to, warnings, ...numbers }, i) => {
      expect(numbers).toEqual(sides[i].numbers);
      expect(warnings[0]).toMatch(i === 2 ? /^4 of the 24 hours/ : /^Too little to infer anything: cellar and garden share [52]\.[85] days/);
    });
    const whole = pairNumbers(without, { factor: 0.6, lagCorrection: 0, sensorMoisture });
    expect(pair.changes).toEqual([...changesAt({ title: "windows", at: "2024-01-10T00:00:00Z" }, sides[0], sides[1], whole.workings), ...changesAt({ title: "stove", at: "2024-01-17T12:00:00Z" }, sides[1], sides[2], whole.workings)]);
    expect([pair.changes, pair.periods, pair.periods[1]].every(Object.isFrozen)).toBe(true);
  });

  it("warmed readings of a period: from its first hour to before its last", () => {
    const record = house([event(16, null, null, "windows")]);
    const garden = record.places.garden!;
    const heatedAt = (...at: number[]): (string | undefined)[] => {
      const flags = new Uint16Array(n);
      for (const h of at) flags[h] = flagBit.warmed;
      const flagged = { ...garden, series: { ...garden.series, air_temperature: { ...(garden.series.air_temperature as Series), flags } } };
      const [pair] = housePairs({ ...record, places: { ...record.places, garden: flagged } }, { offsetHours: 0 });
      return [pair, ...pair.periods].map(({ warnings }) => warnings.find((s) => s.includes("look heated"))?.split(" ")[0]);
    };
    expect(heatedAt(24 * 14 - 1)).toEqual(["1", "1", undefined]);
    expect(heatedAt(24 * 14, 24 * 18 - 1)).toEqual(["2", undefined, undefined]);
    expect(heatedAt(24 * 18)).toEqual(["1", undefined, "1"]);
  });

  it("says which humidity is missing, and which readings come at steps of all lengths", () => {
    const told = (inside: MadePlace, outside: MadePlace): string[] => housePairs(house([], inside, outside), { offsetHours: 0 })[0].warnings.filter((w) => /^No humidity|steps of all lengths/.test(w)).map((w) => w.split(":")[0]);
    const dry = (place: MadePlace): MadePlace => ({ exposure: place.exposure, values: { air_temperature: place.values.air_temperature! } });
    const [inner, outer, both] = ["cellar", "garden", "cellar or garden"].map((where) => `No humidity in ${where}`);
    expect([told(indoor, outdoor), told(dry(indoor), outdoor), told(indoor, dry(outdoor)), told(dry(indoor), dry(outdoor))]).toEqual([[], [inner], [outer], [both]]);
    /** As a sensor logs that reports changes. */
    const restless = (record: AirRecord, name: string): AirRecord => {
      const place = record.places[name]!;
      const at = Array.from({ length: 2000 }, (_v, i) => madeStart + 1000 * (600 * i + 250 * (i % 5) * (i % 3)));
      return { ...record, places: { ...record.places, [name]: { ...place, series: { air_temperature: series({ times: at, values: at.map((_t, i) => 15 + (i % 7)), quantity: "air_temperature", place: name }) } } } };
    };
    const uneven = (record: AirRecord): string => housePairs(record, { offsetHours: 0 })[0].warnings.find((w) => w.includes("steps of all lengths"))!.split(" at ")[0];
    expect([uneven(restless(house(), "cellar")), uneven(restless(house(), "garden")), uneven(restless(restless(house(), "cellar"), "garden"))]).toEqual(["cellar logs", "garden logs", "cellar and garden log"]);
  });

  it("what is missing in a record is said, by places; options are refused by name", () => {
    const caught = (record: AirRecord): RecordError => {
      try {
        housePairs(record, { offsetHours: 0 });
      } catch (error) {
        return error as RecordError;
      }
      throw new Error("no error");
    };
    const damp: MadePlace = { exposure: "indoor", values: { relative_humidity: hours.insideHumidity } };
    for (const [record, message] of [
      [madeRecord({ a: indoor, b: { ...outdoor, exposure: null } }), 'places must hold at least one with exposure "outdoor" (got a indoor, b not told); the description says it of each place'],
      [madeRecord({ a: outdoor }), 'places must hold at least one with exposure "indoor" (got a outdoor); the description says it of each place'],
      [madeRecord({}), 'places must hold at least one with exposure "indoor" (got no place); the description says it of each place'],
      [madeRecord({ a: damp, b: damp, c: outdoor }), "an indoor place must hold air temperature (got none in a, b)"],
    ] as const) {
      const error = caught(record);
      expect(error).toBeInstanceOf(RecordError);
      expect([error.message, error.kind]).toEqual([message, "data"]);
    }
    expect(housePairs(madeRecord({ a: damp, b: indoor, c: outdoor }), { offsetHours: 0 }).map((p) => p.inside)).toEqual(["b"]);
    expect(() => housePairs(house(), { offsetHours: 0, factor: 1.2 })).toThrow("housePairs: factor must be from 0 to 1 (got 1.2)");
    expect(() => housePairs(house(), { offsetHours: 0, clockOffsetSeconds: 86_401 })).toThrow("housePairs: clockOffsetSeconds must be from -86400 to 86400 s (got 86401 s)");
    expect(() => housePairs(house(), { offsetHours: 0, clockOffsetSeconds: { cellar: 0, garden: -86_401 } })).toThrow("(got -86401 s)");
  });

  it("six days are enough, one hour less is not", () => {
    const of = (count: number) => {
      const cut = (values: Float64Array): Float64Array => values.slice(0, count);
      return housePairs(house([], { exposure: "indoor", values: { air_temperature: cut(full(hours.insideTemperature)) } }, { exposure: "outdoor", values: { air_temperature: cut(full(hours.outsideTemperature)) } }), { offsetHours: 0 });
    };
    const full = (values: Float64Array): Float64Array => values.map((v, h) => (Number.isNaN(v) ? 10 + Math.sin(h) : v));
    expect(of(144)[0].days).toBe(6);
    expect(() => of(143)).toThrow("Too little to infer anything: cellar and garden share 5.9 days, 6 are needed; log about 1 more day.");
  });
});
