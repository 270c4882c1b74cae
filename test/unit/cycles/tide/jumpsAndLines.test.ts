import { describe, expect, it } from "vitest";
import { levelJumps } from "../../../../lib/cycles/tide/levelJumps.js";
import { straightReadings } from "../../../../lib/cycles/tide/straightReadings.js";
import { tideSteps } from "../../../../lib/cycles/tide/tideSteps.js";
import { usableReadings } from "../../../../lib/cycles/tide/usableReadings.js";
import { random } from "../../../../lib/ground/random.js";
import { type Series, series } from "../../../../lib/record/series.js";
import { plainAir, plainTide, written } from "../../../plainAir.js";
import { changed, tideRecord } from "../../../tideRecord.js";

const midnight = Date.UTC(2024, 3, 1);
const lines = [{ cyclesPerDay: 2, amplitude: 1.1, crest: 9.7 }, { cyclesPerDay: 1, amplitude: 0.6, crest: 7 }];
const weather = { name: "weather", white: 0.05, ar1: { sd: 4, efolding: 3 } };
const record = (stepMinutes: number, seed: number, days = 30, noise: Parameters<typeof tideRecord>[0]["noise"] = weather): Series =>
  tideRecord({ days, stepMinutes, noise, lines, seed, missing: 0.05 });
const jumpsOf = (s: Series, events: number[] = []): ReturnType<typeof levelJumps> => levelJumps(tideSteps(usableReadings(s)), events);

describe("levelJumps", () => {
  for (const stepMinutes of [5, 60]) {
    it(`finds a station moved, to the step (${stepMinutes} min)`, () => {
      for (const seed of [1, 2, 3, 4]) {
        const s = record(stepMinutes, seed);
        const moved = changed(s, { values: (v, i) => v + (s.seconds[i] >= 12.3 * 86_400 ? 15 : 0) });
        const found = jumpsOf(moved);
        expect(found.length).toBe(1);
        expect(Math.abs(found[0].at - 12.3 * 86_400)).toBeLessThanOrEqual(2 * 3600);
        expect(Math.abs(found[0].size - 15)).toBeLessThan(4); // six hours of weather lie between
      }
    });
  }

  it("finds one across a gap of two days", () => {
    const s = record(60, 5, 60);
    const moved = changed(s, { values: (v, i) => (s.seconds[i] > 20 * 86_400 && s.seconds[i] < 22 * 86_400 ? Number.NaN : v + (s.seconds[i] >= 21 * 86_400 ? 40 : 0)) });
    expect(jumpsOf(moved).length).toBe(1);
  });

  it("finds none in 30 records of weather, rounded or not, nor in a storm that falls for hours", () => {
    let found = 0;
    for (let seed = 10; seed < 40; seed++) {
      const noise = seed % 3 === 0 ? { name: "white", white: 0.5 } : weather;
      const s = record(seed % 2 === 0 ? 60 : 20, seed, 30, noise);
      found += jumpsOf(seed % 5 === 0 ? changed(s, { values: (v) => Math.round(v) }) : s).length;
    }
    expect(found).toBe(0);
    const s = record(60, 50);
    const storm = changed(s, { values: (v, i) => v - 4 * Math.max(0, 8 - Math.abs(s.seconds[i] / 3600 - 300)) });
    expect(jumpsOf(storm)).toEqual([]);
  });

  it("a spike is no jump", () => {
    const s = record(60, 51);
    expect(jumpsOf(changed(s, { values: (v, i) => (i === 300 ? v + 30 : v) }))).toEqual([]);
  });

  it("takes a known event, not one within three days of an end or of another", () => {
    const s = record(60, 52);
    expect(jumpsOf(s, [10 * 86_400]).map((j) => j.at)).toEqual([10 * 86_400]);
    expect(jumpsOf(s, [2 * 86_400, 29 * 86_400, -5])).toEqual([]);
    expect(jumpsOf(s, [10 * 86_400, 12 * 86_400]).length).toBe(1);
  });
});

