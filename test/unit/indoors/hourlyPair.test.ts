import { describe, expect, it } from "vitest";
import { changingEvents, coLocations, eventPeriods } from "../../../lib/indoors/eventPeriods.js";
import { hourlyMeans, hourlyPair } from "../../../lib/indoors/hourlyPair.js";
import { penetrationDepth, wallResponse } from "../../../lib/indoors/wallLayers.js";
import { flagBit } from "../../../lib/record/flag.js";
import { type Series, series } from "../../../lib/record/series.js";
import { expectClose } from "../../close.js";

const hourMs = 3_600_000;
const start = Date.UTC(2024, 2, 1);
const every = (minutes: number, n: number, value: (i: number) => number, delay = 0, flags?: number[]): Series =>
  series({ times: Float64Array.from({ length: n }, (_, i) => start + delay * 1000 + i * minutes * 60_000), values: Float64Array.from({ length: n }, (_, i) => value(i)), quantity: "air_temperature", flags });

describe("hourlyMeans", () => {
  it("are means of what fell into the hour, without flagged readings, bridged up to 3 h", () => {
    const flags = new Array(72).fill(0);
    flags[1] = flagBit.spike;
    const six = every(10, 72, (i) => (i === 1 ? 99 : i >= 12 && i < 30 ? Number.NaN : Math.floor(i / 6)), 0, flags);
    expect([...hourlyMeans(six, { start, hours: 12 })]).toEqual([0, 1, 2, 3, 4, 5, 6, 7, 8, 9, 10, 11]);
    expect([...hourlyMeans(six, { start, hours: 6 }, { bridgeUpTo: 2 })]).toEqual([0, 1, Number.NaN, Number.NaN, Number.NaN, 5]);
  });

  it("an axis may begin before and end after the readings, and a stretch may be left out", () => {
    const flat = every(60, 4, () => 7);
    expect([...hourlyMeans(flat, { start: start - 2 * hourMs, hours: 8 })]).toEqual([Number.NaN, Number.NaN, 7, 7, 7, 7, Number.NaN, Number.NaN]);
    expect([...hourlyMeans(flat, { start, hours: 4 }, { leftOut: [{ from: start, to: start + 2 * hourMs }] })]).toEqual([Number.NaN, Number.NaN, 7, 7]);
    expect([...hourlyMeans(every(60, 2, () => Number.NaN), { start, hours: 2 })]).toEqual([Number.NaN, Number.NaN]);
    expect(() => hourlyMeans(flat, { start, hours: 4 }, { bridgeUpTo: 25 })).toThrow("hourlyMeans: bridgeUpTo must be from 0 to 24 h (got 25 h)");
  });

  it("hourly readings that wander about the hour neither double nor miss one", () => {
    const jitter = series({ times: Float64Array.from({ length: 24 }, (_, h) => start + h * hourMs + 40_000 * Math.sin(h)), values: Float64Array.from({ length: 24 }, (_, h) => h), quantity: "air_temperature" });
    expect([...hourlyMeans(jitter, { start, hours: 24 })]).toEqual(Array.from({ length: 24 }, (_, h) => h));
  });
});

describe("hourlyPair", () => {
  it("begins at a midnight of the standard time and holds whole days of both", () => {
    const pair = hourlyPair(every(30, 480, (i) => i, 5 * 3600), every(30, 480, (i) => i), { offsetHours: 7 });
    // The common stretch begins at 05:00 UTC, noon at +07:00.
    expect(pair.start).toBe(start - 7 * hourMs);
    expect(pair.hours % 24).toBe(0);
    expect(Number.isNaN(pair.inside[11]) && !Number.isNaN(pair.inside[12])).toBe(true);
    expect(Object.isFrozen(pair)).toBe(true);
  });

  it("tells how far apart the readings of an hour are, clocks corrected", () => {
    const [a, b] = [every(5, 3000, () => 1, 120), every(5, 3000, () => 1)];
    expectClose(hourlyPair(a, b, { offsetHours: 0 }).lagCorrection, 2 / 60, { absolute: 1e-4 }, "2 minutes later in the same hour");
    expectClose(hourlyPair(a, b, { offsetHours: 0, clockOffset: 120 }).lagCorrection, 0, { absolute: 1e-4 }, "taken off");
    expectClose(hourlyPair(every(60, 100, () => 1, 1800), every(60, 100, () => 1), { offsetHours: 0 }).lagCorrection, 0.5, { absolute: 1e-9 }, "half past");
  });

  it("no common hour: nothing; offsets out of range are told", () => {
    expect(hourlyPair(every(60, 10, () => 1), every(60, 10, () => 1, 40 * 86400), { offsetHours: 0 }).hours).toBe(0);
    expect(hourlyPair(every(60, 10, () => 1), every(60, 0, () => 1), { offsetHours: 0 }).hours).toBe(0);
    expect(hourlyPair(every(60, 10, () => 1), every(60, 10, () => Number.NaN), { offsetHours: 0 }).hours).toBe(0);
    expect(() => hourlyPair(every(60, 1, () => 1), every(60, 1, () => 1), { offsetHours: 15 })).toThrow("hourlyPair: offsetHours must be from -14 to 14 h (got 15 h)");
    expect(() => hourlyPair(every(60, 1, () => 1), every(60, 1, () => 1), { offsetHours: 0, clockOffset: 1e6 })).toThrow("hourlyPair: clockOffset must be from -86400 to 86400 s");
  });
});

