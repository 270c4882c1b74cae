import { describe, expect, it } from "vitest";
import { type IndoorsAnswer, indoorsOf } from "../../../lib/answers/indoorsOf.js";
import { displaySymbol } from "../../../lib/ground/display.js";
import { random } from "../../../lib/ground/random.js";
import type { AirRecord } from "../../../lib/record/airRecord.js";
import { recordFromSeries } from "../../../lib/record/recordFromSeries.js";
import { series } from "../../../lib/record/series.js";
import { expectClose } from "../../close.js";
import { madeInside, madeOutside } from "../indoors/madeRecord.js";
import { hourlyRecord, hourMs, madeFrom, weather } from "./madeRecords.js";

const days = 60;
const outside = madeOutside(24 * days, 1);
const inside = madeInside(outside, 12, 2);
const damp = (values: Float64Array, level: number): Float64Array => values.map((v, h) => level - 0.8 * (v - 10) + 3 * Math.sin(h / 70));
const porch = { exposure: "outdoor" as const, values: { air_temperature: outside, relative_humidity: damp(outside, 75) } };
const room = { exposure: "indoor" as const, values: { air_temperature: inside, relative_humidity: damp(inside, 60) } };
const textOf = (answer: IndoorsAnswer, columns = 100): string => answer[displaySymbol](columns)["text/plain"].replace(/\s+/g, " ");
/** The loggers' barometers at five minutes, the room's clock ahead by some seconds. */
function withBarometers(ahead: number): AirRecord {
  const n = 12 * 24 * 30;
  const slow = weather(24 * 30 + 2, { seed: 41, memory: 30, spread: 6 });
  const fast = weather(n + 24, { seed: 42, memory: 6, spread: 0.3 });
  const at = (seconds: number): number => {
    const [h, f] = [seconds / 3600, seconds / 300 + 12];
    const between = (v: Float64Array, x: number): number => v[Math.floor(x)] + (x % 1) * (v[Math.floor(x) + 1] - v[Math.floor(x)]);
    return 1000 + between(slow, h) + between(fast, f);
  };
  const [p, q] = [random(5), random(6)];
  const fine = (values: Float64Array, shift: number): Float64Array => Float64Array.from({ length: n }, (_, i) => values[Math.max(0, Math.min(values.length - 1, Math.floor((300 * i - shift) / 3600)))]);
  const times = Array.from({ length: n }, (_, i) => madeFrom + 300_000 * i);
  const column = (place: string, quantity: "air_temperature" | "surface_air_pressure", values: ArrayLike<number>): ReturnType<typeof series> => series({ times, values, quantity, place });
  return recordFromSeries(
    [
      column("porch", "air_temperature", fine(outside, 0)),
      column("porch", "surface_air_pressure", Float64Array.from(times, (_, i) => at(300 * i) + 0.03 * p.normal())),
      column("room", "air_temperature", fine(inside, ahead)),
      column("room", "surface_air_pressure", Float64Array.from(times, (_, i) => at(Math.max(0, 300 * i - ahead)) + 0.03 * q.normal())),
    ],
    { name: "clocks", site: { latitude: 50, longitude: 8, elevation: 100 }, places: { porch: { exposure: "outdoor" }, room: { exposure: "indoor" } } },
  );
}