describe("levelJumps in weather that is rough in winter and calm in summer", () => {
  const swelling = (seed: number): Series => {
    const s = tideRecord({ days: 180, stepMinutes: 60, noise: { name: "rough", white: 0.05, ar1: { sd: 4, efolding: 2 } }, lines: [], seed });
    return changed(s, { values: (v, i) => 1000 + (v - 1000) * (1 + 0.6 * Math.cos((2 * Math.PI * i) / s.values.length)) });
  };
  it("takes no storm for a jump, and still finds a jump in the calm", () => {
    let found = 0;
    for (let seed = 60; seed < 75; seed++) found += jumpsOf(swelling(seed)).length;
    expect(found).toBe(0);
    const s = swelling(60);
    expect(jumpsOf(changed(s, { values: (v, i) => v + (i >= 90 * 24 ? 6 : 0) })).map((j) => j.at / 86_400)).toEqual([90 - 0.5 / 24]);
  });
});

describe("a told event", () => {
  it("is moved to the sudden change within twelve hours of it, not farther, and not over a gap", () => {
    const s = record(60, 52);
    const moved = changed(s, { values: (v, i) => v + (s.seconds[i] >= 10.5 * 86_400 ? 8 : 0) });
    for (const off of [-11, -1, 0.2, 5]) expect(Math.abs(jumpsOf(moved, [10.5 * 86_400 + 3600 * off])[0].at - 10.5 * 86_400)).toBeLessThanOrEqual(3600);
    expect(jumpsOf(moved, [10.5 * 86_400 + 20 * 3600])[0].at).toBe(10.5 * 86_400 + 20 * 3600);
    const gap = changed(moved, { values: (v, i) => (Math.abs(s.seconds[i] - 10.5 * 86_400) < 20_000 ? Number.NaN : v) });
    expect(jumpsOf(gap, [10.5 * 86_400 + 3600])[0].at).toBe(10.5 * 86_400 + 3600);
  });
});

describe("straightReadings", () => {
  const joined = (s: Series, m: number, round = 0, shift = 0): Series =>
    changed(s, {
      values: (_, i) => {
        const k = Math.floor((i - shift) / m) * m + shift;
        const [a, b] = [s.values[Math.max(0, k)], s.values[Math.min(s.values.length - 1, k + m)]];
        const v = a + ((b - a) * (i - k)) / m;
        return round === 0 ? v : Math.round(v / round) * round;
      },
    });
  const whole = (stepMinutes: number, seed: number): Series => tideRecord({ days: 40, stepMinutes, noise: weather, lines, seed });

  it.each([[60, 3, 0, 0], [60, 3, 0.1, 1], [60, 6, 0.01, 2], [60, 2, 0, 0], [10, 6, 0.1, 3], [5, 36, 0.01, 0]])("every %d min, lines over %d steps, rounded to %d", (step, m, round, shift) => {
    const s = whole(step, 7);
    const found = straightReadings(usableReadings(joined(s, m, round, shift)));
    expect(found?.spacing).toBe(m * step * 60);
    const n = found?.readings.seconds.length ?? 0;
    expect(Math.abs(n - s.values.length / m)).toBeLessThanOrEqual(1);
    expect((found?.readings.leftOut ?? 0) + n).toBe(s.values.length);
    expect((found?.readings.seconds ?? []).every((t) => (t / (step * 60) - shift) % m === 0)).toBe(true);
  });

  it("honest readings stay, however coarsely they were rounded", () => {
    for (const [step, round] of [[60, 0], [60, 0.1], [60, 1], [5, 0.1], [10, 1], [60, 0.34]]) {
      const s = whole(step, 8);
      expect(straightReadings(usableReadings(round === 0 ? s : changed(s, { values: (v) => Math.round(v / round) * round }))), `${step} min, ${round} hPa`).toBe(null);
    }
    const few = tideRecord({ days: 2, stepMinutes: 60, noise: weather, lines, seed: 1 });
    expect(straightReadings(usableReadings(few))).toBe(null);
  });

  it("a strong tide in calm air, in whole hPa, is no line between readings twelve hours apart (60 records)", () => {
    const found = Array.from({ length: 60 }, (_, k) => {
      const air = plainAir("waves", 7300 + k, 10);
      const chance = random(k + 77);
      const seconds = Array.from({ length: 240 }, (_, i) => 3600 * i);
      const s = series({ quantity: "surface_air_pressure", times: seconds.map((t) => midnight + 1000 * t), values: seconds.map((t) => written(860 + air(t) + plainTide(t) + 0.15 * Math.cos(6 * Math.PI * (t / 86_400 - 1 / 12)), 0.1, 1, chance.normal)) });
      return straightReadings(usableReadings(s));
    });
    expect(found.filter((f) => f !== null)).toEqual([]);
  });
});
