import { describe, expect, it } from "vitest";
import { hourlyMeans, hourlyPair } from "../../../lib/indoors/hourlyPair.js";
import { type Series, series } from "../../../lib/record/series.js";
import { expectClose } from "../../close.js";

describe("hours of a place, their rules", () => {
  const start = Date.UTC(2024, 2, 1);
  const hourMs = 3_600_000;
  const every = (minutes: number, count: number, value: (i: number) => number, delay = 0): Series =>
    series({ times: Float64Array.from({ length: count }, (_v, i) => start + delay * 60_000 + i * minutes * 60_000), values: Float64Array.from({ length: count }, (_v, i) => value(i)), quantity: "air_temperature" });

  it("a reading up to 5 minutes before the hour is that hour's, one earlier the hour before", () => {
    const axis = { start, hours: 6 };
    expect([...hourlyMeans(every(60, 3, (i) => i, 56), axis)]).toEqual([Number.NaN, 0, 1, 2, Number.NaN, Number.NaN]);
    expect([...hourlyMeans(every(60, 3, (i) => i, 54), axis)]).toEqual([0, 1, 2, Number.NaN, Number.NaN, Number.NaN]);
    expect([...hourlyMeans(every(60, 3, (i) => i, 60), axis)]).toEqual([Number.NaN, 0, 1, 2, Number.NaN, Number.NaN]);
  });

  it("finer than half an hour the readings stay where they are; from half an hour on they move to the middle", () => {
    const axis = { start, hours: 4 };
    // 29 minutes: the last reading before the hour stays in its hour.
    expect([...hourlyMeans(every(29, 4, (i) => i, 1), axis)].slice(0, 2)).toEqual([1, 3]);
    const pair = hourlyPair(every(60, 48, () => 1, 10), every(60, 48, () => 1, 50), { offsetHours: 0 });
    // The nearest readings stand together: ten past with ten to, 20 minutes later.
    expectClose(pair.lagCorrection, 20 / 60, { absolute: 1e-9 });
  });

  it("a clock some seconds ahead moves no reading into another hour, at any step", () => {
    for (const minutes of [1, 5, 10, 15, 20, 30, 60]) {
      for (const ahead of [-400, -90, -7, 0, 7, 90, 400]) {
        // The inside's stamps are ahead, its readings those of the outside: every hour must come out alike.
        const count = (5 * 24 * 60) / minutes;
        const outside = every(minutes, count, (i) => i);
        const inside = { ...outside, start: outside.start + 1000 * ahead };
        const pair = hourlyPair(inside, outside, { offsetHours: 0, clockOffset: ahead });
        expect(pair.lagCorrection, `${minutes} min, ${ahead} s`).toBe(0);
        expect([...pair.inside], `${minutes} min, ${ahead} s`).toEqual([...pair.outside]);
        // Stamps that agree, and a clock found some seconds off: the hours hold the same readings, and the rest is told.
        if (Math.abs(ahead) >= 30 * minutes) continue;
        const found = hourlyPair(outside, outside, { offsetHours: 0, clockOffset: ahead });
        expectClose(found.lagCorrection, -ahead / 3600, { absolute: 1e-9 }, `${minutes} min, found ${ahead} s`);
        expect([...found.inside], `${minutes} min, found ${ahead} s`).toEqual([...found.outside]);
      }
    }
  });

  it("readings at all minutes of the hour have no middle to go to", () => {
    const wandering = every(37, 60, (i) => i);
    const got = hourlyMeans(wandering, { start, hours: 4 });
    // 0, 37 | 74, 111 | 148 | 185, 222 minutes.
    expect([...got]).toEqual([0.5, 2.5, 4, 5.5]);
  });

  it("a clock that is ahead is put back, a stretch left out, each end as told", () => {
    const axis = { start, hours: 6 };
    const quarter = every(15, 24, (i) => Math.floor(i / 4));
    expect([...hourlyMeans(quarter, axis, { ahead: 3600 })]).toEqual([1, 2, 3, 4, 5, Number.NaN]);
    expect([...hourlyMeans(quarter, axis, { leftOut: [{ from: start + hourMs, to: start + 2 * hourMs }], bridgeUpTo: 0 })]).toEqual([0, Number.NaN, 2, 3, 4, 5]);
    expect([...hourlyMeans(quarter, axis, { leftOut: [{ from: start + hourMs, to: start + 2 * hourMs }] })]).toEqual([0, 1, 2, 3, 4, 5]);
    expect([...hourlyMeans(quarter, axis, { leftOut: [{ from: start, to: start + 6 * hourMs }] }).values()].every(Number.isNaN)).toBe(true);
    // What is left out is judged by the corrected clock.
    expect([...hourlyMeans(quarter, axis, { ahead: 3600, leftOut: [{ from: start + hourMs, to: start + 2 * hourMs }], bridgeUpTo: 0 })]).toEqual([1, Number.NaN, 3, 4, 5, Number.NaN]);
    const given = hourlyMeans(quarter, axis);
    given.fill(99);
    expect([...hourlyMeans(quarter, axis)]).toEqual([0, 1, 2, 3, 4, 5]);
    expect(() => hourlyMeans(quarter, axis, { ahead: 86401 })).toThrow("hourlyMeans: ahead must be from -86400 to 86400 s (got 86401 s)");
    expect(() => hourlyMeans(quarter, axis, { bridgeUpTo: -1 })).toThrow("hourlyMeans: bridgeUpTo must be from 0 to 24 h (got -1 h)");
  });

  it("a gap of three hours is bridged, one of four is not, unless told", () => {
    const holed = (hours: number): Series => every(60, 8, (i) => (i >= 2 && i < 2 + hours ? Number.NaN : i), 30);
    const axis = { start, hours: 8 };
    expect([...hourlyMeans(holed(3), axis)]).toEqual([0, 1, 2, 3, 4, 5, 6, 7]);
    expect(hourlyMeans(holed(4), axis)[3]).toBeNaN();
    expect([...hourlyMeans(holed(4), axis, { bridgeUpTo: 4 })]).toEqual([0, 1, 2, 3, 4, 5, 6, 7]);
  });

  it("a series without readings has hours without values", () => {
    expect([...hourlyMeans(every(60, 0, () => 1), { start, hours: 2 })]).toEqual([Number.NaN, Number.NaN]);
  });

  it("a pair is cut to the days that both share, in the record's own midnights", () => {
    const a = every(30, 48 * 5, (i) => i);
    const b = every(30, 48 * 3, (i) => 2 * i, 24 * 60);
    const pair = hourlyPair(a, b, { offsetHours: 0 });
    expect([pair.start, pair.hours]).toEqual([start + 24 * hourMs, 72]);
    expectClose(pair.inside[0] - pair.outside[0], 48.5 - 1, { absolute: 1e-12 });
    const east = hourlyPair(a, b, { offsetHours: 5.5 });
    expect([east.start, east.hours]).toEqual([start + 18.5 * hourMs, 96]);
    const none = hourlyPair(every(30, 10, () => 1), every(30, 10, () => 1, 3 * 24 * 60), { offsetHours: 0 });
    expect([none.hours, none.inside.length, none.outside.length, none.lagCorrection, Object.isFrozen(none)]).toEqual([0, 0, 0, 0, true]);
    const never = hourlyPair(every(30, 48, (i) => (i < 24 ? 1 : Number.NaN)), every(30, 48, (i) => (i < 24 ? Number.NaN : 1)), { offsetHours: 0, bridgeUpTo: 0 });
    expect([never.hours, never.inside.length, Object.isFrozen(never)]).toEqual([0, 0, true]);
  });

  it("bursts within a minute are fine readings, whatever lies between them", () => {
    // Three readings ten seconds apart, two minutes before each hour: they stay in the hour before.
    const times = Array.from({ length: 12 }, (_v, i) => start + Math.floor(i / 3) * hourMs + 58 * 60_000 + (i % 3) * 10_000);
    const burst = series({ times, values: times.map((_t, i) => Math.floor(i / 3)), quantity: "air_temperature" });
    expect([...hourlyMeans(burst, { start, hours: 4 })]).toEqual([0, 1, 2, 3]);
  });

  it("readings that wander about a few minutes past the hour are that hour's", () => {
    const times = Array.from({ length: 24 }, (_v, h) => start + h * hourMs + 60_000 * (3 + 5 * Math.sin(h * h)));
    const jitter = series({ times, values: times.map((_t, h) => h), quantity: "air_temperature" });
    expect([...hourlyMeans(jitter, { start, hours: 24 })]).toEqual(times.map((_t, h) => h));
  });

  it("where they drift through the hour they stay where they are", () => {
    // 0, 50 | 100 | 150 | 200 | 250 | 300 minutes.
    expect([...hourlyMeans(every(50, 7, (i) => i), { start, hours: 6 })]).toEqual([0.5, 2, 3, 4, 5, 6]);
  });

  it("minutes count by the corrected clock and the axis' own hours", () => {
    // Stamped on the hour, read 6 minutes before it.
    expect([...hourlyMeans(every(60, 3, (i) => i, 60), { start, hours: 4 }, { ahead: 360 })]).toEqual([0, 1, 2, Number.NaN]);
    // Hours of +05:45 begin at a quarter past; 00:09 is six minutes before one.
    expect([...hourlyMeans(every(60, 3, (i) => i, 9), { start: start - 45 * 60_000, hours: 4 })]).toEqual([0, 1, 2, Number.NaN]);
  });

  it("the lag's correction does not ask when each place began", () => {
    const pair = hourlyPair(every(30, 48 * 4, () => 1, 5 * 60), every(30, 48 * 4, () => 1), { offsetHours: 0 });
    expectClose(pair.lagCorrection, 0, { absolute: 1e-9 });
  });

  it("a wrong clock may carry the first or the last hour into another day", () => {
    const all = every(30, 48 * 6, (i) => i);
    const second = every(30, 48, (i) => i, 24 * 60);
    const early = hourlyPair(second, all, { offsetHours: 0, clockOffset: 3600 });
    expect([early.start, early.hours, Number.isNaN(early.inside[22]), early.inside[23]]).toEqual([start, 48, true, 0.5]);
    const late = hourlyPair(second, all, { offsetHours: 0, clockOffset: -3600 });
    expect([late.start, late.hours, late.inside[24]]).toEqual([start + 24 * hourMs, 48, 46.5]);
  });

  it("stretches and bridges are those of both places", () => {
    const [a, b] = [every(30, 96, () => 1), every(30, 96, (i) => (i >= 20 && i < 28 ? Number.NaN : 2))];
    expect(Number.isNaN(hourlyPair(a, b, { offsetHours: 0 }).outside[11])).toBe(true);
    expect(hourlyPair(a, b, { offsetHours: 0, bridgeUpTo: 4 }).outside[11]).toBe(2);
    const cut = hourlyPair(a, a, { offsetHours: 0, leftOut: [{ from: start + 5 * hourMs, to: start + 10 * hourMs }] });
    expect([cut.inside[7], cut.outside[7], cut.outside[10]]).toEqual([Number.NaN, Number.NaN, 1]);
  });

  it("days that are not shared are cut off at both ends", () => {
    const inside = every(60, 144, (i) => (i < 50 || i >= 100 ? Number.NaN : i), 30);
    const pair = hourlyPair(inside, every(60, 144, (i) => 1000 + i, 30), { offsetHours: 0 });
    expect([pair.start, pair.hours, pair.inside.length, pair.outside.length]).toEqual([start + 48 * hourMs, 72, 72, 72]);
    expect([pair.inside[1], pair.inside[2], pair.outside[0], pair.outside[71]]).toEqual([Number.NaN, 50, 1048, 1119]);
  });
});
