import { describe, expect, it } from "vitest";
import { dayToDayTide } from "../../../../lib/cycles/swings/dayToDayTide.js";
import { levelReader } from "../../../../lib/cycles/swings/meanReading.js";
import { pressureTendency, type TideOfPlace, tendencyCaution } from "../../../../lib/cycles/swings/pressureTendency.js";
import { shortestStepNoise } from "../../../../lib/cycles/swings/shortestStepNoise.js";
import { random } from "../../../../lib/ground/random.js";
import { expectClose } from "../../../close.js";

const start = Date.UTC(2024, 5, 1);
const noTide: TideOfPlace = { valueAt: () => 0, changeVariance: () => 0, isDetected: false };
const s2: TideOfPlace = { valueAt: (at) => 1.2 * Math.cos((4 * Math.PI * (at / 3_600_000 - 10)) / 24), changeVariance: () => 0.0004, isDetected: true };

/** Readings each `minutes`, pressure by a function of hours. */
function readings(hours: number, minutes: number, pressure: (hour: number) => number): { start: number; seconds: Float64Array; values: Float64Array } {
  const seconds = Float64Array.from({ length: Math.floor((60 * hours) / minutes) + 1 }, (_, i) => 60 * minutes * i);
  return { start, seconds, values: seconds.map((s) => pressure(s / 3600)) };
}

describe("levelReader", () => {
  it("takes the mean within 15 min at fine steps, and one reading else", () => {
    const fine = levelReader(readings(12, 5, (h) => h), () => 0);
    const level = fine?.level(6 * 3600);
    expectClose(level?.raw ?? Number.NaN, 6, { absolute: 1e-12 });
    expectClose(level?.noiseFactor ?? Number.NaN, 1 / 7, { absolute: 1e-12 });
    expect([fine?.first, fine?.last]).toEqual([900, 12 * 3600 - 900]);
    const hourly = levelReader(readings(12, 60, (h) => h), () => 0);
    expect(hourly?.level(6 * 3600)?.noiseFactor).toBe(1);
    expectClose(hourly?.between(6.5 * 3600)?.raw ?? Number.NaN, 6.5, { absolute: 1e-12 });
    expect(hourly?.between(6.5 * 3600)?.noiseFactor).toBe(0.5);
    expect(hourly?.between(7 * 3600)?.noiseFactor).toBe(1);
  });

  it("has no level beside a gap within half an hour", () => {
    const r = readings(12, 5, (h) => h);
    for (let i = 60; i < 66; i++) r.values[i] = Number.NaN;
    const reader = levelReader(r, () => 0);
    expect(reader?.level(5.2 * 3600)).toBeNull();
    expect(reader?.level(4.6 * 3600)).toBeNull();
    expect(reader?.level(4.3 * 3600)).not.toBeNull();
    expect(reader?.level(6.1 * 3600)).not.toBeNull();
  });

  it("needs two readings", () => {
    expect(levelReader({ start, seconds: [0], values: [1] }, () => 0)).toBeNull();
    expect(levelReader({ start, seconds: [0, 60], values: [1, Number.NaN] }, () => 0)).toBeNull();
  });
});