describe("events", () => {
  const axis = { start, hours: 24 * 60 };
  const event = (day: number, to: number | null = null, kind: string | null = null) => ({ at: start + day * 24 * hourMs, to: to === null ? null : start + to * 24 * hourMs, kind, title: `day ${day}` });

  it("co-locations are no events; events outside the axis are none", () => {
    const all = [event(40), event(0, 3, "co-location"), event(20), event(-5), event(60)];
    expect(coLocations(all)).toEqual([{ from: start, to: start + 72 * hourMs }]);
    expect(changingEvents(all, axis).map((e) => e.title)).toEqual(["day 20", "day 40"]);
    expect(eventPeriods([], axis)).toEqual([]);
  });

  it("two days on each side are left out, whole days only; a long event leaves all of it out", () => {
    expect(eventPeriods([event(20)], axis).map((p) => [p.fromHour / 24, p.toHour / 24])).toEqual([[0, 18], [22, 60]]);
    expect(eventPeriods([event(20.4)], axis).map((p) => [p.fromHour / 24, p.toHour / 24])).toEqual([[0, 18], [23, 60]]);
    const three = eventPeriods([event(20, 30), event(31)], axis);
    expect(three.map((p) => [p.fromHour / 24, p.toHour / 24])).toEqual([[0, 18], [32, 32], [33, 60]]);
    expect(three[1].title).toBe("after: day 20, before: day 31");
    // A holiday that is not over when the curtains come: what follows them waits for its end.
    expect(eventPeriods([event(10, 40), event(20)], axis).map((p) => [p.fromHour / 24, p.toHour / 24])).toEqual([[0, 8], [42, 42], [42, 60]]);
    expect(eventPeriods([event(1)], axis)[0]).toMatchObject({ fromHour: 0, toHour: 0 });
  });
});

describe("walls", () => {
  const brick = { thickness: 0.25, conductivity: 0.77, density: 1700, heatCapacity: 840 };
  it("layers split in two are the same wall, and a thick one follows its penetration depth", () => {
    const half = { ...brick, thickness: 0.125 };
    expectClose(wallResponse([half, half]).decrementFactor, wallResponse([brick]).decrementFactor, { relative: 1e-12 });
    const [thick, thicker] = [0.6, 0.7].map((thickness) => wallResponse([{ ...brick, thickness }]));
    const depth = penetrationDepth(brick);
    const byU = (w: typeof thick) => w.decrementFactor * w.transmittance;
    expectClose(Math.log(byU(thick) / byU(thicker)), 0.1 / depth, { relative: 0.01 }, "amplitude by e for each depth");
    expectClose(thicker.timeLag - thick.timeLag, (24 / (2 * Math.PI)) * (0.1 / depth), { relative: 0.01 }, "a radian for each depth");
  });

  it("refuses what is no layer", () => {
    expect(() => wallResponse([])).toThrow("wallResponse: layers must hold at least one layer (got none)");
    expect(() => wallResponse([{ ...brick, thickness: 0 }])).toThrow("thickness must be positive (got 0 m)");
    expect(() => penetrationDepth({ ...brick, density: Number.NaN })).toThrow("penetrationDepth: density must be positive (got NaN)");
    expect(() => wallResponse([brick], { inner: -1 })).toThrow("inner must be from 0 to 10");
  });
});
