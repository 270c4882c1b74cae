import { describe, expect, it } from "vitest";
import type { AirRecord } from "../../../lib/record/airRecord.js";
import { flagBit } from "../../../lib/record/flag.js";
import type { Series } from "../../../lib/record/series.js";
import type { ClockDoubt } from "../../../lib/trust/clock/clockDoubt.js";
import { clockDoubts } from "../../../lib/trust/clock/clockDoubts.js";
import { clockOffset } from "../../../lib/trust/clock/clockOffset.js";
import { clocksBetween } from "../../../lib/trust/clock/clocksBetween.js";
import { tideOffset } from "../../../lib/trust/clock/tideOffset.js";
import { crestShift } from "../../../lib/trust/clock/crestShift.js";
import { driftBySun } from "../../../lib/trust/clock/sunClock.js";
import { summerTimeDates } from "../../../lib/trust/clock/summerTimeDates.js";
import { expectClose } from "../../close.js";
import { type AirKind, type Logging, twoClocks } from "../../plainAir.js";
import { pressureRecord, recordStart } from "../../simulation/pressureRecord.js";

const day = 86400000;
const says = (doubts: readonly ClockDoubt[]): string[] => doubts.map((d) => d.says);
const steady = (s: number) => () => s;

function recordOf(barometers: readonly Series[], more: Partial<AirRecord> = {}): AirRecord {
  const places = Object.fromEntries(
    barometers.map((s) => [s.place, { name: s.place, title: s.place, exposure: null, elevation: null, readings: s.seconds.length, repeated: 0, conflicting: 0, start: s.start, seconds: s.seconds, series: { surface_air_pressure: s } }]),
  );
  const [s] = barometers;
  return {
    name: "x", title: "x", site: { latitude: 48, longitude: 0, elevation: 0 }, zone: "+01:00", places, events: [], files: [], jumps: [], zoneChanges: [], corrections: 0, averagedOver: 0,
    from: s.start, to: s.start + 1000 * s.seconds[s.seconds.length - 1], notes: [], ...more,
  };
}

