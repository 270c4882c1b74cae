import { describe, expect, it } from "vitest";
import { displaySymbol } from "../../../lib/ground/display.js";
import { type SwingsAnswer, swingsOf } from "../../../lib/answers/swingsOf.js";
import { random } from "../../../lib/ground/random.js";
import { jsonText } from "../../../lib/door/cli/json.js";
import { expectClose } from "../../close.js";
import { hourlyRecord, hourMs, madeFrom, tropicalPressure, weather } from "./madeRecords.js";

const draws = 99;
const textOf = (answer: SwingsAnswer, columns = 100): string => answer[displaySymbol](columns)["text/plain"];
const barometer = (values: ArrayLike<number>, more: object = {}): SwingsAnswer => swingsOf(hourlyRecord({ roof: { values: { surface_air_pressure: values } } }, more), { draws });

describe("swingsOf", () => {
  const whole = barometer(tropicalPressure(24 * 90, 11));
  const roof = whole.places.roof;

  it("has the keys of the contract, is frozen, and its JSON holds no figure data", () => {
    expect(Object.keys(whole).sort()).toEqual(["places", "record"]);
    expect(Object.keys(roof).sort()).toEqual(["band", "days", "events", "quantity", "spectrum", "tendency", "warnings"]);
    expect(Object.keys(roof.tendency.series)).toEqual(["at", "raw", "tideFree"]);
    expect(Object.keys(roof.spectrum)).toEqual(["background", "peaks", "says"]);
    expect(Object.isFrozen(whole) && Object.isFrozen(roof) && Object.isFrozen(roof.events)).toBe(true);
    const json = JSON.parse(jsonText(whole));
    expect(json.places.roof.events[0].at).toMatch(/^2023-.*Z$/);
    expect(json.places.roof.tendency.series.raw.length).toBe(json.places.roof.tendency.series.at.length);
    expect(whole.parts.roof.hours.values.length).toBe(24 * 90);
  });

  it("parts the variance in four that add up to 1, each inside its interval; the tide's share is what was planted", () => {
    const shares = Object.values(roof.band?.shares ?? {});
    expect(shares.length).toBe(4);
    expectClose(shares.reduce((sum, e) => sum + e.value, 0), 1, { absolute: 1e-12 }, "parts of one whole");
    for (const e of shares) expect(e.low <= e.value && e.value <= e.high && e.low >= 0 && e.high <= 1).toBe(true);
    const free = tropicalPressure(24 * 90, 11).map((v, h) => v - 0.7 * Math.cos((2 * Math.PI * (h - 8)) / 24) - 1.2 * Math.cos((2 * Math.PI * (h - 10)) / 12));
    const mean = free.reduce((a, b) => a + b) / free.length;
    const variance = free.reduce((a, v) => a + (v - mean) ** 2, 0) / free.length;
    const planted = (0.7 ** 2 + 1.2 ** 2) / 2;
    // The slow part of the weather is not orthogonal to its swings: a few hundredths.
    expectClose(roof.band?.shares?.tide.value ?? 0, planted / (planted + variance), { absolute: 0.06 }, "the parts are not quite orthogonal");
    expectClose(roof.band?.share ?? 0, roof.band?.shares?.swings.value ?? 1, { absolute: 1e-9 }, "told once as a number, once with its interval");
  });

  it("a tropical afternoon: three quarters of the raw tendency is tide, and it is taken out", () => {
    const { at, raw, tideFree } = roof.tendency.series;
    let [tide, all] = [0, 0];
    at.forEach((_, i) => {
      if (Number.isNaN(raw[i])) return;
      tide += Math.abs(raw[i] - tideFree[i]);
      all += Math.abs(raw[i]);
    });
    expect(tide / all).toBeGreaterThan(0.75);
    expect(Math.max(...tideFree.filter((v) => !Number.isNaN(v)).map(Math.abs))).toBeLessThan(Math.max(...raw.filter((v) => !Number.isNaN(v)).map(Math.abs)) / 1.5);
  });

  it("tells weather as no beat, in words, and the caution", () => {
    const text = textOf(whole);
    expect(roof.spectrum.peaks.every((p) => !p.significant)).toBe(true);
    expect(text).toMatch(/come at no fixed beat/);
    expect(text).toMatch(/not a\s+storm warning/);
    for (const columns of [80, 100]) for (const line of textOf(whole, columns).split("\n")) expect(line.length, line).toBeLessThanOrEqual(columns);
  });

  it("does not change its record, and is the same again", () => {
    const record = hourlyRecord({ roof: { values: { surface_air_pressure: tropicalPressure(24 * 20, 5) } } });
    const before = JSON.stringify(record);
    const first = jsonText(swingsOf(record, { draws }));
    expect(jsonText(swingsOf(record, { draws }))).toBe(first);
    expect(JSON.stringify(record)).toBe(before);
  });
});

