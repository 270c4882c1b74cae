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
    expectClose(pair.lagCorrection, -40 / 60, { absolute: 1e-9 });
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
});