describe("indoorsOf", () => {
  const answer = indoorsOf(hourlyRecord({ porch, room }));

  it("has the keys of the contract; the room of 12 h comes out as the published gain and lag of a first-order room", () => {
    expect(Object.keys(answer)).toEqual(["record", "pairs"]);
    const [pair] = answer.pairs;
    // 1/√(1 + (2π·12/24)²) and atan(2π·12/24)·24/2π, the table of reference values for first-order rooms.
    expectClose(pair.decrementFactor?.value ?? 0, 0.3033, { relative: 0.03 });
    expectClose(pair.timeLag?.value ?? 0, 4.823, { absolute: 0.15 });
    expect(pair.maxCorrelation.raw?.says).toMatch(/plain correlation misleads/);
    expect(Object.isFrozen(answer) && Object.isFrozen(answer.pairs)).toBe(true);
  });

  it("tells the person what it means, with cautions, in 80 columns", () => {
    const text = textOf(answer);
    expect(text).toMatch(/It follows the daily swing by 0\.(299|30\d*) ± 0\.0\d+ \(decrement factor\), 4\.8\d* ± 0\.\d+ h later/);
    expect(text).toMatch(/inside the air holds 0\.86 ± 0\.08 g\/m³ less water vapor than outside \(108 ± 11 Pa\)/);
    expect(text).toMatch(/local codes and licensed practice/);
    expect(text).toMatch(/may add 0\.0 ± 0\.6 K by themselves/);
    for (const line of answer[displaySymbol](80)["text/plain"].split("\n")) expect(line.length, line).toBeLessThanOrEqual(80);
  });

  it("the clock that the barometers tell is set right before lags are taken, and said", () => {
    const ahead = 1500;
    const [straight, shifted, uncorrected] = [indoorsOf(withBarometers(0)), indoorsOf(withBarometers(ahead)), indoorsOf(withBarometers(ahead), { clockOffsetSeconds: { room: 0, porch: 0 } })].map((a) => a.pairs[0]);
    expect(shifted.warnings.join(" ")).toMatch(/By their barometers the clock of room is 2[3-7] min ± .* ahead of that of porch: it was set right/);
    expect(straight.warnings.join(" ")).toMatch(/the two clocks agree within/);
    const lag = (p: typeof shifted): number => p.timeLag?.value ?? Number.NaN;
    expectClose(lag(shifted), lag(straight), { absolute: 0.15 }, "25 minutes taken off");
    expectClose(lag(uncorrected) - lag(straight), ahead / 3600, { absolute: 0.15 }, "left in, they are in the lag");
  });

  it("before and after an event: one sentence with both numbers", () => {
    const long = madeOutside(24 * 100, 8);
    const kept = madeInside(long, 12, 3);
    const open = madeInside(long, 5, 4);
    const values = kept.map((v, h) => (h < 24 * 50 ? open[h] : v));
    const events = [{ at: madeFrom + 50 * 24 * hourMs, to: null, kind: null, title: "shutters closed at night" }];
    const record = hourlyRecord({ porch: { exposure: "outdoor", values: { air_temperature: long } }, room: { exposure: "indoor", values: { air_temperature: values } } }, { events });
    const found = indoorsOf(record);
    expect(textOf(found)).toMatch(/Since “shutters closed at night” on 20 Feb 2023 \(48 days before to .*, 48 days after from .*\): the room follows the daily swing by 0\.30\d* ± 0\.0\d+ instead of 0\.6\d* ± 0\.0\d+\./);
    const change = found.pairs[0].changes.find((c) => c.quantity === "decrementFactor");
    expect(change?.ratio != null && change.ratio.high < 1).toBe(true);
  });

  it("events that share a title are told one by one; what has too few days, once and why", () => {
    const event = (day: number, title: string) => ({ at: madeFrom + day * 24 * hourMs, to: null, kind: null, title });
    const found = indoorsOf(hourlyRecord({ porch, room }, { events: [event(15, "aired"), event(30, "aired"), event(35, "curtains")] }));
    const [pair] = found.pairs;
    expect(pair.changes.filter((c) => c.quantity === "meanDifference").map((c) => [c.event, c.at])).toEqual([["aired", "2023-01-16T00:00:00Z"], ["aired", "2023-01-31T00:00:00Z"], ["curtains", "2023-02-05T00:00:00Z"]]);
    const text = textOf(found);
    expect(text).toMatch(/Since “aired” on 16 Jan 2023 \(13 days before to 13 Jan 2023, 11 days after from 18 Jan 2023\): the room follows/);
    expect(text).toContain("Since “aired” on 31 Jan 2023 (11 days before to 28 Jan 2023, 1 day after from 2 Feb 2023): nothing told: fewer than 10 days on a side of the event Since “curtains”");
    expect(pair.warnings.join(" ")).toContain("Events less than about 14 days apart leave too little between them: told as one event with `from` and `to`");
  });

  it("two rooms against one porch: two pairs", () => {
    const attic = { exposure: "indoor" as const, values: { air_temperature: madeInside(outside, 5, 9) } };
    const pairs = indoorsOf(hourlyRecord({ porch, room, attic })).pairs;
    expect(pairs.map((p) => [p.inside, p.outside])).toEqual([["room", "porch"], ["attic", "porch"]]);
    expect(pairs[1].moistureExcess).toBeNull();
    expect(pairs[1].warnings.join(" ")).toMatch(/nothing is said about moisture/);
  });
});

describe("indoorsOf on records that cannot carry it", () => {
  it("one place only, or both outside: what is missing and where to say it", () => {
    expect(() => indoorsOf(hourlyRecord({ porch }))).toThrow('places must hold at least one with exposure "indoor" (got porch outdoor)');
    expect(() => indoorsOf(hourlyRecord({ porch, room: { ...room, exposure: "outdoor" } }))).toThrow(/exposure "indoor" \(got porch outdoor, room outdoor\)/);
  });

  it("a few days: refused with the days to log; a week: answered with a warning", () => {
    const short = (n: number): AirRecord =>
      hourlyRecord({
        porch: { exposure: "outdoor", values: { air_temperature: outside.slice(0, 24 * n) } },
        room: { exposure: "indoor", values: { air_temperature: inside.slice(0, 24 * n) } },
      });
    expect(() => indoorsOf(short(4))).toThrow(/share 4\.0 days, 6 are needed; log about 2 more days/);
    const [week] = indoorsOf(short(8)).pairs;
    expect(week.warnings.join(" ")).toMatch(/Only 8 days: the intervals are wide/);
  });

  it("both sensors on one table: gain 1, lag 0 and no miracle", () => {
    const [pair] = indoorsOf(hourlyRecord({ porch, room: { exposure: "indoor", values: { air_temperature: outside } } })).pairs;
    expectClose(pair.decrementFactor?.value ?? 0, 1, { absolute: 1e-6 });
    expectClose(pair.timeLag?.value ?? 1, 0, { absolute: 1e-6 });
  });

  it("a constant room is held by something: no lag, no time constant", () => {
    const { normal } = random(12);
    const held = outside.map(() => 20 + 0.05 * normal());
    const [pair] = indoorsOf(hourlyRecord({ porch, room: { exposure: "indoor", values: { air_temperature: held } } })).pairs;
    expect([pair.timeLag, pair.timeConstant]).toEqual([null, null]);
    expect(pair.warnings.join(" ")).toMatch(/held by something/);
  });

  it("a factor outside 0…1 is refused by name", () => {
    expect(() => indoorsOf(hourlyRecord({ porch, room }), { factor: 1.2 })).toThrow(/factor must be .*0.*1 \(got 1\.2/);
  });
});