describe("clockOffset", () => {
  it("finds a logger 150 s behind, to a fraction of its step, whatever the instants within the step", () => {
    const [a, b] = pressureRecord(11, { days: 20, step: 300 }, [steady(-150), steady(0)]);
    // The other logger reads 100 s later within each step; its stamps say so.
    const moved = { ...b, start: b.start };
    const found = clockOffset(a, moved);
    expectClose(found?.offset.value ?? Number.NaN, -150, { absolute: 90 }, "rms 27 to 68 s for 20 days");
    expect((found?.offset.low ?? 1) <= -150 && -150 <= (found?.offset.high ?? -999)).toBe(true);
    expect([found?.a, found?.b]).toEqual(["a", "b"]);
  });

  it("does not take different instants of reading for a different clock", () => {
    const [a] = pressureRecord(12, { days: 20, step: 300 }, [steady(0)]);
    // Clock 120 s ahead, stamps moved back by 120 s: right stamps at other instants.
    const [, late] = pressureRecord(12, { days: 20, step: 300 }, [steady(0), steady(120)]);
    const right = { ...late, start: late.start - 120000 };
    expectClose(clockOffset(a, right)?.offset.value ?? Number.NaN, 0, { absolute: 60 }, "no offset");
  });

  it("finds a zone's error of hours", () => {
    const [a, b] = pressureRecord(13, { days: 25, step: 600, fast: 0.2 }, [steady(7 * 3600), steady(0)]);
    expectClose(clockOffset(a, b)?.offset.value ?? Number.NaN, 7 * 3600, { absolute: 120 }, "seven hours ahead");
  });

  it("a level shift and flagged readings do not move it", () => {
    const [a, b] = pressureRecord(14, { days: 20, step: 300 }, [steady(200), steady(0)]);
    const shifted = { ...a, values: a.values.map((v, i) => v + (i > 3000 ? 3 : 0)), flags: a.flags.map((_, i) => (i > 3000 ? flagBit.step : 0)) };
    const found = clockOffset(shifted, b);
    expect((found?.offset.low ?? 999) <= 200 && 200 <= (found?.offset.high ?? 0)).toBe(true);
    expectClose(found?.offset.value ?? Number.NaN, clockOffset(a, b)?.offset.value ?? 0, { absolute: 30 }, "two stretches fewer");
  });

  it("measures a drift from 40 days on, and none before", () => {
    const drifting = (ms: number): number => 3 * ((ms - recordStart) / day);
    const [a, b] = pressureRecord(15, { days: 60, step: 300 }, [drifting, steady(0)]);
    const { drift } = clockOffset(a, b) ?? { drift: null };
    expect(drift?.unit).toBe("s d-1");
    expect((drift?.low ?? 9) <= 3 && 3 <= (drift?.high ?? 0) && (drift?.low ?? -1) > 0).toBe(true);
    const [c, d] = pressureRecord(15, { days: 30, step: 300 }, [drifting, steady(0)]);
    expect(clockOffset(c, d)?.drift).toBeNull();
  });

  it("says nothing about short records, unlike air, or no readings", () => {
    const [a, b] = pressureRecord(16, { days: 5, step: 300 }, [steady(0), steady(0)]);
    expect(clockOffset(a, b)).toBeNull();
    const [c] = pressureRecord(17, { days: 20, step: 600, fast: 0.3 }, [steady(0)]);
    const [d] = pressureRecord(18, { days: 20, step: 600, fast: 0.3 }, [steady(0)]);
    const stranger = clockOffset(c, d);
    // Two places far apart share no weather: nothing, or an interval that admits it.
    if (stranger !== null) expect(stranger.offset.high - stranger.offset.low).toBeGreaterThan(600);
    expect(clockOffset({ ...a, seconds: new Float64Array(0), values: new Float64Array(0), flags: new Uint16Array(0) }, b)).toBeNull();
  });

  it("holds the truth as often as it says, from 5 minutes to an hour, for offsets of any part of a step (40 records)", () => {
    let held = 0;
    for (const [step, days] of [[300, 10], [600, 15], [1800, 25], [3600, 40]]) {
      for (let k = 0; k < 10; k++) {
        const truth = (k / 10) * step + 20;
        const [a, b] = pressureRecord(3000 + k, { days, step, noise: step === 300 ? 0.1 : 0.05 }, [steady(truth), steady(0)]);
        const found = clockOffset(a, b);
        if (found !== null && found.offset.low <= truth && truth <= found.offset.high) held++;
      }
    }
    // 95 % of 40 is 38 with a deviation of 1.4.
    expect(held).toBeGreaterThanOrEqual(35);
  });
});

describe("clockOffset in other air than usual", () => {
  const held = (kind: AirKind, seeds: readonly number[], logging: Logging): number =>
    seeds.filter((seed) => {
      const { truth, a, b } = twoClocks(kind, seed, logging);
      const found = clockOffset(a, b)?.offset;
      return found !== undefined && found.low <= truth && truth <= found.high;
    }).length;

  it("finds the right lobe of loggers by the minute that hardly hiss", () => {
    expect(held("rough", [11, 12, 13, 14, 15, 16], { days: 8, step: 60, noise: 0, rounding: 0 })).toBe(6);
  });

  it("is not drawn to none by slow weather that passes for cycles, in smooth air", () => {
    expect(held("smooth", [9077, 9154, 9231, 9308, 9385, 9462, 9539, 9616, 9693, 9770], { days: 25, step: 300, noise: 0.02, rounding: 0.01 })).toBeGreaterThanOrEqual(9);
  });

  it("shows the whole of an offset where the air is lines between hours", () => {
    expect(held("lined", [21, 22, 23, 24, 25, 26, 27, 28], { days: 25, step: 300, noise: 0.02, rounding: 0.01 })).toBeGreaterThanOrEqual(7);
  });

  it("says nothing where the air has nothing fast, instead of none for sure", () => {
    for (const [seed, noise] of [[31, 0], [32, 0], [33, 0.02], [34, 0.02]]) {
      const { a, b } = twoClocks("waves", seed, { days: 20, step: 300, noise, rounding: 0 });
      expect(clockOffset(a, b), `seed ${seed}`).toBeNull();
    }
  });
});

