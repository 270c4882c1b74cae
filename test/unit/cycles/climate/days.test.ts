import { describe, expect, it } from "vitest";
import { civilDate, civilDay, civilMonth, monthDate, monthStart } from "../../../../lib/cycles/climate/civilDay.js";
import { civilHours } from "../../../../lib/cycles/climate/civilHours.js";
import { countedDays } from "../../../../lib/cycles/climate/countedDays.js";
import { type DaySummary, dailySummaries } from "../../../../lib/cycles/climate/dailySummary.js";
import { dewPointRange } from "../../../../lib/cycles/climate/dewPointRange.js";
import { flagBit } from "../../../../lib/record/flag.js";
import { type Series, series } from "../../../../lib/record/series.js";
import { expectClose } from "../../../close.js";

const start = Date.UTC(2024, 0, 1);
/** Warmest at 14.5 h of the civil day, lowest at 2.5 h. */
const cycle = (hour: number): number => 10 + 4 * Math.cos((2 * Math.PI * (hour - 14.5)) / 24);

/** Readings each `minutes` from the civil midnight of 1 January 2024 in a zone. */
function temperature(days: number, minutes: number, offset = 0, at: (hour: number) => number = cycle): Series {
  const times = Array.from({ length: Math.round((days * 1440) / minutes) }, (_, i) => start - 3_600_000 * offset + 60_000 * minutes * i);
  return series({ times, values: times.map((t) => at((t - start) / 3_600_000 + offset)), quantity: "air_temperature" });
}

function without(s: Series, fromHour: number, toHour: number): Series {
  const values = s.values.map((v, i) => (s.seconds[i] >= 3600 * fromHour && s.seconds[i] < 3600 * toHour ? Number.NaN : v));
  return { ...s, values };
}

describe("civil days", () => {
  it("turn at the record's own midnight", () => {
    expect(civilDay(start, 0)).toBe(19723);
    expect(civilDay(start - 1, 0)).toBe(19722);
    expect(civilDay(start, -8)).toBe(19722);
    expect(civilDay(start + 17.9 * 3_600_000, 5.75)).toBe(19723);
    expect(civilDay(start + 18.3 * 3_600_000, 5.75)).toBe(19724);
  });

  it("name days and months, leap years included", () => {
    expect(civilDate(19723 + 59)).toBe("2024-02-29");
    expect(monthDate(civilMonth(19723 + 59))).toBe("2024-02");
    expect(monthStart(civilMonth(19723) + 2) - monthStart(civilMonth(19723) + 1)).toBe(29);
    expect(civilMonth(-1)).toBe(civilMonth(0) - 1);
  });
});

describe("civilHours", () => {
  it("means over civil hours, flagged readings left out", () => {
    const s = temperature(2, 10, 7);
    s.flags[0] = flagBit.spike;
    s.flags[1] = flagBit.warmed;
    const got = civilHours(s, 7);
    expect([got?.firstDay, got?.days, got?.hours.length, got?.stepHours]).toEqual([19723, 2, 48, 1]);
    expectClose(got?.hours[0] ?? Number.NaN, [1, 2, 3, 4, 5].reduce((sum, k) => sum + cycle(k / 6) / 5, 0), { absolute: 1e-12 });
    expect(got?.start).toBe(start - 7 * 3_600_000);
  });

  it("nothing of nothing", () => expect(civilHours(series({ times: [0], values: [null], quantity: "air_temperature" }), 0)).toBeNull());
});

