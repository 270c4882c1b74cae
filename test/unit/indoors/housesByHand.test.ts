import { describe, expect, it } from "vitest";
import type { HousePair } from "../../../lib/indoors/housePair.js";
import { housePairs } from "../../../lib/indoors/housePairs.js";
import { changesAt } from "../../../lib/indoors/pairChanges.js";
import { type PairHours, pairNumbers } from "../../../lib/indoors/pairNumbers.js";
import { sensorClass } from "../../../lib/indoors/sensorOffset.js";
import type { AirRecord, RecordEvent } from "../../../lib/record/airRecord.js";
import { flagBit } from "../../../lib/record/flag.js";
import type { Series } from "../../../lib/record/series.js";
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
    for (const h of [24 * 8 + 23, 24 * 9, 24 * 13, 24 * 13 + 5]) flags[h] = flagBit.warmed;
    flags[24 * 2 + 13] = flagBit.spike;
    const record = house([event(20.5, null, null, "stove"), event(11, null, "repair", "windows")]);
    const garden = record.places.garden!;
    const flagged = { ...garden, series: { ...garden.series, air_temperature: { ...(garden.series.air_temperature as Series), flags } } };
    const [pair] = housePairs({ ...record, places: { ...record.places, garden: flagged } }, { offsetHours: 0, factor: 0.6 });
    expect(pair.periods.map((p) => [p.title, p.from, p.to, p.days])).toEqual([
      ["before: windows", "2024-01-01T00:00:00Z", "2024-01-10T00:00:00Z", 7.5],
      ["after: windows, before: stove", "2024-01-14T00:00:00Z", "2024-01-19T00:00:00Z", 5 * 20 / 24],
      ["after: stove", "2024-01-24T00:00:00Z", "2024-01-29T00:00:00Z", 5 * 20 / 24],
    ]);
    const heated = (warnings: readonly string[]): string | undefined => warnings.find((s) => s.includes("look heated"))?.split(" ")[0];
    expect(heated(pair.warnings)).toBe("4");
    const spans = [[0, 9], [13, 18], [23, 28]].map(([from, to]) => [24 * from, 24 * to] as const);
    const without = { ...hours, outsideTemperature: hours.outsideTemperature.map((v, h) => (flags[h] === flagBit.spike ? (hours.outsideTemperature[h - 1] + hours.outsideTemperature[h + 1]) / 2 : v)) };
    const sensorMoisture = halfOf(pair.sensorOffset);
    const sides = spans.map(([fromHour, toHour]) => ({ fromHour, toHour, ...pairNumbers(slice(without, fromHour, toHour), { factor: 0.6, lagCorrection: 0, sensorMoisture }) }));
    pair.periods.forEach(({ title, from, to, warnings, ...numbers }, i) => {
      expect(numbers).toEqual(sides[i].numbers);
      expect(warnings[0]).toMatch(i === 0 ? /^4 of the 24 hours/ : /^Too little to infer anything: cellar and garden share 4.2 days/);
    });
    const whole = pairNumbers(without, { factor: 0.6, lagCorrection: 0, sensorMoisture });
    expect(pair.changes).toEqual([...changesAt("windows", sides[0], sides[1], whole.workings), ...changesAt("stove", sides[1], sides[2], whole.workings)]);
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
});