describe("tideOffset", () => {
  const logging = { days: 20, step: 300, noise: 0.05, rounding: 0.1 };

  it("holds the truth in air that has nothing fast, with what a warmed barometer may add in its interval", () => {
    for (const [seed, step, days] of [[41, 300, 20], [42, 600, 30], [43, 3600, 40], [44, 60, 9]]) {
      const { truth, a, b } = twoClocks("waves", seed, { ...logging, step, days });
      const found = tideOffset(a, b);
      if (found === null) throw new Error("no offset");
      expect(found.offset.low <= truth && truth <= found.offset.high, `seed ${seed}`).toBe(true);
      // 0.01 hPa of 1 hPa is 69 s of the tide's phase.
      expect(found.offset.standardError).toBeGreaterThan(60);
      expect(found.offset.standardError).toBeLessThan(110);
      expect([found.windows.length, found.drift, found.stretches, found.lastFrequency, found.a, found.b]).toEqual([0, null, 0, 2, "a", "b"]);
      expectClose(tideOffset(b, a)?.offset.value ?? Number.NaN, -found.offset.value, { absolute: 1e-6 });
    }
  });

  it("stands in where the air between two barometers tells nothing, and only there", () => {
    const { truth, a, b } = twoClocks("waves", 32, { days: 20, step: 300, noise: 0, rounding: 0 });
    const [told] = clocksBetween(recordOf([a, b]));
    expect(told.offset.low <= truth && truth <= told.offset.high && told.stretches === 0).toBe(true);
    const rough = twoClocks("rough", 32, logging);
    expect(clocksBetween(recordOf([rough.a, rough.b]))[0]).toEqual(clockOffset(rough.a, rough.b));
  });

  it("says nothing of a weak or unlike tide, of coarse pressure, of a few days or of tides hours apart", () => {
    const { a, b } = twoClocks("waves", 45, logging);
    const scaled = (s: Series, by: number): Series => ({ ...s, values: s.values.map((v) => 860 + by * (v - 860)) });
    expect(tideOffset(scaled(a, 0.7), b)).toBeNull();
    expect(tideOffset(scaled(a, 0), scaled(b, 0))).toBeNull();
    const coarse = ({ values, ...s }: Series): Series => ({ ...s, values: values.map(Math.round) });
    expect(tideOffset(coarse(a), coarse(b))).toBeNull();
    const [c, d] = [twoClocks("waves", 45, { ...logging, days: 6 })].flatMap((pair) => [pair.a, pair.b]);
    expect(tideOffset(c, d)).toBeNull();
    expect(tideOffset({ ...a, start: a.start + 4 * 3_600_000 }, b)).toBeNull();
    expect(tideOffset({ ...a, start: a.start + 2 * 3_600_000 }, b)?.offset.value).toBeGreaterThan(6600);
    const noisy = twoClocks("waves", 45, { ...logging, noise: 12 });
    expect(tideOffset(noisy.a, noisy.b)).toBeNull();
  });
});

