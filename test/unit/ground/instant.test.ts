import { describe, expect, it } from "vitest";
import { civilDate, civilInstant, dayNumber, daysInMonth, isLeapYear } from "../../../lib/ground/calendar.js";
import { dayText, instantText, offsetOf, parseIso } from "../../../lib/ground/instant.js";

describe("calendar", () => {
  it("agrees with Date.UTC on every day from 1600 to 2400, there and back", () => {
    const first = Date.UTC(1600, 0, 1) / 86_400_000;
    const last = Date.UTC(2400, 0, 1) / 86_400_000;
    let wrong = 0;
    for (let d = first; d < last; d++) {
      const date = new Date(d * 86_400_000);
      const { year, month, day } = civilDate(d);
      if (year !== date.getUTCFullYear() || month !== date.getUTCMonth() + 1 || day !== date.getUTCDate() || dayNumber(year, month, day) !== d) wrong++;
    }
    expect(wrong).toBe(0);
  });

  it("leap years and lengths of months", () => {
    expect([1900, 2000, 2023, 2024, 2100].map(isLeapYear)).toEqual([false, true, false, true, false]);
    expect([1, 2, 3, 4, 5, 6, 7, 8, 9, 10, 11, 12].map((m) => daysInMonth(2023, m))).toEqual([31, 28, 31, 30, 31, 30, 31, 31, 30, 31, 30, 31]);
    expect(daysInMonth(2024, 2)).toBe(29);
  });

  it("civilInstant is NaN where the day or the time does not exist", () => {
    expect(civilInstant(2024, 2, 29, 23, 59, 59.999)).toBe(Date.UTC(2024, 1, 29, 23, 59, 59, 999));
    expect(civilInstant(2024, 2, 29, 24, 0, 0)).toBe(Date.UTC(2024, 2, 1));
    for (const [y, mo, d, h, mi, s] of [[2023, 2, 29, 0, 0, 0], [2023, 0, 1, 0, 0, 0], [2023, 13, 1, 0, 0, 0], [2023, 1, 0, 0, 0, 0], [2023, 1, 1, 24, 0, 1], [2023, 1, 1, 24, 1, 0], [2023, 6, 31, 0, 0, 0], [2023, 1, 1, 0, -1, 0], [2023, 1, 1, 0, 0, -1], [2023, 1, 1, -1, 0, 0], [2023, 1, 1, 0, 60, 0], [2023, 1, 1, 0, 0, 60]]) {
      expect(civilInstant(y, mo, d, h, mi, s)).toBeNaN();
    }
  });
});

describe("ISO 8601", () => {
  it("instants and days as text", () => {
    expect([instantText(0), instantText(-1), instantText(1709283600500.4)]).toEqual(["1970-01-01T00:00:00Z", "1969-12-31T23:59:59.999Z", "2024-03-01T09:00:00.500Z"]);
    expect(dayText(Date.UTC(2024, 1, 29, 23, 59))).toBe("2024-02-29");
    expect(() => instantText(Number.NaN)).toThrow("instantText: ms must be finite epoch milliseconds (got NaN)");
    expect(() => dayText(Infinity)).toThrow("dayText: ms must be finite epoch milliseconds (got Infinity)");
  });

  it("there and back", () => {
    for (const ms of [0, 951782400000, 1709283600500, 4102444799999]) expect(parseIso(instantText(ms))).toEqual({ civil: ms, offsetMinutes: 0 });
  });

  it("dates, times and offsets", () => {
    expect(parseIso("2024-03-01")).toEqual({ civil: Date.UTC(2024, 2, 1), offsetMinutes: null });
    expect(parseIso(" 2024-03-01 09:05 ")).toEqual({ civil: Date.UTC(2024, 2, 1, 9, 5), offsetMinutes: null });
    expect(parseIso("2024-03-01T09:05:06,5-03:30")).toEqual({ civil: Date.UTC(2024, 2, 1, 9, 5, 6, 500), offsetMinutes: -210 });
    for (const text of ["", "2024", "2024-3-1", "2024-02-30", "2024-03-01T25:00", "2024-03-01T09:05+15:00", "2024-03-01T09:05 +01:00", "2024-03-01T09"]) expect(parseIso(text), text).toBeNull();
    expect([offsetOf("Z"), offsetOf("+14:00"), offsetOf("-00:00"), offsetOf("+1")]).toEqual([0, 840, 0, Number.NaN]);
  });
});