describe("pressureTendency", () => {
  it("takes the tide out of a rise", () => {
    const rise = (h: number): number => 1000 + 0.4 * h;
    for (const minutes of [5, 10, 15, 30, 60]) {
      const got = pressureTendency(readings(49, minutes, (h) => rise(h) + s2.valueAt(start + 3_600_000 * h)), s2, { reading: 0.05, dayToDay: 0 });
      expectClose(got.last?.tideFree.value ?? Number.NaN, 1.2, { absolute: 1e-9 }, `${minutes} min`);
      expect(Math.abs((got.last?.raw.value ?? 0) - 1.2)).toBeGreaterThan(0.2);
      expect(got.last?.term).toBe("rising slowly");
      expect(got.last?.characteristic).toBe(2);
      expect(got.last?.characteristicSays).toBe("rose; higher now");
      const shift = minutes <= 15 ? 15 * 60_000 : 0;
      expect(got.last?.at).toBe(start + 49 * 3_600_000 - shift);
      expect(got.series.at.length).toBe(16);
      for (let k = 0; k < 16; k++) expectClose(got.series.tideFree[k], 1.2, { absolute: 1e-9 });
      expect(got.series.at[1] - got.series.at[0]).toBe(3 * 3_600_000);
      expect(got.series.at[15]).toBe(got.last?.at);
    }
  });

  it("adds up its error: readings, tide, day to day", () => {
    const got = pressureTendency(readings(49, 60, () => 1000), s2, { reading: 0.05, dayToDay: 0.01 });
    const { errors, tideFree, raw } = got.last ?? { errors: null, tideFree: null, raw: null };
    expectClose(errors?.readings ?? 0, 0.05 * Math.SQRT2, { absolute: 1e-12 });
    expectClose(errors?.tideFit ?? 0, 0.02, { absolute: 1e-12 });
    expectClose(errors?.dayToDay ?? 0, Math.sqrt(2 * 0.585786 * 0.01), { relative: 1e-5 });
    expectClose(tideFree?.standardError ?? 0, Math.hypot(0.05 * Math.SQRT2, 0.02, Math.sqrt(2 * 0.585786 * 0.01)), { relative: 1e-5 });
    expectClose(raw?.standardError ?? 0, 0.05 * Math.SQRT2, { absolute: 1e-12 });
    expectClose((tideFree?.high ?? 0) - (tideFree?.value ?? 0), 1.959964 * (tideFree?.standardError ?? 0), { relative: 1e-9 });
  });

  it("reads the shape of the three hours", () => {
    const shape = (pressure: (hour: number) => number): number | null | undefined => pressureTendency(readings(48, 60, pressure), noTide, { reading: 0, dayToDay: 0 }).last?.characteristic;
    expect(shape((h) => 1000 + (h <= 46.5 ? h : 93 - h) + 0.4 * Math.max(0, h - 46.5))).toBe(0);
    expect(shape((h) => 1000 - Math.abs(h - 46.6))).toBe(0);
    expect(shape((h) => 1000 + Math.max(0, h - 46.5))).toBe(3);
    expect(shape((h) => 1000 - Math.min(h, 46.5))).toBe(6);
    expect(shape(() => 1000)).toBe(4);
  });

  it("says nothing beside a gap, and NaN in the series", () => {
    const r = readings(48, 10, (h) => 1000 + h);
    for (let i = 0; i < r.values.length; i++) if (r.seconds[i] > 44.5 * 3600 && r.seconds[i] < 45.5 * 3600) r.values[i] = Number.NaN;
    const got = pressureTendency(r, noTide, { reading: 0, dayToDay: 0 });
    expect(got.last).toBeNull();
    expect(got.warnings).toContain("no newest tendency: a gap in the last three hours");
    const n = got.series.raw.length;
    expect(got.series.raw[n - 1]).toBeNaN();
    expect(got.series.raw[n - 3]).not.toBeNaN();
  });

  it("a gap in the middle takes the shape away and leaves the change", () => {
    const r = readings(48, 10, (h) => 1000 + h);
    for (let i = 0; i < r.values.length; i++) if (Math.abs(r.seconds[i] - 46.25 * 3600) < 0.3 * 3600) r.values[i] = Number.NaN;
    const got = pressureTendency(r, noTide, { reading: 0, dayToDay: 0 });
    expectClose(got.last?.raw.value ?? Number.NaN, 3, { absolute: 1e-9 });
    expect(got.last?.characteristic).toBeNull();
    expect(got.last?.characteristicSays).toBeNull();
  });

  it("takes nothing out where no tide is detected and its error exceeds it", () => {
    const unsure: TideOfPlace = { ...s2, changeVariance: () => 9, isDetected: false };
    const got = pressureTendency(readings(48, 60, (h) => 1000 + h), unsure, { reading: 0, dayToDay: 0 });
    expectClose(got.last?.tideFree.value ?? Number.NaN, 3, { absolute: 1e-12 });
    expect(got.warnings).toContain("no tide stands out of the weather yet: nothing was taken out of the tendency");
    expect(got.last?.term).toBe("no clear change");
  });

  it("warns by what it knows", () => {
    const steady = readings(240, 60, (h) => 1000 + s2.valueAt(start + 3_600_000 * h));
    expect(pressureTendency(steady, s2, { reading: 0.01, dayToDay: 0 }).warnings).toContain("within a day of unusual daily tide the tendency's interval is too narrow");
    expect(pressureTendency(steady, s2, { reading: 0.01, dayToDay: null }).warnings).toContain("too short to tell how the daily tide changes from day to day: the tendency's interval is too narrow");
    const wide: TideOfPlace = { ...s2, changeVariance: () => 0.04 };
    expect(pressureTendency(steady, wide, { reading: 0.01, dayToDay: 0 }).warnings).toContain("most of the tendency's uncertainty (± 0.39 hPa) is the tide's own; a longer record makes it smaller");
    expect(tendencyCaution).toContain("not a storm warning");
  });

  it("works on readings every three hours, not on rarer ones, not on one", () => {
    const three = pressureTendency(readings(48, 180, (h) => 1000 + h), noTide, { reading: 0, dayToDay: 0 });
    expectClose(three.last?.raw.value ?? Number.NaN, 3, { absolute: 1e-9 });
    expect(pressureTendency(readings(48, 240, (h) => h), noTide, { reading: 0, dayToDay: 0 }).warnings).toEqual(["no tendency: readings are more than 3 hours apart"]);
    expect(pressureTendency({ start, seconds: [], values: [] }, noTide, { reading: 0, dayToDay: 0 }).warnings).toEqual(["no tendency: fewer than two readings"]);
  });

  it("tells the change for exactly three hours where stamps wander", () => {
    const seconds = Float64Array.from({ length: 50 }, (_, i) => 3600 * i + ((i * 397) % 600) - 300);
    const got = pressureTendency({ start, seconds, values: seconds.map((s) => 1000 + s / 3600) }, noTide, { reading: 0, dayToDay: 0 });
    got.series.raw.forEach((v) => {
      expectClose(v, 3, { absolute: 1e-9 });
    });
  });
});