describe("summer time", () => {
  const change = Date.UTC(2024, 2, 31);
  const keepsSummerTime = (ms: number): number => (ms >= change ? 3600 : 0);

  it("knows the usual dates, and none in the tropics", () => {
    const dates = (latitude: number): string[] => summerTimeDates(Date.UTC(2024, 0, 1), Date.UTC(2024, 11, 31), latitude).map(({ at, seconds }) => `${new Date(at).toISOString().slice(0, 10)} ${seconds}`);
    expect(dates(48)).toEqual(["2024-03-10 3600", "2024-03-31 3600", "2024-10-27 -3600", "2024-11-03 -3600"]);
    expect(dates(-35)).toEqual(["2024-04-07 -3600", "2024-10-06 3600"]);
    expect(dates(-7)).toEqual([]);
  });

  it("trap: one column follows the civil clock, another standard time: told by the barometers, with the dates", () => {
    const barometers = pressureRecord(21, { days: 120, step: 600, fast: 0.15 }, [keepsSummerTime, steady(0)]);
    const offset = clockOffset(barometers[0], barometers[1]);
    const doubts = says(clockDoubts(recordOf(barometers), offset === null ? [] : [offset]));
    expect(doubts.filter((d) => d.includes("one of the two seems to keep summer time and the other not")).length).toBeGreaterThanOrEqual(1);
    expect(doubts[0]).toMatch(/^the clock of a goes forward by \d+ min against that of b between 2024-03-\d\d and 2024-04-\d\d, by their barometers/);
  });

  it("trap: daylight saving read as a fixed offset, one logger: the tide's crest moves by an hour", () => {
    const [a] = pressureRecord(22, { days: 130, step: 1800, weather: [2, 60] }, [keepsSummerTime]);
    const shift = crestShift(a, 0, { at: change, from: -Infinity, to: Infinity });
    expectClose(shift?.value ?? Number.NaN, 1, { absolute: 0.25 }, "one hour later");
    const doubts = says(clockDoubts(recordOf([a]), []));
    expect(doubts.some((d) => /crests (0\.\d|1\.\d) h later after 2024-03-\d\d than before it/.test(d))).toBe(true);
  });

  it("says nothing of a clock that is right, in twelve records", () => {
    for (let seed = 0; seed < 12; seed++) {
      const barometers = pressureRecord(4000 + seed, { days: 130, step: 3600 }, [steady(0), steady(0)]);
      const offset = clockOffset(barometers[0], barometers[1]);
      expect(says(clockDoubts(recordOf(barometers), offset === null ? [] : [offset])), `seed ${4000 + seed}`).toEqual([]);
    }
  });

  it("takes a jump of an hour near such a date, in a fixed zone, for summer time; others not", () => {
    const [a] = pressureRecord(23, { days: 100, step: 3600 }, [steady(0)]);
    const jump = (at: number, seconds: number) => [{ place: "a", at, seconds }];
    const said = says(clockDoubts(recordOf([a], { jumps: jump(change + 3 * 3600000, 3600) }), []));
    expect(said[0]).toBe("the clock of a goes forward by 60 min on 2024-03-31, when civil clocks change: it seems to keep summer time, while the description says the fixed zone +01:00; give the zone by its IANA name");
    expect(says(clockDoubts(recordOf([a], { jumps: jump(change + 3 * 3600000, -3600) }), []))).toEqual([]);
    expect(says(clockDoubts(recordOf([a], { jumps: jump(Date.UTC(2024, 1, 10), 3600) }), []))).toEqual([]);
    expect(says(clockDoubts(recordOf([a], { jumps: jump(change, 1200) }), []))).toEqual([]);
  });

  it("stamps that move within the hour are no moving tide: a shift of half an hour, and 0.4 s an hour over 400 days", () => {
    const [whole] = pressureRecord(26, { days: 120, step: 1800, weather: [2, 60] }, [steady(0)]);
    // Hourly readings: on the hour before, at half past from day 60 on.
    const kept = Array.from(whole.seconds.keys()).filter((i) => (i < 60 * 48 ? i % 2 === 0 : i % 2 === 1));
    const moved = { ...whole, seconds: Float64Array.from(kept, (i) => whole.seconds[i]), values: Float64Array.from(kept, (i) => whole.values[i]), flags: new Uint16Array(kept.length) };
    const around = { at: recordStart + 60 * day, from: -Infinity, to: Infinity };
    const [shift, all] = [crestShift(moved, 0, around), crestShift(whole, 0, around)];
    expectClose(shift?.value ?? Number.NaN, all?.value ?? 0, { absolute: 0.1 }, "whole hours made 0.5 h of it");
    const [slow] = pressureRecord(27, { days: 400, step: 3600.4, weather: [2, 60] }, [steady(0)]);
    const drift = driftBySun(recordOf([slow]).places[slow.place], 0)?.estimate;
    expect((drift?.low ?? 9) < 0 && (drift?.high ?? -9) > 0, `${drift?.value} s a day`).toBe(true);
    expect(Math.abs(drift?.value ?? 9)).toBeLessThan(2);
  });

  it("crestShift refuses under 20 days on a side and where no tide is seen", () => {
    const [a] = pressureRecord(24, { days: 60, step: 3600 }, [steady(0)]);
    expect(crestShift(a, 0, { at: recordStart + 10 * day, from: -Infinity, to: Infinity })).toBeNull();
    const [flat] = pressureRecord(25, { days: 60, step: 3600, tide: [], weather: [6, 12] }, [steady(0)]);
    expect(crestShift(flat, 0, { at: recordStart + 30 * day, from: -Infinity, to: Infinity })).toBeNull();
  });
});
