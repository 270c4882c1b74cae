import { describe, expect, it } from "vitest";
import { pressureSwings, type PressureSwingsInput } from "../../../../lib/cycles/swings/pressureSwings.js";
import { RecordError } from "../../../../lib/ground/complaint.js";
import { expectClose } from "../../../close.js";
import { inventedPressure } from "./inventedPressure.js";

const firstAt = Date.UTC(2024, 0, 1);
const valueAt = (at: number): number => 1.1 * Math.cos((4 * Math.PI * (at / 3_600_000 - 10)) / 24);

/** Hourly readings on the hour, tide in; the tide-free hours beside them. */
function input(days: number, seed: number): PressureSwingsInput {
  const values = inventedPressure(days, seed);
  const seconds = Float64Array.from(values, (_, i) => 3600 * i);
  return {
    hours: { firstAt, values },
    readings: { start: firstAt, seconds, values: values.map((v, i) => v + valueAt(firstAt + 3_600_000 * i)) },
    tide: { valueAt, changeVariance: () => 0.0004, isDetected: true },
    tideVariance: 1.1 ** 2 / 2,
    noise: 0.05,
  };
}

describe("pressureSwings", () => {
  it("answers all parts of a long record", () => {
    const got = pressureSwings(input(90, 61), { draws: 99 });
    expect(got.band?.slowBy).toBe("15-day filter");
    expect(got.band?.shortestDays).toBe(2);
    expect(got.events.length).toBeGreaterThan(10);
    expect(got.events.every((e) => e.at > firstAt && e.at < firstAt + 90 * 86_400_000)).toBe(true);
    expect(got.spectrum.peaks.length).toBeGreaterThan(0);
    expect(got.tendency.last?.at).toBe(firstAt + (24 * 90 - 1) * 3_600_000);
    expectClose(got.tendency.last?.errors.readings ?? 0, 0.05 * Math.SQRT2, { relative: 1e-12 }, "the fit's noise at hourly steps");
    expect(got.parts?.hours).toBe(24 * 90);
    expect(Object.isFrozen(got) && Object.isFrozen(got.warnings)).toBe(true);
  });

  it("is the same every time, and changes no argument", () => {
    const given = input(45, 62);
    const before = [given.hours.values.slice(), (given.readings.values as Float64Array).slice()];
    expect(pressureSwings(given, { draws: 99 })).toEqual(pressureSwings(given, { draws: 99 }));
    expect([given.hours.values, given.readings.values]).toEqual(before);
  });

  it("under 30 days tells the straight line and the days to go", () => {
    const got = pressureSwings(input(20, 63));
    expect(got.band?.longestDays).toBe(10);
    expect(got.warnings).toContain("under 30 days the slow background is a straight line, so swings over 10 days are not told: log 10 more days");
    expect(got.spectrum.says).toMatch(/log 20 more days/);
  });

  it("under 8 days keeps the tendency", () => {
    const got = pressureSwings(input(7, 64));
    expect([got.band, got.parts, got.events.length]).toEqual([null, null, 0]);
    expect(got.warnings).toContain("too short for the swings of several days: log 1 more day");
    expect(got.tendency.last).not.toBeNull();
  });

  it("tells how much is missing, and refuses nothing at all", () => {
    const given = input(40, 65);
    given.hours.values.fill(Number.NaN, 200, 400);
    const got = pressureSwings(given, { draws: 99 });
    expect(got.warnings.some((w) => w.startsWith("21 % of the hours are missing"))).toBe(true);
    given.hours.values.fill(Number.NaN);
    expect(() => pressureSwings(given)).toThrow(RecordError);
  });

  it("a record of scattered hours has no strength, and says so", () => {
    const given = input(40, 66);
    for (let i = 0; i < given.hours.values.length; i++) if (Math.floor(i / 24) % 9 !== 0) given.hours.values[i] = Number.NaN;
    const got = pressureSwings(given, { draws: 99 });
    expect(got.band).toBeNull();
    expect(got.warnings).toContain("too few days hold readings to tell the strength of the swings");
  });
});