describe("dailySummaries", () => {
  it("gives mean, extremes and their instants in the record's days", () => {
    for (const offset of [0, -8, 5.75]) {
      const days = dailySummaries(temperature(10, 10, offset), offset);
      expect(days.length).toBe(10);
      expect(days[0].date).toBe("2024-01-01");
      for (const d of days) {
        expectClose(d.mean ?? Number.NaN, 10, { absolute: 1e-9 });
        expectClose(d.max ?? Number.NaN, 14, { absolute: 1e-9 });
        expectClose(d.min ?? Number.NaN, 6, { absolute: 1e-9 });
        expect(d.coverage).toBe(1);
        expectClose(((d.maxAt ?? 0) + 3_600_000 * offset - 86_400_000 * d.day) / 3_600_000, 14.5, { absolute: 1e-9 });
      }
    }
  });

  it("missing hours do not bend the mean: the cycle is put back", () => {
    const whole = temperature(20, 30);
    const days = dailySummaries(without(whole, 24 * 8 + 12, 24 * 8 + 17.9), 0);
    const plain = dailySummaries(temperature(20, 30, 0, (h) => (h >= 24 * 8 + 12 && h < 24 * 8 + 17.9 ? Number.NaN : cycle(h))), 0);
    expectClose(days[8].mean ?? Number.NaN, 10, { absolute: 1e-9 }, "with five days of cycle known");
    expect(plain).toEqual(days);
    expectClose(days[8].coverage, 18 / 24, { absolute: 1e-12 });
  });

  it("holds at both sides of 18 hours and of a 6-hour gap", () => {
    const whole = temperature(20, 60);
    const at = (from: number, to: number): DaySummary => dailySummaries(without(whole, 24 * 8 + from, 24 * 8 + to), 0)[8];
    expect(at(0, 6).mean).not.toBeNull();
    expect(at(0, 7).mean).toBeNull();
    expect(dailySummaries(without(without(whole, 24 * 8 + 1, 24 * 8 + 4), 24 * 8 + 8, 24 * 8 + 11), 0)[8].mean).not.toBeNull();
    expect(dailySummaries(without(without(whole, 24 * 8 + 1, 24 * 8 + 5), 24 * 8 + 8, 24 * 8 + 11), 0)[8].mean).toBeNull();
    // A gap of 7 h across midnight spoils both days, although each has 20 hours.
    const across = dailySummaries(without(whole, 24 * 8 - 4, 24 * 8 + 3), 0);
    expect([across[6].mean === null, across[7].mean, across[8].mean, across[9].mean === null]).toEqual([false, null, null, false]);
  });

  it("tells no extreme beside a gap at its usual hour, the other one still", () => {
    const whole = temperature(20, 10);
    const noon = dailySummaries(without(whole, 24 * 8 + 13, 24 * 8 + 15), 0)[8];
    expect([noon.max, noon.maxAt]).toEqual([null, null]);
    expectClose(noon.min ?? Number.NaN, 6, { absolute: 1e-9 });
    const short = dailySummaries(without(whole, 24 * 8 + 13, 24 * 8 + 13.8), 0)[8];
    expect(short.max).not.toBeNull();
    const evening = dailySummaries(without(whole, 24 * 8 + 19.2, 24 * 8 + 23), 0)[8];
    expect([evening.max === null, evening.min === null]).toEqual([false, false]);
  });

  it("readings every 3 hours stand for their step", () => {
    const days = dailySummaries(temperature(20, 180), 0);
    expect(days.every((d) => d.coverage === 1)).toBe(true);
    // Three-hourly joined by lines keep the mean of a 24-hour wave.
    for (const d of days.slice(1, -1)) expectClose(d.mean ?? Number.NaN, 10, { absolute: 0.02 });
    expect(dailySummaries(temperature(20, 360), 0).every((d) => d.mean === null)).toBe(true);
  });

  it("keeps empty days in their place, and nothing of nothing", () => {
    const gap = dailySummaries(without(temperature(10, 60), 48, 96), 0);
    expect(gap.length).toBe(10);
    expect([gap[2].mean, gap[2].min, gap[2].coverage]).toEqual([null, null, 0]);
    expect(dailySummaries(series({ times: [], values: [], quantity: "air_temperature" }), 0)).toEqual([]);
    expect(Object.isFrozen(gap) && Object.isFrozen(gap[0])).toBe(true);
  });

  it("a record of one reading has one day and no mean", () => {
    const one = dailySummaries(series({ times: [start], values: [3], quantity: "air_temperature" }), 0);
    expect(one.length).toBe(1);
    expect([one[0].mean, one[0].max]).toEqual([null, null]);
  });
});

describe("countedDays", () => {
  const day = (mean: number | null, min: number | null, max: number | null): DaySummary => ({ day: 0, date: "1970-01-01", mean, min, max, minAt: null, maxAt: null, coverage: 1 });

  it("sums degrees and counts days, saying from how many", () => {
    const got = countedDays([day(10, -0.1, 20), day(20, 0, 30), day(null, null, 29.9), day(18, -5, null)]);
    expect(got).toEqual({ heatingDegreeDays: 8, coolingDegreeDays: 2, daysWithMean: 3, frostDays: 2, daysWithMin: 3, hotDays: 1, daysWithMax: 3, days: 4 });
    expect(countedDays([day(10, 1, 20)], { base: 12, hotFrom: 20 })).toMatchObject({ heatingDegreeDays: 2, hotDays: 1 });
    expect(countedDays([]).days).toBe(0);
    expect(() => countedDays([], { base: Number.NaN })).toThrow("countedDays: base must be");
  });
});

describe("dewPointRange", () => {
  it("is the range of the dew points of pairs that are both present", () => {
    const got = dewPointRange([20, 20, Number.NaN, 20, 10], [50, 60, 50, Number.NaN, 100]);
    expect(got.readings).toBe(3);
    expectClose(got.lowest, 9.26, { absolute: 0.01 });
    expectClose(got.highest, 12, { absolute: 0.01 });
    expectClose(got.median, 10, { absolute: 1e-9 });
    expect(got.from).toBeLessThan(got.to);
    expect(dewPointRange([], []).lowest).toBeNaN();
    expect(() => dewPointRange([1], [])).toThrow(new RangeError("dewPointRange: humidity must have the length of temperature, 1 (got 0)"));
  });
});
