import { describe, expect, it } from "vitest";
import { indoorsOf } from "../../../lib/answers/indoorsOf.js";
import type { Estimate } from "../../../lib/ground/estimate.js";
import type { PlaceRecord } from "../../../lib/record/airRecord.js";
import { plainLogger, plainRoomOf, strangerPlace, strangerRecord, strangerRoom, strangerStart, strangerWeather } from "../../strangerHouse.js";
import { plainRoom, plainTruth } from "../../plainRoom.js";

const holds = (e: Estimate | null, truth: number): boolean => e !== null && e.low <= truth && truth <= e.high;

/** The same place by another name, with some of its series, its stamps later by so much · ms. */
function named(place: PlaceRecord, name: string, logged: PlaceRecord["series"], later = 0): PlaceRecord {
  const series = Object.fromEntries(Object.entries(logged).map(([q, s]) => [q, { ...s, place: name, start: s.start + later }]));
  return { ...place, name, title: name, start: place.start + later, series };
}

describe("indoors with a clock some minutes off, told by the barometers", () => {
  for (const step of [300, 600, 1800, 3600]) {
    it(`tells the one constant, the decrement factor and the lag of a plain room, readings every ${step / 60} min`, () => {
      const tau = 12;
      const truth = plainTruth(tau);
      const pairs = [1, 2, 3, 4, 5, 6].map((seed) => indoorsOf(plainRoom({ tau, kind: seed % 2 === 0 ? "rough" : "smooth", days: step === 300 ? 20 : 40, step }, 300 + seed).record).pairs[0]);
      // 95 % each: five of six or more by far in most draws; fixed seeds.
      expect(pairs.filter((p) => holds(p.timeConstant, tau)).length, "time constant").toBeGreaterThanOrEqual(5);
      expect(pairs.filter((p) => holds(p.decrementFactor, truth.decrement)).length, "decrement factor").toBeGreaterThanOrEqual(5);
      expect(pairs.filter((p) => holds(p.timeLag, truth.lagHours)).length, "lag").toBeGreaterThanOrEqual(5);
    });
  }

  it("a lag is as unsure as the clocks: hourly readings leave it minutes, and the sentence says so", () => {
    const { record } = plainRoom({ tau: 12, kind: "rough", days: 40, step: 3600 }, 307);
    const told = indoorsOf(record).pairs[0];
    const known = indoorsOf(record, { clockOffsetSeconds: { yard: 0, room: 0 } }).pairs[0];
    const half = (e: Estimate | null): number => (e === null ? Number.NaN : (e.high - e.low) / 2);
    expect(half(told.timeLag)).toBeGreaterThan(0.08);
    expect(half(known.timeLag)).toBeLessThan(0.075);
    expect(half(told.decrementFactor)).toBe(half(known.decrementFactor));
    expect(told.warnings.join(" ")).toMatch(/The clocks are known to ± \d+ min only, and every lag with them: its interval has that in it\./);
  });

  it("a place without a barometer keeps its clock as written, whatever the other clocks do, and that is said", () => {
    const { record } = plainRoom({ tau: 12, kind: "rough", days: 30, step: 600 }, 304);
    const { room, yard } = record.places;
    const { surface_air_pressure: _barometer, ...bare } = room.series;
    // The yard is some minutes off the hall's clock; the den has no barometer.
    const places = { hall: named(room, "hall", room.series, 600_000), yard, den: named(room, "den", bare) };
    const [hall, den] = indoorsOf({ ...record, places }).pairs;
    const alone = indoorsOf({ ...record, places: { yard, den: places.den } }).pairs[0];
    expect([hall.inside, den.inside]).toEqual(["hall", "den"]);
    expect(hall.warnings.join(" ")).toContain("By their barometers the clock of hall is");
    expect(den.warnings.join(" ")).toContain("The two clocks were taken as equal: a difference between them moves every lag by as much.");
    expect(den.timeLag).toEqual(alone.timeLag);
    expect(den.timeConstant).toEqual(alone.timeConstant);
  });

  it("two places whose barometers were each compared with a third's are compared by way of it, with both errors", () => {
    const { record, clock } = plainRoom({ tau: 12, kind: "rough", days: 30, step: 600 }, 304);
    const { room, yard } = record.places;
    const half = Math.floor(room.seconds.length / 2);
    const part = (p: typeof room, from: number, to: number) =>
      Object.fromEntries(Object.entries(p.series).map(([q, s]) => [q, q === "surface_air_pressure" ? { ...s, values: s.values.map((v, i) => (i >= from && i < to ? v : Number.NaN)) } : s]));
    // The yard's barometer logs in the first half only, the room's in the second; the hall's throughout.
    const places = { hall: { ...named(yard, "hall", yard.series), exposure: "indoor" as const }, yard: { ...yard, series: part(yard, 0, half) }, room: { ...room, series: part(room, half, room.seconds.length) } };
    const told = indoorsOf({ ...record, places }).pairs.find((p) => p.inside === "room");
    const straight = indoorsOf(record).pairs[0];
    const width = (e: Estimate | null | undefined): number => (e == null ? Number.NaN : e.high - e.low);
    expect(told?.warnings.join(" ")).toContain(`the clock of room is ${Math.abs(Math.round(clock / 60))}`);
    expect(Math.abs((told?.timeLag?.value ?? Number.NaN) - (straight.timeLag?.value ?? 0))).toBeLessThan(0.05);
    expect(width(told?.timeLag)).toBeGreaterThan(width(straight.timeLag));
  });

  it("clocks that drift apart change no lag at an event in which nothing was done, nor that of a period", () => {
    const days = 70;
    const weather = strangerWeather(5, { kind: "smooth", days, latitude: 45, mean: 15, annual: 6, warmestDay: 0, daily: 4, fronts: true });
    const room = strangerRoom(5, weather, { ...plainRoomOf, tau: () => 10, habits: 0.1 });
    const logger = { ...plainLogger, quantities: ["t", "p"] as const };
    const places = [strangerPlace(6, "yard", "outdoor", weather, weather, days, logger), strangerPlace(7, "room", "indoor", room, weather, days, { ...logger, ahead: (d) => 100 + 10 * (d - days / 2) })];
    const events = [{ at: strangerStart + 30.4 * 86_400_000, to: null, kind: null, title: "nothing" }];
    const [pair] = indoorsOf(strangerRecord(places, { latitude: 45, events })).pairs;
    const change = pair.changes.find((c) => c.quantity === "timeLag")?.change ?? null;
    // 10 s a day between the middles of the two periods are six minutes.
    expect(holds(change, 0)).toBe(true);
    expect(Math.abs(change?.value ?? 1)).toBeLessThan(0.05);
    const lag = plainTruth(10).lagHours;
    for (const period of pair.periods) expect(Math.abs((period.timeLag?.value ?? 0) - lag)).toBeLessThan(0.08);
    expect(pair.warnings.join(" ")).toMatch(/The two clocks drift apart by (9\.\d|10\.\d) s a day: the mean was taken off, and from lags before and after an event what they drifted between;/);
  });
});