describe("swingsOf on records that cannot carry all of it", () => {
  it("ten days: a band with a straight background, no beat, and the days to log", () => {
    const { band, spectrum, warnings } = barometer(tropicalPressure(24 * 10, 3)).places.roof;
    expect([band?.slowBy, band?.longestDays]).toEqual(["straight line", 5]);
    expect(spectrum.peaks).toEqual([]);
    expect(spectrum.says).toMatch(/30 more days/);
    expect(warnings.join(" ")).toMatch(/log 20 more days/);
  });

  it("five days: no band, no event, still a tendency", () => {
    const { band, events, tendency, warnings } = barometer(tropicalPressure(24 * 5, 3)).places.roof;
    expect([band, events.length]).toEqual([null, 0]);
    expect(tendency.last).not.toBeNull();
    expect(warnings.join(" ")).toMatch(/log 3 more days/);
  });

  it("two days: no tide is taken out, and that is said", () => {
    const { tendency, warnings } = barometer(tropicalPressure(48, 3)).places.roof;
    expect(tendency.last?.raw.value).toBe(tendency.last?.tideFree.value);
    expect(warnings.join(" ")).toMatch(/no tide was taken out: fitTides: /);
    // At 5° an unknown tide of 1.1 and 0.6 hPa changes by 1.2 hPa in three hours, root mean square: the interval says so.
    const { low = 0, high = 0 } = tendency.last?.tideFree ?? {};
    expectClose((high - low) / 2, 1.96 * Math.sqrt(1.147 ** 2 + 0.5733 ** 2 * (1 - Math.SQRT1_2)), { absolute: 0.02 }, "two waves of unknown phase");
  });

  it("readings every ten minutes: the change's interval is that of their own noise, not of an hour's mean", () => {
    const { normal } = random(41);
    const values = weather(6 * 24 * 40, { seed: 42, memory: 180, spread: 2 }).map((v) => 1000 + v + 0.1 * normal());
    const { low = 0, high = 0 } = barometer(values, { stepHours: 1 / 6 }).places.roof.tendency.last?.raw ?? {};
    // Levels are means of four readings within ±15 min: 0.1 √(2/4) hPa.
    expectClose((high - low) / 2, 1.96 * 0.1 * Math.SQRT1_2, { relative: 0.2 }, "a fitted noise is known to some tenths");
  });

  it("two halves with three months between: no event in the hole, which is told", () => {
    const values = tropicalPressure(24 * 180, 7);
    values.fill(Number.NaN, 24 * 45, 24 * 135);
    const { events, warnings } = barometer(values).places.roof;
    const hole = [madeFrom + 45 * 24 * hourMs, madeFrom + 135 * 24 * hourMs];
    expect(events.length).toBeGreaterThan(5);
    expect(events.some((e) => Date.parse(e.at) > hole[0] + 12 * hourMs && Date.parse(e.at) < hole[1] - 12 * hourMs)).toBe(false);
    expect(warnings.join(" ")).toMatch(/50 % of the hours are missing/);
  });

  it("a gap of a day and a half over the deepest low: that low is not told", () => {
    const values = tropicalPressure(24 * 60, 19);
    const deepest = barometer(values).places.roof.events.filter((e) => e.kind === "low" && e.warnings.length === 0).sort((a, b) => b.depth.value - a.depth.value)[0];
    const hour = Math.round((Date.parse(deepest.at) - madeFrom) / hourMs);
    values.fill(Number.NaN, hour - 18, hour + 18);
    const left = barometer(values).places.roof.events;
    expect(left.some((e) => Math.abs(Date.parse(e.at) - Date.parse(deepest.at)) < 17 * hourMs)).toBe(false);
  });

  it("a constant barometer: nothing varies, nothing is invented", () => {
    const { band, events, spectrum } = barometer(new Float64Array(24 * 50).fill(1010)).places.roof;
    expect(events).toEqual([]);
    expectClose(band?.standardDeviation.value ?? 0, 0, { absolute: 1e-6 }, "nothing varies");
    expect(spectrum.says).toMatch(/did not change/);
  });

  it("a step of 4 hPa from a new sensor is taken off and told, and the swings stay those without it", () => {
    const values = tropicalPressure(24 * 90, 11);
    const stepped = values.map((v, h) => (h >= 24 * 45 + 9 ? v + 4 : v));
    const [plain, found] = [barometer(values).places.roof, barometer(stepped).places.roof];
    expect(found.warnings.join(" ")).toMatch(/the level jumps by \+(3\.[6-9]|4\.[0-4]) hPa on 2023-02-15/);
    expectClose(found.band?.standardDeviation.value ?? 0, plain.band?.standardDeviation.value ?? 1, { relative: 0.1 }, "the size of a step is known to some tenths of a hPa");
  });

  it("a moved station: the longer side only", () => {
    const values = tropicalPressure(24 * 90, 11).map((v, h) => (h >= 24 * 30 ? v - 25 : v));
    const at = madeFrom + 24 * 30 * hourMs;
    const { days, warnings } = barometer(values, { events: [{ at, to: null, kind: "station moved", title: "to the shed" }] }).places.roof;
    expect(Math.round(days)).toBe(60);
    expect(warnings.join(" ")).toMatch(/moved \(2023-01-31\).*only the longer side is used/);
  });

  it("one value a day: strength, but no beat and no tendency", () => {
    const values = weather(24 * 200, { seed: 2, memory: 24, spread: 7 }).filter((_, h) => h % 24 === 12).map((v) => 1010 + v);
    const { spectrum, tendency, warnings, band } = barometer(values, { stepHours: 24 }).places.roof;
    expect(band?.standardDeviation.value).toBeGreaterThan(2);
    expect(spectrum.says).toMatch(/too few to ask/);
    expect(tendency.last).toBeNull();
    expect(warnings.join(" ")).toMatch(/24 hours apart: swings under about 4 days come out too small/);
  });

  it("no pressure at all: one sentence that says what to do", () => {
    expect(() => swingsOf(hourlyRecord({ roof: { values: { air_temperature: [1, 2, 3] } } }))).toThrow("made must hold air pressure for the swings (got none); give a field the quantity surface_air_pressure");
  });
});