describe("dayToDayTide", () => {
  /** A daily wave whose two sizes have standard deviation `wobble` and a correlation `memory` from day to day. */
  const weather = (seed: number, days: number, wobble: number, memory = 0): Float64Array => {
    const { normal } = random(seed);
    let x = 0;
    let [a, b] = [0, 0];
    return Float64Array.from({ length: 24 * days }, (_, i) => {
      x = Math.exp(-1 / 48) * x + normal() * 0.06;
      const fresh = wobble * Math.sqrt(1 - memory * memory);
      if (i % 24 === 0) [a, b] = [memory * a + fresh * normal(), memory * b + fresh * normal()];
      return 1000 + x + a * Math.cos((2 * Math.PI * i) / 24) + b * Math.sin((2 * Math.PI * i) / 24);
    });
  };

  it("finds the variance of a tide that changes over several days, a quarter of it where days are independent", () => {
    const found = (memory: number): number => [1, 2, 3, 4, 5, 6].reduce((sum, seed) => sum + (dayToDayTide(weather(seed, 90, 0.1, memory)) ?? Number.NaN) / 6, 0);
    expectClose(found(0.8), 0.01, { relative: 0.35 }, "correlation 0.8 from day to day");
    // Independent days spread over ±1 cpd: sinc² holds 0.55 of them within ±0.3 cpd, and the line beneath takes half of that.
    expectClose(found(0), 0.0027, { relative: 0.35 }, "independent days");
  });

  it("is near nothing for a steady tide, null when too short", () => {
    expect(dayToDayTide(weather(7, 90, 0)) ?? 1).toBeLessThan(0.001);
    expect(dayToDayTide(weather(7, 7.9, 0.1))).toBeNull();
    expect(dayToDayTide(weather(7, 8, 0.1))).not.toBeNull();
  });
});

describe("shortestStepNoise", () => {
  const noisy = (minutes: number, sigma: number, digit: number): { seconds: Float64Array; values: Float64Array } => {
    const { normal } = random(91);
    const seconds = Float64Array.from({ length: 4000 }, (_, i) => 60 * minutes * i);
    return { seconds, values: seconds.map((s) => Math.round((1000 + Math.sin(s / 40000) + sigma * normal()) / digit) * digit) };
  };

  it("measures white noise at short steps", () => {
    const { seconds, values } = noisy(5, 0.05, 0.001);
    expectClose(shortestStepNoise(seconds, values) ?? Number.NaN, 0.05, { relative: 0.05 });
  });

  it("gives the digits' own error where digits are coarse", () => {
    const { seconds, values } = noisy(1, 0.001, 0.1);
    expectClose(shortestStepNoise(seconds, values) ?? Number.NaN, 0.1 / Math.sqrt(12), { relative: 1e-6 });
  });

  it("says nothing above 5 minutes or from too little", () => {
    const hourly = noisy(60, 0.05, 0.001);
    expect(shortestStepNoise(hourly.seconds, hourly.values)).toBeNull();
    expect(shortestStepNoise([0, 60, 120], [1, 2, 1])).toBeNull();
    expect(shortestStepNoise([], [])).toBeNull();
  });

  it("leaves out differences across gaps", () => {
    const { seconds, values } = noisy(5, 0.05, 0.001);
    const kept = Array.from(seconds.keys()).filter((i) => i % 10 < 7);
    const got = shortestStepNoise(Float64Array.from(kept, (i) => seconds[i]), Float64Array.from(kept, (i) => values[i] + Math.floor(i / 10)));
    expectClose(got ?? Number.NaN, 0.05, { relative: 0.1 });
  });
});
